"""What a job leaves of what it used: the same things by the same key, and what the maker says of them."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from buildbook.job import read_job
from buildbook.job.log_model import Hours, LogEntry
from buildbook.job.model import Finish, Job, Part
from buildbook.job.shop_model import Price, Shop
from buildbook.left.uses import used_of
from buildbook.quantity import Length
from buildbook.summary import summarise

SHELF = Path(__file__).resolve().parents[1] / "shelf"
DAY = date(2026, 3, 2)


def length(metres):
    return Length(metres, f"{metres} m")


def part(row, name, kind="hardware", material="", key="", sides=(), **more):
    lengths = dict(zip(("length", "width", "thickness"), map(length, sides), strict=False))
    return Part(row, name, more.pop("qty", 1), kind, material, key, **lengths, **more)


def oak(row, name, **more):
    return part(
        row, name, "wood", more.pop("material", "European oak"), "european-oak", (1.0, 0.1, 0.02), **more
    )


def used(*parts, notes="", **more):
    entries = (LogEntry(DAY, "", notes),) if notes else ()
    job = Job(folder="a-job", parts=parts, entries=entries, **more)
    return used_of(job, summarise(job))


def texts(use):
    return [said.text for said in use.said]


@pytest.fixture(scope="module")
def shelf():
    """The record of each of the ten jobs, with its job and summary."""
    out = {}
    for folder in sorted(SHELF.iterdir()):
        if (folder / "job.toml").is_file():
            job = read_job(folder)
            summary = summarise(job)
            out[job.key] = (used_of(job, summary), job, summary)
    assert len(out) == 10
    return out


# -- the record ------------------------------------------------------------------------------------


def test_every_row_of_every_job_is_in_it_once(shelf):
    """Counted from the parts file itself."""
    for record, job, summary in shelf.values():
        rows = {kind: [p for p in job.parts if p.kind == kind] for kind in ("wood", "hardware")}
        assert sum(use.count for use in record.woods) == sum(p.qty for p in rows["wood"])
        assert sum(use.count for use in record.hardware) == sum(p.qty for p in rows["hardware"])
        assert {use.key for use in record.woods} == {p.key for p in rows["wood"]}
        assert len(record.finishes) == len(job.finishes)
        assert [use.name for use in record.joinery] == list(job.joinery)
        assert record.hours == tuple((s.stage, s.hours_h) for s in summary.hours.by_stage)
        named = {part.supplier.casefold() for part in job.parts if part.supplier}
        assert named <= {use.key for use in record.suppliers}


def test_all_that_a_job_cost_came_from_some_supplier_or_from_none(shelf):
    """Costs by supplier add up to the materials, less the rows and finishes that no one is named for."""
    for record, job, summary in shelf.values():
        assert all(part.supplier for part in job.parts if part.price is not None), record.key
        spent = sum((use.cost for use in record.suppliers if use.cost is not None), Decimal(0))
        assert spent == summary.cost.materials.amount, record.key


# -- the same thing has the same key ------------------------------------------------------------------


def test_woods_go_by_their_species_whatever_they_are_called():
    woods = used(oak(2, "Top"), oak(3, "Leg", material="Quercus robur")).woods
    assert [(use.key, use.parts, use.count) for use in woods] == [("european-oak", ("Top", "Leg"), 2)]


def test_a_wood_of_no_table_goes_by_the_makers_own_word():
    woods = used(
        part(2, "Top", "wood", "Bog  Yew", "", (1, 0.1, 0.02)), part(3, "Leg", "wood", "bog yew")
    ).woods
    assert [(use.key, use.name) for use in woods] == [("bog yew", "Bog  Yew")]


def test_hardware_goes_by_its_material_and_keeps_its_sizes():
    record = used(
        part(2, "Door hinge", material="Brass  butt Hinge", sides=(0.065, 0.038)),
        part(3, "Lid hinge", material="brass butt hinge", sides=(0.065, 0.038), qty=2),
        part(4, "Flap hinge", material="brass butt hinge", sides=(0.05, 0.03)),
        part(5, "Bolt", material="steel bolt, M8"),
        part(6, "Bolt", material="steel bolt, M6"),
    )
    assert [(use.key, use.sides_m, use.count) for use in record.hardware] == [
        ("brass butt hinge", (0.065, 0.038), 3),
        ("brass butt hinge", (0.05, 0.03), 1),
        ("steel bolt, m8", (), 1),
        ("steel bolt, m6", (), 1),
    ]


def test_suppliers_go_by_their_name_in_any_capitals():
    record = used(
        part(2, "Hinge", material="hinge", supplier="Hallow & Pin", price=Decimal(3), per="each"),
        part(3, "Knob", material="knob", supplier="hallow &  pin", price=Decimal(4), per="each", qty=2),
    )
    assert [(use.key, use.name, use.cost) for use in record.suppliers] == [
        ("hallow & pin", "Hallow & Pin", Decimal(11))
    ]
    assert [line.name for line in record.suppliers[0].lines] == ["hinge", "knob"]


def test_a_supplier_whom_only_the_price_list_names_is_marked_so():
    prices = (Price("hinge", Decimal("2.50"), "each", None, "Hallow & Pin"),)
    record = used(
        part(2, "Hinge", material="hinge"),
        part(3, "Lid hinge", material="hinge", supplier="A fair"),
        shop=Shop(prices=prices),
    )
    sold = {use.name: [line.listed for line in use.lines] for use in record.suppliers}
    assert sold == {"Hallow & Pin": [True], "A fair": [False]}


def test_a_cost_of_which_a_part_has_no_price_says_so():
    priced = {"supplier": "Hallow & Pin", "price": Decimal(3), "per": "each"}
    record = used(
        part(2, "Hinge", material="hinge", **priced),
        part(3, "Lid hinge", material="hinge", supplier="Hallow & Pin"),
        part(4, "Knob", material="knob", supplier="A fair", price=Decimal(4), per="each"),
    )
    assert [(use.cost, use.cost_whole) for use in record.hardware] == [(3, False), (4, True)]
    assert [(use.name, use.cost, use.cost_whole) for use in record.suppliers] == [
        ("Hallow & Pin", 3, False),
        ("A fair", 4, True),
    ]


def test_a_finish_that_was_never_put_on_is_not_paid():
    prices = (Price("oil", Decimal(40), "l", None, "The Finish Room"),)
    parts = (oak(2, "Top", finish="body"),)
    for coats, litres in (((), False), ((DAY,), True)):
        finish = Finish("body", "hardwax-oil", "oil", coats)
        record = used(*parts, finishes=(finish,), shop=Shop(prices=prices))
        use = record.finishes[0]
        assert (use.litres is not None, use.cost is not None, bool(use.paid)) == (litres, litres, litres)
        assert bool(record.suppliers) == litres


def test_hours_at_the_joints_are_those_of_that_stage_in_any_language():
    for stage, hours in (("joinery", 3.0), ("Verbindungen", 3.0), ("milling", 0.0)):
        entry = LogEntry(DAY, "", "x", hours=(Hours(stage, 3.0), Hours("design", 1.0)))
        job = Job(folder="a-job", entries=(entry,))
        assert used_of(job, summarise(job)).joinery_h == hours


# -- what the maker says ---------------------------------------------------------------------------


def test_a_sentence_is_found_by_the_whole_name_or_by_what_the_thing_is():
    notes = "The hinges bind in August. A door is a door. **Brass butt hinges** went in first."
    (use,) = used(part(2, "Door hinge", material="brass butt hinge, drawn"), notes=notes).hardware
    assert texts(use) == ["The hinges bind in August.", "Brass butt hinges went in first."]
    assert {said.day for said in use.said} == {"2026-03-02"}


def test_a_supplier_is_found_by_a_short_name_but_not_by_a_word_of_every_day():
    parts = (
        part(2, "Hinge", material="hinge", supplier="Dunmarra Hardwoods"),
        part(3, "Oil", "supply", material="oil", supplier="The Finish Room"),
    )
    notes = "Dunmarra had a short pack. Finish it tomorrow. The finish is dull. Fetched from the Finish Room."
    sawmill, room = used(*parts, notes=notes).suppliers
    assert texts(sawmill) == ["Dunmarra had a short pack."]
    assert texts(room) == ["Fetched from the Finish Room."]


def test_few_are_kept_the_marked_ones_first_in_the_order_of_the_log():
    notes = " ".join(f"Oak number {n} was planed." for n in range(9)) + "\n\nMistake: the oak was cut short."
    (use,) = used(oak(2, "Top"), notes=notes).woods
    assert texts(use) == [
        "Oak number 0 was planed.",
        "Oak number 1 was planed.",
        "Mistake: the oak was cut short.",
    ]


def test_notes_of_parts_are_told_with_the_part_each_once_and_long_ones_cut():
    parts = [
        oak(2, "Top", note="one board"),
        oak(3, "Leg", note="one board"),
        oak(4, "Rail", note="word " * 100),
    ]
    (use,) = used(*parts).woods
    assert [(said.day, said.of) for said in use.said] == [("", "Top"), ("", "Rail")]
    assert texts(use)[1].endswith("word…")
    assert len(texts(use)[1]) < 300


def test_nothing_of_the_log_is_kept_that_is_not_about_a_thing(shelf):
    """Each sentence that is kept stands in the notes of that day, or is their title."""
    for record, job, _ in shelf.values():
        bodies = {}
        for entry in job.entries:
            bodies.setdefault(entry.day.isoformat(), []).append(entry.title)
            bodies[entry.day.isoformat()].append(" ".join(entry.body.split()))
        for use in (*record.woods, *record.finishes, *record.joinery, *record.hardware, *record.suppliers):
            for said in use.said:
                if said.day:
                    plain = said.text.replace("*", "").removesuffix("…")
                    assert any(plain in body.replace("*", "") for body in bodies[said.day]), said


def test_the_title_of_a_day_is_kept_only_where_the_day_says_no_more():
    entries = (
        LogEntry(DAY, "The oak", "Planed the oak. Oak again. The last oak."),
        LogEntry(date(2026, 3, 3), "More oak", "It is dry."),
    )
    job = Job(folder="a-job", parts=(oak(2, "Top"),), entries=entries)
    (use,) = used_of(job, summarise(job)).woods
    assert texts(use) == ["Planed the oak.", "Oak again.", "The last oak."]
    (use,) = used_of(replace(job, entries=entries[1:]), summarise(job)).woods
    assert texts(use) == ["More oak"]
