"""A range for every figure and day that a maker writes: decided, believed up to its ends, and told beyond them."""

import csv
import re
from collections import Counter
from datetime import date, timedelta
from decimal import Decimal
from importlib import resources
from pathlib import Path

import pytest

import buildbook.job
from buildbook.job.believable import DAY, PLACES, Believable, believable, names, plain_amount
from buildbook.job.table.headings import PARTS, PRICES
from buildbook.job.table.parts import read_parts
from buildbook.job.toml import keys, photo_keys, shop_keys
from buildbook.job.toml.key import MEASURED, READS, Key
from buildbook.job.toml.values import read_value
from buildbook.job.toml.working_keys import WORKED
from buildbook.problems import Problems
from buildbook.quantity import QuantityError

KEYS = {
    (table.heading, key.name): key
    for table in (*keys.JOB_TABLES, *shop_keys.SHOP_TABLES, *WORKED.values(), *photo_keys.PHOTO_TABLES)
    for key in table.keys
}
COLUMNS = {("parts.csv", name): column for name, column in PARTS.items()} | {
    ("prices.csv", name): column for name, column in PRICES.items()
}
EACH = KEYS | COLUMNS
UNITS = {
    "date": {"day"}, "dates": {"day"}, "length": {"m"}, "diameter": {"m"}, "stock": {"m"}, "boards": {"m"}, "mass": {"kg"}, "loads": {"kg"}, "spread": {"m2/l"},
    "temperature": {"degC"}, "solvent": {"g/l"}, "angle": {"deg"}, "percent": {"pct"}, "days": {"d"}, "amount": {"coin"},
    "count": {"each", "months"}, "number": {"1", "h"},
}  # fmt: skip
"""The unit that each kind of value is held in."""

NOT_OF_A_KEY = {"bare temperature", "booked hours", "estimated hours", "length of a video"}
"""Ranges of what stands in notes, in estimate.json and in videos."""


def ranges(within):
    return [believable(name) for name in within.split("; ")]


@pytest.mark.parametrize("where", EACH, ids=str)
def test_what_is_measured_counted_or_dated_has_a_range_of_its_unit(where):
    said = EACH[where]
    assert said.reads in READS
    assert bool(said.within) == (said.reads in MEASURED)
    if said.within:
        assert {known.unit for known in ranges(said.within)} <= UNITS[said.reads]


def test_every_kind_of_value_is_known_as_measured_or_not():
    words = {
        "text",
        "lines",
        "texts",
        "address",
        "flag",
        "choice",
        "choices",
        "pieces",
        "sums",
        "table",
        "tables",
    }
    assert set(UNITS) == MEASURED
    assert set(READS) == MEASURED | words


def test_every_range_is_used_and_says_where_it_is_from():
    used = {name for said in EACH.values() if said.within for name in said.within.split("; ")}
    assert used | NOT_OF_A_KEY == set(names())
    source = "".join(path.read_text("utf-8") for path in Path(buildbook.job.__file__).parent.rglob("*.py"))
    for name in NOT_OF_A_KEY:
        assert f'"{name}"' in source
    text = resources.files("buildbook.job").joinpath("data", "believable.csv").read_text("utf-8")
    rows = list(csv.DictReader(line for line in text.splitlines() if not line.startswith("# ")))
    assert max(Counter(row["name"] for row in rows).values()) == 1
    for row in rows:
        known = believable(row["name"])
        assert known.least < known.most
        assert row["what"]
        assert row["source"] == "chosen"


ORDINARY = {
    "size of a piece": [0.002, 0.05, 12], "size of a part": [0.001, 12, 15], "thickness of a part": [0.0005, 0.3],
    "pieces": [1, 20_000], "pieces of a set": [1, 2, 120], "price": [0, Decimal("0.01"), 10**9], "booked hours": [0.1, 8, 20_000],
    "day of work": [date(1650, 5, 1), date(1987, 3, 2), date(2026, 3, 2)], "waiting days": [0, 0.5, 365],
    "room temperature": [-20, 45], "load": [0.5, 20_000],
}  # fmt: skip
"""What real shops have had: a spoon, a boardroom table, marquetry, a wall of books, a restored chest."""


@pytest.mark.parametrize("name", ORDINARY)
def test_the_largest_and_least_of_the_trade_are_believed(name):
    assert all(believable(name).holds(value) for value in ORDINARY[name])


@pytest.mark.parametrize("name", names())
def test_both_ends_belong_to_it_and_nothing_beyond(name):
    known = believable(name)
    step = timedelta(days=1) if known.unit == DAY else (known.most - known.least) / 1000
    assert known.holds(known.least)
    assert known.holds(known.most)
    assert not known.holds(known.least - step)
    assert not known.holds(known.most + step)


@pytest.mark.parametrize("text", ["NaN", "Infinity", "-Infinity", "1E-400", "1E+400", "-1E-400", "1E-999999"])
def test_what_is_no_figure_is_not_believed(text):
    assert not believable("price").holds(Decimal(text))


def test_the_end_of_a_range_is_exact_for_money():
    assert believable("round step").holds(Decimal("0.001"))


@pytest.mark.parametrize(
    ("units", "said"), [("mm", "between 0.5 mm and 20 m"), ("in", "between 0.02 and 787.402 in")]
)
def test_lengths_are_told_in_the_unit_of_the_job(units, said):
    assert believable("size of a part").between(units) == said


def beyond(known: Believable):
    """Just outside, as a value of TOML."""
    unit = {
        "m": " m",
        "kg": " kg",
        "degC": " degC",
        "m2/l": " m2/l",
        "g/l": " g/l",
        "d": " days",
        "deg": " deg",
    }
    if known.unit == DAY:
        return known.most + timedelta(days=1)
    more = Decimal(repr(known.most)) * 2 + 1
    return f"{more:f}{unit[known.unit]}" if known.unit in unit else more


@pytest.mark.parametrize("where", [k for k, key in KEYS.items() if key.within], ids=str)
def test_every_key_tells_what_lies_beyond_with_its_range_and_one_thing_to_do(where):
    key: Key = KEYS[where]
    known = ranges(key.within)[-1]
    value = beyond(known)
    if key.reads == "dates":
        value = [value]
    if key.reads == "loads":
        value = [f"{value} in each drawer"]
    if key.reads == "boards":
        value = [f"20 mm x 100 mm x {value}"]
    with pytest.raises(QuantityError) as told:
        read_value(value, key, "mm")
    assert known.between() in told.value.message
    assert re.fullmatch(r"(See|Write) .+\S", told.value.hint)


@pytest.mark.parametrize("column", [name for name, column in PARTS.items() if column.within])
def test_every_column_tells_what_lies_beyond(column):
    known = believable(PARTS[column].within)
    value = f"{beyond(known)}"
    problems = Problems()
    read_parts(f"part,material,{column}\nTop,black cherry,{value}\n".encode(), "mm", problems)
    assert [p for p in problems if p.field == column and known.between() in p.message]


def test_an_amount_keeps_no_decimals_that_no_currency_has():
    assert plain_amount(Decimal("3.33333333333333333333")) == Decimal("3.333333")
    assert plain_amount(Decimal("3.5")) == Decimal("3.5")
    assert plain_amount(Decimal("1E-7")) == Decimal("1E-7"), "told, not rounded to nothing"
    assert PLACES > 4
