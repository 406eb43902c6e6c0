"""The letter of an estimate: what it says of each enquiry, in whose words, and what it leaves out."""

import dataclasses
import json
import re
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from buildbook.care.rules import rules
from buildbook.estimate.model import HoursEstimate, LeadTime
from buildbook.job.folder import read_job
from buildbook.job.proof import proof
from buildbook.pages.letter.letter import cautions_said, letter_of
from buildbook.pages.letter.price import asked
from buildbook.pages.phrases import Phrases
from buildbook.summary.model import Money
from buildbook.words import Words, languages
from tests.estimates import (
    ENQUIRIES,
    GERMAN,
    enquiry,
    estimate_of,
    german_shop,
    inch_shop,
    materials_only,
    of_few_jobs,
    shop_of,
)

PRESS = enquiry("linen-press")
NARROW, NBSP = "\u202f", "\u00a0"


def plain(text):
    return text.replace(NARROW, " ").replace(NBSP, " ")


def said(letter):
    """Every text of a letter on one line."""
    return plain(json.dumps(dataclasses.asdict(letter), default=str, ensure_ascii=False))


def rows(letter):
    """What the piece is made of: label, then name, botanical name and remark of each thing."""
    return {
        row.label: [tuple(plain(t) for t in (one.name, one.botanical, one.said)) for one in row.things]
        for row in letter.made_of
    }


@pytest.mark.parametrize("name", ["linen-press", "low-bench", "side-table-in"])
def test_every_enquiry_reads_without_an_error(name):
    found = proof(ENQUIRIES / name)
    assert found.ok, found


def test_it_says_what_the_piece_is_made_of():
    letter = letter_of(estimate_of(PRESS))
    assert rows(letter) == {
        "Size": [("1180 × 520 × 1960 mm (46½ × 20½ × 77⅛ in)", "", "")],
        "Woods": [
            ("European ash", "Fraxinus excelsior", ""),  # too many parts for a letter to name
            ("Cocobolo", "Dalbergia retusa", "stringing and knob"),
            ("Sycamore", "", "drawer side, drawer back and tray"),  # no country: either of two woods
        ],
        "Sheet goods": [
            ("Birch plywood, 9 mm", "", "back board"),
            ("Birch plywood, 6 mm", "", "drawer bottom"),
        ],
        "Glass": [("Toughened glass, 4 mm", "", "door light")],
        "Fittings": [
            ("6 × brass butt hinge, drawn", "", ""),
            ("2 × brass cupboard lock, with key", "", ""),
            ("2 × steel strap", "", ""),
        ],
        "Finish": [("Clear matt hardwax oil", "", ""), ("Blonde dewaxed shellac", "", "")],
        "Joined with": [
            (
                "Through dovetail, half-blind dovetail, haunched mortise and tenon, sliding dovetail",
                "",
                "",
            )
        ],
        "Carries": [("Up to 70 kg (154 lb)", "", "")],
        "Meant for": [("Keeping linen and blankets on a landing, indoors, at home.", "", "")],
        "Setting up": [
            ("Stands on a plinth. Two steel straps behind the cornice fix it to the wall.", "", "")
        ],
    }
    assert letter.to == ("Odile Ravensworth-Kay",)
    assert letter.salutation == "Dear Odile Ravensworth-Kay,"
    assert letter.included[-1] == "A care page and a printed care card, made for the piece"  # of the shop
    assert letter.excluded == (
        "The fixing into your wall",
        "Permits and customs, if it is to travel",
        "Making good of walls and floors",
    )


def test_a_row_that_is_kept_from_the_client_gives_no_word():
    text = said(letter_of(estimate_of(PRESS))).casefold()
    for word in ("runner", "beech", "fagus", "glue block", "tulipwood", "liriodendron", "hide glue"):
        assert word not in text


def test_a_fitting_is_named_by_its_row_where_its_material_is_only_a_metal():
    job = replace(read_job(GERMAN), shop=german_shop())
    assert ("1 × Knopf, Messing, unlackiert", "", "") in rows(letter_of(estimate_of(job)))["Beschläge"]


def test_the_cautions_are_those_of_the_wish_and_no_others():
    letter = letter_of(estimate_of(PRESS))
    of_wood = ["direct-sun", "rh-band"]  # its colour changes, its gaps open and close
    of_piece = ["safety-glazing", "tip-over", "heavy-lift"]
    assert [c.key for c in letter.cautions] == [*of_piece, "cites", "lacey", *of_wood]
    by_key = {c.key: c.text for c in letter.cautions}
    assert "code" not in by_key["safety-glazing"]  # building codes do not speak of furniture
    assert "names cocobolo," in by_key["cites"]
    at_home = letter_of(estimate_of(replace(PRESS, crosses_border=False)))
    assert [c.key for c in at_home.cautions] == [*of_piece, "protected-wood", *of_wood]
    assert [c.key for c in letter_of(estimate_of(enquiry("low-bench"))).cautions] == ["direct-sun"]


def test_a_protected_wood_is_named_only_if_the_client_may_read_of_it():
    hidden = tuple(replace(p, for_client=p.key != "cocobolo") for p in PRESS.parts)
    letter = letter_of(estimate_of(replace(PRESS, parts=hidden, woods=())))
    caution = next(c for c in letter.cautions if c.key == "cites")
    assert "names one of its woods," in caution.text
    assert "ocobolo" not in caution.text


def test_without_parts_the_woods_that_it_names_call_for_their_cautions():
    job = replace(enquiry("low-bench"), woods=("European oak", "Cocobolo"), crosses_border=True)
    letter = letter_of(estimate_of(job))
    assert [c.key for c in letter.cautions] == ["cites", "lacey", "direct-sun"]
    assert rows(letter)["Woods"][1] == ("Cocobolo", "Dalbergia retusa", "")


def test_little_is_known_of_the_bench_and_the_letter_says_so():
    letter = letter_of(estimate_of(enquiry("low-bench")))
    assert letter.title == "Hall bench"
    assert letter.salutation == "Good day,"
    assert rows(letter)["Woods"] == [("European oak", "Quercus robur / Q. petraea", "")]
    assert letter.changes[0].startswith("So far I have reckoned from outer sizes and woods.")
    assert letter.wood_colours == ("#cfb083", "#a27b49")  # oak, of the table


def test_every_caution_has_a_rule_and_words():
    assert set(cautions_said()) <= {rule.key for rule in rules()}
    for language in languages():
        words = Words(language)
        keys = dict.fromkeys(said.key for said in cautions_said().values())
        assert list(words.section("letter.caution")) == list(keys)


# -- price, time -------------------------------------------------------------------------------------


def test_the_price_is_a_range_with_its_tax_and_its_steps():
    price = letter_of(estimate_of(PRESS, likely=6890, low=5980, high=8240)).price
    assert (price.likely, price.low, price.high) == ("€6,890", "€5,980", "€8,240")
    assert price.at == pytest.approx((6890 - 5980) / (8240 - 5980), abs=0.001)
    # 6890 with 23 % is 5601.63 without: 1288.37
    assert [plain(sentence) for sentence in price.sentences] == [
        "These figures include 23 % VAT; of the likeliest that is €1,288.37.",
        "Going by what my past work took, a piece like this comes out inside the range four times in five.",
    ]
    assert [(line.label, line.value, plain(line.note)) for line in price.payments] == [
        ("with the order", "€2,067", "30 %"),
        ("when the carcase stands glued", "€2,756", "40 %"),
        ("on delivery", "€2,067", "30 %"),
    ]


def test_all_steps_show_coins_if_one_does():
    price = letter_of(estimate_of(PRESS, likely=1895, low=1500, high=2400)).price
    assert [line.value for line in price.payments] == ["€568.50", "€758.00", "€568.50"]


def test_with_few_past_jobs_the_range_promises_less_and_names_no_past():
    price = letter_of(of_few_jobs(estimate_of(PRESS))).price
    assert price.sentences[-1] == "The range is meant to hold four times in five."


def test_a_price_without_a_range_claims_none():
    price = letter_of(estimate_of(PRESS, likely=500, low=500, high=500)).price
    assert (price.low, price.high) == ("", "")
    assert not any("four times in five" in sentence for sentence in price.sentences)


def test_without_tax_none_is_named():
    shop = replace(PRESS.shop, quoting=replace(PRESS.shop.quoting, tax_pct=None))
    assert "VAT" not in said(letter_of(estimate_of(replace(PRESS, shop=shop))))


@pytest.mark.parametrize(
    ("country", "language", "stated", "name"),
    [
        ("DE", "de", "", "Ohne Mehrwertsteuer."),
        ("DE", "de", "MwSt.", "Ohne MwSt."),
        ("AT", "de-AT", "", "Ohne Umsatzsteuer."),
        ("CH", "de-CH", "", "Ohne MWST."),
        ("US", "en-US", "", "This is without sales tax."),
        ("FR", "en", "", "This is without tax."),
        ("DE", "en", "", "This is without tax."),
    ],
)
def test_the_tax_is_called_as_in_the_country(country, language, stated, name):
    quoting = replace(PRESS.shop.quoting, tax_name=stated)
    shop = replace(PRESS.shop, country_code=country, language=language, quoting=quoting)
    price = letter_of(materials_only(estimate_of(replace(PRESS, shop=shop)))).price
    assert price.sentences[0] == name


def test_without_a_rate_it_is_the_materials_and_a_talk():
    letter = letter_of(materials_only(estimate_of(PRESS)))
    price = letter.price
    assert (price.of, price.label) == ("materials", "Materials only")
    assert (price.likely, price.low, price.high) == ("€478", "€410", "€564")  # to the whole euro
    assert price.sentences == (
        "This is without VAT.",
        "The work is not in this figure.",
        "What the work costs I will tell you once we have talked it over.",
    )
    assert price.payments == ()


def test_without_any_figure_it_says_so():
    estimate = materials_only(estimate_of(PRESS))
    nothing = Money(Decimal(0), "EUR")
    estimate = replace(
        estimate,
        hours=HoursEstimate(None, ()),
        materials=replace(estimate.materials, low=nothing, amount=nothing, high=nothing),
    )
    price = asked(estimate, Phrases.of(PRESS))
    assert (price.of, price.likely) == ("nothing", "")
    assert price.sentences[0] == "I cannot put a figure on it yet."


def test_what_has_no_price_is_owned_up_to_without_its_name():
    estimate = estimate_of(PRESS)
    estimate = replace(estimate, materials=replace(estimate.materials, unpriced=("Tray runner",)))
    text = said(letter_of(estimate))
    assert "has no price yet and is not in these figures" in text
    assert "runner" not in text.casefold()


@pytest.mark.parametrize(
    ("lead", "expected"),
    [
        (LeadTime(), []),
        (LeadTime(date(2027, 2, 15)), ["I could begin on 15 February 2027."]),
        (
            LeadTime(date(2027, 2, 15), date(2027, 3, 8), date(2027, 3, 15)),
            [
                "I could begin on 15 February 2027.",
                "It would then likely be ready by 8 March 2027; if the work goes slowly, by 15 March 2027.",
            ],
        ),
        (
            LeadTime(None, date(2027, 3, 8), date(2027, 3, 8)),
            ["It would then likely be ready by 8 March 2027."],
        ),
    ],
)
def test_when_it_could_be_ready(lead, expected):
    letter = letter_of(replace(estimate_of(PRESS), lead=lead, holds_until=None))
    assert [plain(sentence) for sentence in letter.when] == expected
    assert letter.holds == ""


def test_it_is_an_estimate_and_no_contract():
    letter = letter_of(estimate_of(PRESS))
    assert letter.binding.startswith("This letter is an estimate, not a binding contract")
    assert plain(letter.holds).startswith("These figures stand until 25 December 2026.")


# -- other shops -------------------------------------------------------------------------------------


def test_an_inch_shop_reads_inches_and_dollars_on_its_own_paper():
    letter = letter_of(estimate_of(enquiry("side-table-in", inch_shop())))
    assert letter.sheet == "us-letter"
    assert rows(letter)["Size"][0][0] == "22½ × 16 × 26¾ in (572 × 406 × 679 mm)"
    assert rows(letter)["Sheet goods"][0][0] == "Birch plywood, ¼ in"
    assert letter.price.likely == "$6,890"
    assert "5.5 % sales tax" in plain(letter.price.sentences[0])
    assert letter_of(estimate_of(PRESS)).sheet == "a4"


def test_a_german_shop_writes_german():
    letter = letter_of(estimate_of(replace(read_job(GERMAN), shop=german_shop())))
    assert letter.salutation == "Guten Tag Familie Lindgruber,"
    assert rows(letter)["Hölzer"][0][:2] == ("Europäische Eiche", "Quercus robur / Q. petraea")
    assert [plain(text) for text in (letter.price.likely, letter.price.low)] == ["6.890 €", "5.980 €"]
    assert plain(letter.price.sentences[0]) == (
        "Darin sind 19 % Mehrwertsteuer enthalten; beim wahrscheinlichsten Preis sind das 1.100,08 €."
    )
    assert plain(letter.when[0]) == "Beginnen könnte ich am 15. Februar 2027."
    assert [c.key for c in letter.cautions] == ["heavy-lift", "food-contact", "direct-sun", "rh-band"]


@pytest.mark.parametrize("language", languages())
def test_a_letter_that_several_write_never_says_i(language):
    alone = {"en": r"\b(I|[Mm]y|me)\b", "de": r"\b([Ii]ch|[Mm]ein\w*|mir|mich)\b"}[language.split("-")[0]]
    words = Words(language, "we")
    keys = [key for key in words.every_key() if key.startswith("letter.")]
    said = {key: words.text(key, **dict.fromkeys(words.names(key), "…")) for key in keys}
    assert {key: text for key, text in said.items() if re.search(alone, text)} == {}
    assert any(
        re.search(alone, Words(language).text(key, woods="", day=""))
        for key in ("letter.opening", "letter.begin")
    )


def test_a_note_on_tax_stands_in_the_letter_with_and_without_a_price():
    note = "No VAT is charged: a small trader’s rule."
    shop = shop_of()
    shop = replace(shop, quoting=replace(shop.quoting, tax_note=note, voice="we"))
    estimate = estimate_of(enquiry("linen-press", shop))
    for made in (estimate, materials_only(estimate)):
        letter = letter_of(made)
        assert note in letter.price.sentences
        assert letter.opening == Words("en").text("letter.we.opening")
