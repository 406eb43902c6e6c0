"""Jobs that make several pieces, whole: what is said of one, of all, of those that went on another day."""

import io
import json
import re
from dataclasses import replace
from datetime import date

import pypdf
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from icalendar import Calendar
from outloud import check

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.book.sealed.pack import pack
from buildbook.book.sealed.verify import verify
from buildbook.care import choose
from buildbook.estimate.past import past_job
from buildbook.estimate.reckon import reckon
from buildbook.job import find_jobs, read_job, read_shop
from buildbook.job.model import Job
from buildbook.job.parts.sets import for_all
from buildbook.job.table.parts import read_parts
from buildbook.job.toml.job_toml import read_job_toml
from buildbook.pages.letter.letter import letter_of
from buildbook.pages.worksheet.sheet import worksheet_of
from buildbook.problems import Problems
from buildbook.summary import each_of, summarise
from buildbook.summary.as_json import summary_facts
from buildbook.words import Words
from tests.conftest import ROOT, every_file
from tests.sets import BEDSIDE_PARTS, CHAIR_PARTS, bedsides, chairs, lay, parts_csv
from tests.test_leaves import readable

KG_OF_A_CHAIR = 5.3
"""By hand: 0.00766 m3 net of ash, 690 kg/m3 at the bench."""


def bound(folder, place):
    done = bind(folder, place)
    assert done.ok, [str(problem) for job in done.jobs for problem in job.problems]
    return place


def words_of(html: bytes) -> str:
    text = re.sub(rb"<(script|style|svg)\b.*?</\1>|<[^>]*>", b" ", html, flags=re.DOTALL).decode()
    return " ".join(text.split())


@pytest.fixture(scope="module")
def six(tmp_path_factory):
    place = tmp_path_factory.mktemp("six")
    return bound(chairs(place), place / "book")


@pytest.fixture(scope="module")
def pair(tmp_path_factory):
    place = tmp_path_factory.mktemp("pair")
    return bound(bedsides(place), place / "book")


def of(book, *path):
    folder = next((book / path[0]).iterdir())
    return folder.joinpath(*path[1:]).read_bytes()


# -- six chairs --------------------------------------------------------------------------------------


def test_parts_for_all_and_parts_for_each_make_the_same_book(six, tmp_path):
    each = bound(chairs(tmp_path, "each"), tmp_path / "book")
    for room in ("handover", "jobs"):
        one, other = every_file(each / room), every_file(six / room)
        assert {name: one[name] for name in one.keys() - counted(one)} == {
            name: other[name] for name in other.keys() - counted(other)
        }


def counted(files):
    """The cut list counts as parts.csv does, so that it can be put back as one; and the list of files with its digest."""
    return {name for name in files if name.endswith(("cut-list.csv", "cut-list.xlsx", "contents.json"))}


def test_a_chair_is_told_as_a_chair(six):
    """Weighed, loaded and lifted one at a time, whatever the six weigh together."""
    page = words_of(of(six, "handover", "index.html"))
    facts = json.loads(of(six, "jobs", "summary.json"))
    each, whole = facts["set"]["each"], facts["mass"]["total_kg"]
    assert each["mass_kg"] == pytest.approx(KG_OF_A_CHAIR, abs=0.3)
    assert whole == pytest.approx(6 * each["mass_kg"], rel=1e-6)
    assert re.search(r"Weight about 5\.\d kg \(\d\d\.\d lb\) each, about 3\d kg \(\d\d lb\) for all 6", page)
    assert "two people" not in page
    assert "ever lift it alone" not in page
    assert "up to 110 kg (243 lb) each" in page
    assert "built to carry 110 kg" in page
    assert facts["mass"]["loaded_kg"] == pytest.approx(whole + 6 * 110, rel=1e-6)
    keys = {row["key"] for row in facts["care"]}
    assert not keys & {"heavy-lift", "tip-over"}


def test_the_pieces_have_their_numbers_on_page_record_and_card(six):
    page, card = words_of(of(six, "handover", "index.html")), of(six, "handover", "care-card.pdf")
    record = json.loads(of(six, "handover", "piece.jsonld"))
    said = {row["name"]: row["value"] for row in record["additionalProperty"]}
    numbers = [f"2026-022/{piece}" for piece in range(1, 7)]
    assert all(f"{number} ({piece} of 6)" in page for piece, number in enumerate(numbers, 1))
    assert "set of 6 like pieces, 2026-022/1–6" in page
    assert said["numbers of the pieces"] == numbers
    assert said["like pieces in the set, each as described"] == 6
    assert record["weight"]["value"] == pytest.approx(KG_OF_A_CHAIR, abs=0.3)
    assert len(pypdf.PdfReader(io.BytesIO(card)).pages) == 2
    assert "2026-022/1–6" in readable({"card.pdf": card})


def test_the_log_tells_each_and_all(six):
    log = words_of(of(six, "jobs", "index.html"))
    facts = json.loads(of(six, "jobs", "summary.json"))
    assert facts["set"] == {
        "quantity": 6,
        "each": {
            "mass_kg": facts["set"]["each"]["mass_kg"],
            "loaded_kg": pytest.approx(facts["set"]["each"]["mass_kg"] + 110),
            "price": {"amount": 900, "currency": "GBP"},
            "hours_h": 15,
            "stored_kg_co2": pytest.approx(facts["carbon"]["stored_kg_co2"] / 6),
        },
    }
    assert "Hours 15 h 90 h" in log
    assert "£900.00 each, £5,400.00 for all 6" in log
    assert "Counts are for all 6 pieces." in log
    listed = words_of((six / "index.html").read_bytes())
    assert "15 h each, 90 h for all 6" in listed
    assert "They made 6 pieces: one job made a set." in words_of((six / "years.html").read_bytes())
    assert "hours of all its pieces" in words_of((six / "years.html").read_bytes())


def test_prices_and_hours_of_a_piece_do_not_leave(six):
    for name, content in every_file(six / "handover").items():
        text = readable({name: content})
        assert not re.search(r"£|\b900\b|5,?400|15h|90h|gbp", text), name


def test_the_german_page_says_it_in_german(tmp_path):
    book = bound(chairs(tmp_path, language="de"), tmp_path / "book")
    page = words_of(of(book, "handover", "index.html"))
    assert "Diese Seite gilt für 6 gleiche Stücke, 2026-022/1–6." in page
    assert re.search(r"je etwa 5,\d kg \(\d\d,\d lb\), etwa 3\d kg \(\d\d lb\) für alle 6", page)
    assert "je bis zu 110 kg" in page


# -- a pair in two deliveries ------------------------------------------------------------------------


def test_each_delivery_has_its_own_dates(pair):
    page = words_of(of(pair, "handover", "index.html"))
    assert "Delivered 12 June 2026 (piece 1), 24 July 2026 (piece 2)" in page.replace("\u00a0", " ")
    assert "until 7 July 2026 for piece 1 and 18 August 2026 for piece 2" in page.replace("\u00a0", " ")
    for said in ("Careful use (piece 1) from 11 June 2026", "Careful use (piece 2) from 23 July 2026"):
        assert said in page.replace("\u00a0", " ")
    events = {
        str(event["summary"]): event["dtstart"].dt
        for event in Calendar.from_ical(of(pair, "handover", "care.ics")).walk("VEVENT")
    }
    title = "Pair of bedside tables: "
    assert events[f"{title}The clear hardwax oil is fully hard (piece 1)"] == date(2026, 7, 7)
    assert events[f"{title}The clear hardwax oil is fully hard (piece 2)"] == date(2026, 8, 18)
    assert events[f"{title}The yearly look-over (piece 1)"] == date(2027, 6, 12)
    assert events[f"{title}The yearly look-over (piece 2)"] == date(2027, 7, 24)
    record = json.loads(of(pair, "handover", "piece.jsonld"))
    said = {row["name"]: row["value"] for row in record["additionalProperty"]}
    assert said["delivered on 2026-06-12"] == ["2026-030/1"]
    assert said["delivered on 2026-07-24"] == ["2026-030/2"]


def test_coats_are_counted_for_the_pieces_that_had_them(pair):
    """Two coats each, on days of their own: not four, and oil for two on the whole area."""
    (finish,) = json.loads(of(pair, "jobs", "summary.json"))["finish"]
    assert finish["coats"] == 2
    assert finish["volume_l"] == pytest.approx(finish["per_coat_l"] + finish["later_coat_l"], rel=1e-5)
    assert [own["pieces"] for own in finish["batches"]] == [[1], [2]]
    assert "4 coats" not in words_of(of(pair, "handover", "index.html"))


def test_each_piece_has_a_card_with_its_number_day_and_dates(pair):
    pages = [
        page.extract_text()
        for page in pypdf.PdfReader(io.BytesIO(of(pair, "handover", "care-card.pdf"))).pages
    ]
    fronts, backs = (["".join(text.split()) for text in pages[side::2]] for side in (0, 1))
    assert len(pages) == 4
    assert ["2026-030/1(1of2)" in fronts[0], "2026-030/2(2of2)" in fronts[1]] == [True, True]
    assert ["Delivered12June2026" in fronts[0], "Delivered24July2026" in fronts[1]] == [True, True]
    assert "7July2026.Theclearhardwaxoilisfullyhard(piece1)" in backs[0]
    assert "18August2026.Theclearhardwaxoilisfullyhard(piece2)" in backs[1]
    assert "18August2026.The" not in backs[0]
    assert "7July2026.The" not in backs[1]


def test_the_prints_of_a_set_are_heard_as_well_as_read(pair):
    for name in ("care-card.pdf", "care-booklet.pdf"):
        found = check(str(next((pair / "handover").iterdir()) / name))
        assert not found.error
        assert [f.message for f in found.sorted_findings() if f.severity != "info"] == []


def test_a_pair_of_which_one_has_gone_is_handed_over_and_not_done(tmp_path):
    folder = bedsides(tmp_path)
    toml = (folder / "job.toml").read_text("utf-8")
    without = toml.replace('[[delivery]]\nday = 2026-07-24\npieces = "2"\n', "").replace(
        ", 2026-07-20, 2026-07-21", ""
    )
    (folder / "job.toml").write_text(without, "utf-8")
    job = read_job(folder)
    assert job.delivered is None
    assert job.handed_over
    packed = pack(folder, tmp_path / "out", lambda *_: None)
    assert packed.ok, [str(problem) for problem in packed.problems]
    assert packed.archive.name == "2026-030-pair-of-bedside-tables-handover.zip"
    assert verify(packed.archive, packed.sealed.whole).by == "whole"
    piece, _, _, _ = pages_of(job)
    delivered = next(line.value for line in piece.record if line.label == "Delivered")
    assert delivered.replace("\u00a0", " ") == "12 June 2026 (piece 1), piece 2 not yet delivered"


# -- one piece is one piece --------------------------------------------------------------------------

ALONE = """
number = "2026-031"
title = "Bedside table"
piece = "bedside table"
begun = 2026-05-04
overall = { width = 450, depth = 380, height = 560 }
stands = "floor"
contents = "20 kg"
price = 950
"""
ALONE_FINISH = '[[finish]]\nkey = "top"\nfamily = "hardwax-oil"\ncoats = [2026-06-08, 2026-06-09]\n'


@pytest.mark.parametrize(
    "more",
    [
        'quantity = 1\nparts_for = "each"\ncards = "each"\ndelivered = 2026-06-12\n',
        'quantity = 1\nparts_for = "all"\n[[delivery]]\nday = 2026-06-12\npieces = "1"\n',
    ],
)
def test_a_set_of_one_is_byte_for_byte_a_job_of_one(more, tmp_path):
    books = []
    for name, said in (("set", more), ("plain", "delivered = 2026-06-12\n")):
        toml = f"{ALONE}{said}{ALONE_FINISH}"
        folder = lay(
            tmp_path / name / "2026-031",
            toml,
            parts_csv(BEDSIDE_PARTS, 1),
            "## 2026-05-04\n\nHours: milling 6\n",
        )
        books.append(bound(folder, tmp_path / name / "book"))
    for room in ("handover", "jobs"):
        assert every_file(books[0] / room) == every_file(books[1] / room)


# -- what must hold of any set -----------------------------------------------------------------------

DOORS = st.integers(0, 4)
ROWS = st.lists(
    st.tuples(
        st.sampled_from(["wood", "panel", "glass", "hardware"]),
        st.integers(1, 9),
        st.integers(60, 1200),
        st.integers(30, 500),
        st.integers(4, 40),
    ),
    min_size=1,
    max_size=6,
)
MATERIAL = {
    "wood": "European ash",
    "panel": "birch plywood",
    "glass": "float glass",
    "hardware": "brass knob",
}


def made(rows, count, parts_for, doors=0, *, times=1):
    """A job of some rows, their counts for one piece times so many."""
    lines = [
        f"Part {n},{qty * times},{kind},{MATERIAL[kind]},{length},{width},{thick},oil,{'0.2 kg' if kind == 'hardware' else ''},3,each"
        for n, (kind, qty, length, width, thick) in enumerate(rows)
    ]
    text = "\n".join(("part,qty,kind,material,length,width,thickness,finish,mass,price,per", *lines, ""))
    toml = (
        f'title = "Things"\npiece = "cabinet"\ndoors = {doors}\nquantity = {count}\nparts_for = "{parts_for}"\ncontents = "8 kg"\nprice = 1200\n'
        'stands = "wall"\noverall = { width = 600, depth = 200, height = 500 }\ndelivered = 2026-06-12\n'
        '[[finish]]\nkey = "oil"\nfamily = "hardwax-oil"\ncoats = [2026-06-01, 2026-06-03]\n'
        '[hanging]\nmethod = "cleat"\nfastener = { kind = "wood screw", diameter = "5 mm", length = "70 mm",'
        ' in_wall = "45 mm", count = 2 }\nwall = { kind = "softwood studs" }\n'
    )
    problems = Problems()
    job = Job("things", **read_job_toml(toml.encode(), "mm", problems).fields)
    job = replace(job, parts=for_all(read_parts(text.encode(), "mm", problems), job))
    assert not problems.errors
    return job


def facts_of(job):
    summary = summarise(job)
    return summary_facts(job.key, summary, choose(job, summary, Words("en")), ())


@settings(max_examples=40, deadline=None)
@given(ROWS, st.integers(1, 60), DOORS)
def test_all_and_each_are_one(rows, count, doors):
    assert facts_of(made(rows, count, "all", doors, times=count)) == facts_of(
        made(rows, count, "each", doors)
    )


@settings(max_examples=40, deadline=None)
@given(ROWS, st.integers(1, 60), DOORS)
@example([("glass", 2, 900, 400, 4)], 3, 2)  # as many panes as doors, in each
def test_each_times_the_pieces_is_all_and_one_of_them_is_a_job_of_one(rows, count, doors):
    """What is asked of a piece (its weight, what its fixings hold) is what is asked of the same piece made alone."""
    several, alone = summarise(made(rows, count, "each", doors)), summarise(made(rows, 1, "each", doors))
    each, one = each_of(several), each_of(alone)
    assert each.mass_kg * count == pytest.approx(several.mass.total_kg)
    assert each.hours_h * count == pytest.approx(several.hours.total_h)
    assert each.stored_kg_co2 * count == pytest.approx(several.carbon.stored_kg_co2)
    assert abs(each.price.amount * count - several.cost.price.amount) <= count / 200
    assert (each.mass_kg, each.loaded_kg, each.stored_kg_co2) == pytest.approx(
        (one.mass_kg, one.loaded_kg, one.stored_kg_co2)
    )
    assert several.hanging.pull_each_n == pytest.approx(alone.hanging.pull_each_n)
    assert several.hanging.use_pct == pytest.approx(alone.hanging.use_pct)
    assert several.movement == alone.movement
    told = [
        {item.key: item.text for item in choose(job, figures, Words("en"))}
        for job, figures in (
            (made(rows, count, "each", doors), several),
            (made(rows, 1, "each", doors), alone),
        )
    ]
    assert told[0] == told[1]


# -- an enquiry of a set -----------------------------------------------------------------------------

SHELF = ROOT / "tests" / "shelf"
ASKED = date(2026, 11, 25)


@pytest.fixture(scope="module")
def past():
    shop, _ = read_shop(SHELF)
    return [read_job(path, shop, pictures=False) for path in find_jobs(SHELF)]


def asked_for(tmp_path, past, count, parts=True):
    said = f'quantity = {count}\nparts_for = "each"\n' if count > 1 else ""
    toml = f'title = "Dining chairs"\npiece = "chair"\noverall = {{ width = 450, depth = 520, height = 860 }}\n{said}'
    folder = lay(
        tmp_path / f"asked-{count}-{parts}",
        f'{toml}woods = ["European ash"]\n',
        parts_csv(CHAIR_PARTS, 1),
        "",
    )
    if not parts:
        (folder / "parts.csv").unlink()
    (folder / "shop.toml").unlink()
    return reckon(read_job(folder, past[0].shop, pictures=False), list(map(past_job, past)), ASKED)


@pytest.mark.parametrize("parts", [True, False])
def test_materials_go_with_the_count_and_hours_with_less(parts, tmp_path, past):
    one, six = (asked_for(tmp_path, past, count, parts) for count in (1, 6))
    for alone, all_of_them in zip(one.materials.lines, six.materials.lines, strict=True):
        whole = 3 if alone.unit == "each" else 0  # a count that was scaled is told as a whole one
        assert all_of_them.amount.median == pytest.approx(6 * alone.amount.median, rel=0.01, abs=whole)
    took = six.hours.total.median / one.hours.total.median
    assert 3 < took < 5.2  # six at 90 % are 5.1 first ones, and the drawing is done once
    assert six.hours.of_set.first.median == pytest.approx(one.hours.total.median)
    assert six.hours.of_set.quantity == 6
    assert one.hours.of_set is None


def test_letter_and_worksheet_tell_each_and_all(tmp_path, past):
    made_of_six = asked_for(tmp_path, past, 6)
    letter, sheet = letter_of(made_of_six), worksheet_of(made_of_six)
    assert [group.things[0].name for group in letter.made_of if group.label == "Pieces"] == ["6 like pieces"]
    assert any("for all 6 pieces: about" in sentence for sentence in letter.price.sentences)
    assert {"The first piece", "The 5 that follow", "Price of each"} <= {
        answer.label for answer in sheet.answers
    }
    assert any("published rate" in sentence for sentence in sheet.leans)
    facts = {line.label: line.value for line in sheet.facts}
    assert re.fullmatch(r"5\.\d\u202fkg \(.*\) each, 3\d\.\d\u202fkg \(.*\) for all 6", facts["Mass"])
