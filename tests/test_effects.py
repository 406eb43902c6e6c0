"""What is read has an effect: every key, every column of parts.csv and prices.csv, every column of the trade's tables is
looked at by a module that is not its reader, while jobs are laid out, bound and quoted.

Watched while it happens, since the same word names fields of several records.
"""

import dataclasses
import shutil
import sys
from datetime import date
from pathlib import Path

import pytest

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.book.estimate import estimate
from buildbook.book.past.search import find_in
from buildbook.job import holding_model, model, read_job, shop_model
from buildbook.job.table.headings import PARTS, PRICES
from buildbook.job.toml import keys, shop_keys
from buildbook.trade import records, tables
from tests.care.cases import CASES
from tests.conftest import ROOT, SAMPLE
from tests.hostile import NOTES

TRADE = [
    c for c in vars(records).values() if dataclasses.is_dataclass(c) and c.__module__ == records.__name__
]
JOB = [
    c
    for m in (model, holding_model, shop_model)
    for c in vars(m).values()
    if dataclasses.is_dataclass(c) and c.__module__ == m.__name__
]
READERS = (
    *tuple(f"buildbook.trade.{name}" for name in ("tables", "rows", "records", "treated")),
    "dataclasses",
)
ITS_OWN = (records.__name__, model.__name__, holding_model.__name__, shop_model.__name__, __name__)
ABOUT_A_ROW = {
    "source", "basis", "note", "aliases", "taken_for", "key", "name", "value", "unit", "low", "high", "system",
}  # fmt: skip
"""Where a figure is from and what it is found by; the figures of `Sourced` and `Range`."""

WAITING = {
    ("Metal", "magnetic"),
    ("Species", "janka"), ("Species", "group"), ("NominalStock", "surfaced_m"),
    ("Metal", "density_kg_m3"), ("Species", "shrink_volumetric"),
}  # fmt: skip
"""Columns that no page looks at yet. Only to grow shorter: joined to a page, or gone with their column."""

WHOLE = """
number = "2026-014"
title = "Record cabinet"
piece = "cabinet"
units = "mm"
client = "Somebody"
begun = 2026-02-16
delivered = 2026-04-11
tags = ["brass"]
joinery = ["half-blind dovetail"]
stands = "wall"
contents = "60 kg"
price = 4850
marks = "branded"
features = ["one board"]
use = "indoors"
description = "A cabinet."
fitting = "Hangs."
adjusting = "The hinges turn."
limits = ["nobody sits on it"]
loads = ["15 kg on each shelf"]
comes_apart = ["undo the bolts"]
may_drill = "the back"
guarantee = "two years"
near = ["radiator"]
crosses_border = true
goes_to = "NZ"
food = true
children = true
doors = 2
drawers = 1
joints = 24
woods = ["European oak"]
stages = ["turning"]
quantity = 2
parts_for = "all"
cards = "each"
includes = ["delivery"]
excludes = ["wiring"]
page = "https://example.org/014/"
overall = { width = "1200", depth = "420", height = "700" }
climate = { rh_low = 30, rh_high = 60, temperature = "20 degC" }
made_at = { rh = 45, temperature = "18 degC" }
photos = { lead = "photos/a.jpg", client = ["photos/a.jpg"] }

[[finish]]
key = "body"
family = "hardwax-oil"
product = "clear oil"
sheen = "satin"
batch = "4711"
coats = [2026-03-20]
spread = "24 m2/l"
voc = "350 g/l"
light_use_days = 1
full_cure_days = 21
refresh_months = 24
wear = "daily"
two_part = true
food_safe = true
note = "thinned"

[hanging]
method = "cleat"
pull_height = "600 mm"
fastener = { kind = "wood screw", diameter = "5 mm", length = "70 mm", in_wall = "45 mm", count = 6 }
wall = { kind = "softwood studs", sg = 0.42 }
"""
DELIVERY = """
[[delivery]]
day = 2026-04-11
pieces = "1"
"""
SHOP = """
name = "Shop"
maker = "Maker"
address = "A Road"
email = "a@example.org"
phone = "1"
web = "https://example.org"
guarantee = "a year"
country = "GB"
currency = "GBP"
pages_at = "https://example.org/p/"
hour_rate = 55
climate = { rh_low = 30, rh_high = 60, temperature = "20 degC" }
made_at = { moisture = 8.0 }
allowances = { over_length = "25 mm", over_width = "6 mm", waste = 20, sheet_waste = 10 }
card = { size = "A6", bleed = true }
[estimate]
contingency = 5
overhead = 12
margin = 15
tax = 20
tax_name = "VAT"
tax_note = "No tax is charged on what is mended."
voice = "we"
round_to = 10
deposit = 30
valid = 30
booked_until = 2026-08-01
week_hours = 28
includes = ["a book"]
excludes = ["walls"]
[[estimate.payment]]
when = "before delivery"
share = 70
"""
TABLE = (
    "part,qty,kind,material,length,width,thickness,stock,cut,fit,opening,faces,finish,mass,origin,country,supplier,price,per,client,note\n"
    "Panel,2,wood,European oak,366,404,8,27 mm,flat,floating,412,all,body,,a park,GB,the yard,,,yes,left\n"
    "Pull,2,hardware,brass pull,,,,,,,,,,85 g,,,the yard,12,each,yes,\n"
)  # fmt: skip


@pytest.fixture(scope="module")
def looked_at(tmp_path_factory):
    """Which field of which record was looked at, by the modules that did."""
    seen: dict[tuple[str, str], set[str]] = {}
    patch = pytest.MonkeyPatch()
    names = {c: {f.name for f in dataclasses.fields(c)} for c in (*TRADE, *JOB)}

    def watch(kind):
        def get(self, name):
            if name in names[kind]:
                frame = sys._getframe(1)
                while (
                    frame and frame.f_globals.get("__name__") in ITS_OWN
                ):  # who asked the record's own property
                    frame = frame.f_back
                seen.setdefault((kind.__name__, name), set()).add(frame.f_globals.get("__name__", ""))
            return object.__getattribute__(self, name)

        patch.setattr(kind, "__getattribute__", get, raising=False)

    for kind in names:
        watch(kind)
    try:
        _everything(tmp_path_factory.mktemp("effects"))
    finally:
        patch.undo()
    return seen


def _everything(place):
    shelf = Path(shutil.copytree(ROOT / "tests" / "shelf", place / "shelf"))
    (shelf / "shop.toml").write_text(SHOP)
    whole = shelf / "whole"
    whole.mkdir()
    (whole / "job.toml").write_text(WHOLE)
    (whole / "parts.csv").write_text(TABLE)
    (whole / "notes.md").write_text(NOTES.replace("joinery", "turning"))
    for folder in sorted(shelf.iterdir()):
        if folder.is_dir():
            pages_of(read_job(folder, pictures=False))
    _every_material(place / "materials", whole)
    untold = place / "untold" / "job"  # nothing said of the air, by job or shop
    untold.mkdir(parents=True)
    (untold / "parts.csv").write_text(TABLE)
    (untold / "notes.md").write_text(NOTES)
    pages_of(read_job(untold, pictures=False))
    alone = place / "alone"
    shutil.copytree(whole, alone / "whole")
    (alone / "whole" / "photos").mkdir()
    shutil.copy(SAMPLE / "photos" / "20260209_143012.jpg", alone / "whole" / "photos" / "a.jpg")
    (alone / "shop.toml").write_text(SHOP)
    assert bind(alone, place / "book").ok
    find_in(shelf, "oak")
    enquiry = place / "asked"
    shutil.copytree(whole, enquiry)
    (enquiry / "notes.md").unlink()
    (enquiry / "job.toml").write_text(WHOLE.replace("begun =", "#").replace("delivered =", "#"))
    assert estimate(enquiry, shelf, place / "estimate", date(2026, 5, 1)).ok
    (enquiry / "parts.csv").unlink()
    (enquiry / "notes.md").write_text("")
    assert estimate(enquiry, shelf, place / "estimate", date(2026, 5, 1)).ok
    for with_it, _ in CASES.values():
        with_it.care  # noqa: B018 - looking is what counts


def _every_material(folder, like):
    """A job with a part of everything that the tables know, its wall told by its wood alone, that goes in parts."""
    shutil.copytree(like, folder)
    in_parts = WHOLE.replace("delivered = 2026-04-11\n", "").replace(", sg = 0.42", "")
    (folder / "job.toml").write_text(f"{in_parts}{DELIVERY}")
    known = [
        (kind, row.name)
        for kind, table in (
            ("wood", tables.species()), ("panel", tables.sheets()), ("glass", tables.glass()), ("stone", tables.stones()),
            ("hardware", tables.metals()),
        )
        for row in table
    ]  # fmt: skip
    lines = [f'Piece {n},1,{kind},"{name}",400,300,20,floating' for n, (kind, name) in enumerate(known)]
    (folder / "parts.csv").write_text(
        "part,qty,kind,material,length,width,thickness,fit\n" + "\n".join(lines)
    )
    pages_of(read_job(folder, pictures=False))


CHECKED = {("Fastener", "length"), ("Job", "parts_for"), ("Job", "lead"), ("Job", "client")}
"""Keys whose effect is their reader's: a problem, where more of the fastener is in the wall than it is long; the counts of
parts, which are for all pieces once they are read; which pictures the client sees (`job.client_pictures`).
"""


def effects(seen, kind, field):
    """The modules that looked at a field and did not read it in."""
    return {
        name for name in seen.get((kind, field), ()) if name.startswith("buildbook.") and name not in READERS
    }


def test_every_column_of_the_trades_tables_has_an_effect(looked_at):
    every = {(c.__name__, f.name) for c in TRADE for f in dataclasses.fields(c) if f.name not in ABOUT_A_ROW}
    idle = {where for where in every if not effects(looked_at, *where)}
    idle -= {("Named", f.name) for f in dataclasses.fields(records.Named)} | {("NotKnown", "reason")}
    assert idle == WAITING


RECORDS = [
    (keys.JOB, "Job", {"finish": "finishes", "worked": "workings", "photos": "photos", "delivery": "deliveries"}), (keys.DELIVERY, "Delivery", {}), (keys.OVERALL, "Size", {}),
    (keys.CLIMATE, "Climate", {}), (keys.MADE_AT, "MadeAt", {}), (keys.FINISH, "Finish", {}), (keys.HANGING, "Hanging", {}),
    (keys.FASTENER, "Fastener", {}), (keys.WALL, "Wall", {}), (keys.PHOTOS, "Job", {}), (shop_keys.SHOP, "Shop", {}),
    (shop_keys.ALLOWANCES, "Allowances", {}), (shop_keys.CARD, "CardFormat", {}), (shop_keys.ESTIMATE, "Quoting", {}),
    (shop_keys.PAYMENT, "Payment", {}),
]  # fmt: skip


@pytest.mark.parametrize(
    ("table", "record", "elsewhere"), RECORDS, ids=[f"{t.heading} {r}" for t, r, _ in RECORDS]
)
def test_every_key_has_an_effect(table, record, elsewhere, looked_at):
    idle = [
        key.name
        for key in table.keys
        if all(
            name.startswith("buildbook.job.")
            for name in effects(looked_at, record, elsewhere.get(key.name, key.target))
        )
    ]
    assert [name for name in idle if (record, name) not in CHECKED] == []


@pytest.mark.parametrize(
    ("columns", "record", "elsewhere"),
    [
        (PARTS, "Part", {"part": "name", "mass": "mass_kg", "client": "for_client", "dia": "round"}),
        (PRICES, "Price", {"date": "day"}),
    ],
    ids=["parts.csv", "prices.csv"],
)
def test_every_column_has_an_effect(columns, record, elsewhere, looked_at):
    idle = [
        name
        for name in columns
        if all(
            module.startswith("buildbook.job.")
            for module in effects(looked_at, record, elsewhere.get(name, name))
        )
    ]
    assert idle == []
