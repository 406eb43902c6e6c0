"""The file of a record: it comes back as it was, and nothing else is taken for one, whatever it is."""

import json
import re
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.find.record import passages_of
from buildbook.job import find_jobs, read_job
from buildbook.left.codec import decoded, encoded, read_as
from buildbook.left.model import Cover, JobRecord
from buildbook.left.record import job_record
from buildbook.quantity.figures import figure
from buildbook.summary import summarise
from buildbook.words import Words

SHELF = Path(__file__).resolve().parents[1] / "shelf"
COVER = Cover(digest="0" * 64, width=1200, height=900, alt="A cupboard “as made”, ½ open")


def record_of(folder, cover=COVER):
    job = read_job(folder)
    summary, words = summarise(job), Words(job.shop.language)
    return job_record(job, summary, words, passages_of(job, summary, words), cover)


RECORDS = [record_of(folder, COVER if place else None) for place, folder in enumerate(find_jobs(SHELF))]
FILES = [encoded(record) for record in RECORDS]
ONE = FILES[0]


def leaves(value):
    """Every value of a record that holds no others."""
    if is_dataclass(value):
        value = [getattr(value, field.name) for field in fields(value)]
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list | tuple):
        return [leaf for item in value for leaf in leaves(item)]
    return [value]


def near(value):
    return figure(value) if isinstance(value, float) else value


def test_it_comes_back_with_its_types_and_floats_as_figures():
    assert len(RECORDS) == 10
    for record, file in zip(RECORDS, FILES, strict=True):
        again = decoded(file)
        assert isinstance(again, JobRecord)
        before, after = leaves(record), leaves(again)
        assert [near(value) for value in before] == after
        assert list(map(type, before)) == list(map(type, after))
        assert encoded(again) == file
    kinds = {type(value) for record in RECORDS for value in leaves(record)}
    assert kinds == {int, str, float, bool, date, Decimal, type(None)}


def test_no_number_is_longer_than_it_means():
    """The last digits of a float differ from one Python to the next; a file never holds them."""
    for file in FILES:
        assert re.findall(rb"\.\d{10,}", file) == []
        assert re.findall(rb"\d[eE][+-]?\d", re.sub(rb'"(?:[^"\\]|\\.)*"', b"", file)) in ([], [b"e-"])


CHANGES = {
    "another edition": lambda facts: facts.update(schema=2),
    "no edition": lambda facts: facts.pop("schema"),
    "edition as a text": lambda facts: facts.update(schema="1"),
    "a part missing": lambda facts: facts.pop("used"),
    "a field missing": lambda facts: facts["find"].pop("counts"),
    "a field missing that has a default": lambda facts: facts["entry"].pop("tags"),
    "a field too many": lambda facts: facts.update(more=1),
    "a field too many inside": lambda facts: facts["used"]["woods"][0].update(more=1),
    "a number for a text": lambda facts: facts["entry"].update(key=5),
    "a text for a number": lambda facts: facts["find"].update(hours_h="12"),
    "a float for a count": lambda facts: facts["used"]["woods"][0].update(count=1.0),
    "a text for a list": lambda facts: facts["entry"].update(woods="oak"),
    "an amount in words": lambda facts: facts["used"].update(materials="a lot"),
    "no such day": lambda facts: facts["used"].update(day="2024-02-30"),
    "half a pair": lambda facts: facts["used"].update(hours=[["joinery"]]),
    "not a number": lambda facts: facts["used"].update(joinery_h=float("nan")),
    "no object": lambda facts: facts.update(entry=[]),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_what_is_no_record_is_refused(change):
    facts = json.loads(ONE)
    change(facts)
    assert decoded(json.dumps(facts, ensure_ascii=False, separators=(",", ":")).encode() + b"\n") is None


@pytest.mark.parametrize(
    "data",
    [
        b"", b"null", b"\n", b"\xff\xfe", b"[" * 100_000, b'{"entry":' * 100_000, b'{"more":' + b"[" * 100_000,
        ONE[:-1], ONE + ONE, b" " + ONE, ONE.replace(b'"schema":1,', b'"schema":1,"schema":1,'),
        ONE.replace(b'"hours_h":', b'"hours_h":1e999,"x":'), b'{"schema":' + b"9" * 5000 + b"}",
        json.dumps(json.loads(ONE), indent=1).encode(),
    ],
    ids=range(14),
)  # fmt: skip
def test_whatever_else_is_no_record_and_raises_nothing(data):
    assert decoded(data) is None


@given(st.integers(0, len(ONE) - 1), st.binary(max_size=4), st.integers(0, 4))
def test_a_file_that_was_damaged_is_read_as_it_stands_or_not_at_all(place, put, cut):
    """What is read of any bytes is what would be written so."""
    damaged = ONE[:place] + put + ONE[place + cut :]
    record = decoded(damaged)
    assert record is None or encoded(record) == damaged or near_only(record, damaged)


def near_only(record, damaged):
    """A figure with too many places is told by nothing but its length."""
    return bool(re.search(rb"\.\d{10,}|e-", damaged)) and decoded(encoded(record)) is not None


@given(st.binary(max_size=200))
def test_any_bytes_raise_nothing(data):
    assert decoded(data) is None
    read_as(dict[str, tuple[str, ...]], data)
