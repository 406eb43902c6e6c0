"""Whole jobs, read from their folders: what the page says is true on the day of handing over and thirty years on."""

import re
from datetime import date

import pytest

from buildbook.book.bind_job import pages_of
from buildbook.care import rules
from buildbook.job import read_job
from buildbook.job.proof import proof
from buildbook.pages.client.card import card_of
from buildbook.summary import summarise
from buildbook.trade import tables
from buildbook.words import Words, languages
from tests.pages.made import plain

SHOP = 'name = "Shop"\nmaker = "A. Maker"\ncountry = "DE"\n'
OAK = "part,kind,material,length,width,thickness,cut,fit,opening,finish\n"
TOP = "Top,wood,European oak,1600,800,25,quarter,elongated holes,{opening},body\n"
LEG = "Leg,wood,European oak,700,60,60,,,,body\n"


def job_of(make_job, toml, table="", shop=SHOP, name="a-job"):
    table = table or OAK + TOP.format(opening="820") + LEG
    return read_job(make_job(name, **{"job.toml": toml, "parts.csv": table, "shop.toml": shop}))


def toml(**more):
    said = {"title": '"Table"', "number": '"1"', "piece": '"dining table"', "delivered": "2022-04-20"} | more
    finish = said.pop("finish", 'key = "body"\nfamily = "hardwax-oil"\ncoats = [2022-04-10]')
    return "\n".join([*(f"{key} = {value}" for key, value in said.items()), "[[finish]]", finish, ""])


def page(make_job, text, *more, **others):
    return pages_of(job_of(make_job, text, *more, **others))[0]


def every_sentence(piece):
    """All that a reader meets on the page, as one text."""
    advice = [item for group in piece.care for item in group.items] + list(piece.seasons.advice)
    said = [*piece.seasons.sentences, *(f"{a.title} {a.text} {a.why}" for a in advice)]
    said += [line.value + line.note for finish in piece.finishes for line in finish.lines]
    return plain(" ".join([*said, *(line.note for line in piece.figures)]))


# -- handed over too soon ----------------------------------------------------------------------------


def test_a_piece_that_went_before_its_finish_was_dry_is_told_by_proof_and_by_the_first_line_of_the_page(
    make_job,
):
    early = toml(delivered="2022-04-11")  # hardwax oil: careful use two days after the last coat
    folder = make_job(**{"job.toml": early, "parts.csv": OAK + TOP.format(opening="820"), "shop.toml": SHOP})
    told = [p for _, problems in proof(folder).jobs for p in problems if p.field == "delivered"]
    assert [p.severity for p in told] == ["warning"]
    assert "only from 2022-04-12" in told[0].message
    first = pages_of(read_job(folder))[0].day_one[0]
    assert plain(first.text) == (
        "Use it only from these days on: the hardwax oil with care from 12 April 2022, fully from 8 May 2022."
    )


@pytest.mark.parametrize("delivered", ["2022-04-12", "2022-06-01"])
def test_one_that_went_in_time_is_not(make_job, delivered):
    job = job_of(make_job, toml(delivered=delivered))
    assert not [p for p in job.problems if p.field == "delivered"]
    assert "too-soon" not in {short.key for short in pages_of(job)[0].day_one}


# -- what is over stands last ------------------------------------------------------------------------


def test_what_holds_until_a_day_names_it_and_stands_after_all_that_lasts(make_job):
    """Bound today or in thirty years the page has the same bytes: it cannot know that the day is over, so it tells it."""
    piece = page(make_job, toml(doors="2", piece='"cabinet"', overall='{ height = "1900" }'))
    assert [group.key for group in piece.care][-1] == "now"
    assert plain(piece.care[-1].heading) == "The first weeks, until 8 May 2022"
    assert plain(piece.first_weeks.heading) == plain(piece.care[-1].heading)
    keys = [short.key for short in piece.day_one]
    assert keys[-1] == "cure-before-use"
    assert keys[0] == "tip-over"
    assert card_of(piece).things[-1].key == "cure-before-use"


def test_a_page_does_not_open_with_what_is_long_over(make_job):
    """A table has nothing else for the first day: then nothing stands there at all, and the list of contents leads on."""
    piece = page(make_job, toml())
    assert piece.day_one == ()
    assert [group.key for group in piece.care][-1] == "now"


def test_the_first_weeks_have_no_day_where_it_is_not_known(make_job):
    undelivered = toml().replace("delivered = 2022-04-20\n", "")
    undated = toml(finish='key = "body"\nfamily = "hardwax-oil"')
    for number, text in enumerate((undelivered, undated)):
        piece = page(make_job, text, name=f"job-{number}")
        assert piece.first_weeks.heading == "The first weeks"


# -- built for it only where it was looked at ---------------------------------------------------------

WIDE_SHELF = "Shelf,wood,European oak,900,300,20,quarter,{fit},{opening},body\n"


@pytest.mark.parametrize(
    ("rows", "built", "usual"),
    [
        ((TOP.format(opening="820"), LEG), True, True),
        ((TOP.format(opening=""), LEG), False, True),  # nobody wrote how much room the slots leave
        ((TOP.format(opening="820"), WIDE_SHELF.format(fit="glued", opening="")), False, True),
        ((TOP.format(opening="820"), "Panel,wood,European oak,900,,20,quarter,,,body\n"), False, True),
        ((TOP.format(opening="801"), LEG), False, False),  # too tight by the figures
    ],
    ids=["each has room", "no slot told", "another part not told", "a part without a width", "too tight"],
)
def test_the_page_says_that_it_is_built_for_the_seasons_only_where_each_part_was_checked(
    make_job, rows, built, usual
):
    said = every_sentence(page(make_job, toml(), OAK + "".join(rows)))
    assert ("built to allow for it" in said) == built
    assert ("is normal" in said) == usual


# -- the seasons of the place -------------------------------------------------------------------------


def test_outdoors_nothing_is_said_of_rooms_heating_or_a_household_band(make_job):
    shop = SHOP + 'climate = { rh_low = 35, rh_high = 60, temperature = "20 degC" }\n'
    bench = toml(piece='"garden bench"', use='"Outdoors, all year"')
    table = OAK + "Slat,wood,iroko,1500,100,25,quarter,,,body\n"
    job = job_of(make_job, bench, table, shop)
    piece = pages_of(job)[0]
    assert (piece.year, piece.dial) == (None, None)
    said = every_sentence(piece)
    for words in ("your rooms", "for rooms", "heating", "rh-band", "humidity meter", "built to allow"):
        assert words not in said, words
    assert "outdoor air between 55 and 85 %" in said
    assert summarise(job).air.rh_high_pct == 85  # not the 60 of the rooms of the shop's clients
    stated = bench.replace(
        "[[finish]]", 'climate = { rh_low = 60, rh_high = 90, temperature = "10 degC" }\n[[finish]]'
    )
    assert "outdoor air between 60 and 90 %" in every_sentence(page(make_job, stated, table, shop, name="b"))


def test_a_part_that_fits_indoors_is_held_against_the_damp_outdoors(make_job):
    """800 mm of quarter-sawn oak in 808 mm: room enough in a house, not in a garden."""
    rows = OAK + TOP.format(opening="808")
    inside = summarise(job_of(make_job, toml(), rows)).movement[0]
    outside = summarise(job_of(make_job, toml(use='"In the garden"'), rows, name="b")).movement[0]
    assert (inside.ok, outside.ok) == (True, False)


def test_the_air_that_is_told_is_the_air_that_the_page_names(make_job):
    climate = '{ rh_low = 40, rh_high = 65, temperature = "20 degC" }'
    told, untold = page(make_job, toml(climate=climate)), page(make_job, toml(), name="b")
    for piece, low, high in ((told, "40", "65"), (untold, "35", "55")):
        (band,) = (item for item in piece.seasons.advice if item.key == "rh-band")
        assert f"between {low} % and {high} % humidity" in plain(band.text)
        assert "weeks, not hours" in band.text
        assert "75 %" in plain(band.text)
        assert plain(piece.dial.low), plain(piece.dial.high) == (f"{low} %", f"{high} %")


def test_the_damp_months_are_those_of_the_country_where_it_stands(make_job):
    def widest(name, shop=SHOP, **more):
        year = page(make_job, toml(**more), shop=shop, name=name).year
        return year.months[year.widest].name

    assert widest("north") == "August"
    assert widest("south", SHOP.replace("DE", "NZ")) == "February"
    assert widest("sent", goes_to='"New Zealand"') == "February"


def test_a_country_that_is_not_known_is_told(make_job):
    (told,) = (p for p in job_of(make_job, toml(goes_to='"Atlantis"')).problems if p.field == "goes_to")
    assert told.severity == "warning"


# -- renewing ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("wear", ["daily", "now and then", "never"])
@pytest.mark.parametrize("family", [family.key for family in tables.finishes()])
def test_no_renewal_without_an_instruction_and_no_instruction_without_a_date(make_job, family, wear):
    finish = f'key = "body"\nfamily = "{family}"\ncoats = [2022-04-10]\nwear = "{wear}"'
    piece = page(make_job, toml(finish=finish))
    told = [item for item in piece.mending if item.key.startswith("renew-")]
    due = [one for one in piece.due if one.key.startswith("renew-")]
    interval = tables.finishes()[family].refresh_months
    assert len(told) == (wear != "never")
    assert len(due) == (wear != "never" and interval is not None)
    for one in due:
        assert one.text == told[0].text
        assert one.every_months == (interval.low if wear == "daily" else interval.high)
        assert one.day > date(2022, 4, 20)
    if told and not due:
        assert "no fixed time" in told[0].why  # by its look, and that is said


INSIDE = "Drawer side,wood,European oak,400,120,12,,,,body\n"


@pytest.mark.parametrize(
    ("kind", "rows", "months"),
    [
        ("dining table", TOP.format(opening="820"), 24),
        ("dining chair", "Arm,wood,European oak,400,60,30,,,,body\n", 24),
        ("wardrobe", "Side,wood,European oak,1800,500,20,,,,body\n", 48),
        ("sideboard", TOP.format(opening="820"), 24),
        ("sideboard", "Side,wood,European oak,700,400,20,,,,body\n", 48),
        ("sideboard", INSIDE, None),
        ("picture frame", "Rail,wood,European oak,700,40,20,,,,body\n", None),
        ("garden bench", "Slat,wood,European oak,1500,60,25,,,,body\n", 24),
    ],
)
def test_how_soon_it_is_renewed_follows_from_what_it_is_and_who_touches_it(make_job, kind, rows, months):
    """Hardwax oil: 24 to 48 months."""
    piece = page(make_job, toml(piece=f'"{kind}"'), OAK + rows)
    assert [d.every_months for d in piece.due if d.key.startswith("renew-")] == ([months] if months else [])
    assert any("Renew it about every" in said for finish in piece.finishes for said in finish.said) == bool(
        months
    )


def test_what_renews_a_finish_is_marked_as_such_in_the_rules():
    named = {rule.key for rule in rules() if rule.key.startswith("renew-")} - {
        "renew-declared"
    }  # with what, not how
    assert {rule.key for rule in rules() if rule.renews} == named


# -- each thing at its time -------------------------------------------------------------------------------

OFTEN = {
    "month": r"\b(once a month|each month|monthly)\b|einmal im Monat|jeden Monat",
    "half-year": r"\btwice a year\b|zweimal im Jahr",
    "year": r"\b(once a year|each year|yearly)\b|einmal im Jahr|jedes Jahr",
    "spring": r"\beach spring\b|jedes Frühjahr|in jedem Frühjahr",
}


@pytest.mark.parametrize("language", languages())
def test_what_a_text_says_of_how_often_is_when_the_calendar_calls(language):
    words = Words(language)
    seen = 0
    for rule in rules():
        if rule.audience == "maker":
            continue
        said = words.section(f"care.{rule.key}")
        for when, pattern in OFTEN.items():
            if re.search(pattern, f"{said['title']} {said['text']}", re.IGNORECASE):
                seen += 1
                assert when in rule.times, f"{rule.key} says {when}"
    assert seen >= 8
