"""Every number in a book is rounded to what it means, so that a book is the same under every Python."""

import builtins
import json
import math
import re
from fractions import Fraction
from pathlib import Path

import pytest

from buildbook.book.bind import bind
from buildbook.book.estimate import estimate
from tests.conftest import SAMPLE, every_file
from tests.estimates import DAY, ENQUIRIES, SHELF

NUMBER = re.compile(r"(?<![\w.,-])-?\d+\.\d+(?:e-?\d+)?(?![\w.]*\d)", re.IGNORECASE)
TEXTS = {".html", ".json", ".jsonld", ".js", ".ics", ".css", ".txt"}
MOST_DIGITS, MONEY_PLACES = 7, 2


def longer(text):
    """Numbers with more digits than a figure has; money may have more before the point."""
    return [found[0] for found in NUMBER.finditer(text) if is_longer(found[0])]


def longer_in_json(text):
    """The same of a record, whose texts may quote a clause of a rule such as 1910.106."""
    found = []
    json.loads(text, parse_float=found.append)
    return [number for number in found if is_longer(number)]


def is_longer(number):
    before, _, places = number.lower().partition("e")[0].partition(".")
    digits = (before + places).lstrip("-0")
    return len(places) > MONEY_PLACES and len(digits) > MOST_DIGITS


def test_the_search_finds_what_it_looks_for():
    assert longer_in_json('{"a":0.12345678,"b":[1.23456789e-5],"c":12345.67}') == [
        "0.12345678",
        "1.23456789e-5",
    ]
    assert longer('transform="translate(-0.002763267961528277 0)"') == ["-0.002763267961528277"]
    assert longer("12345.67 0.123456 1.10.2026 sha256-ab.1234567 v1.2.3456789") == []


@pytest.fixture(scope="module")
def books(tmp_path_factory):
    """The sample, the ten jobs and an estimate, as files by name."""
    place = tmp_path_factory.mktemp("numbers")
    assert bind(SAMPLE, place / "sample").ok
    assert bind(SHELF, place / "shelf").ok
    assert estimate(ENQUIRIES / "linen-press", SHELF, place / "estimates", DAY).ok
    return every_file(place)


def test_no_number_in_a_book_is_longer_than_it_means(books):
    looked_at = {name: content for name, content in books.items() if Path(name).suffix in TEXTS}
    assert len(looked_at) > 60
    found = {
        name: (longer_in_json if "json" in Path(name).suffix else longer)(content.decode())
        for name, content in looked_at.items()
    }
    assert {name: numbers for name, numbers in found.items() if numbers} == {}


def one_by_one(values, /, start=0):
    """As Python up to 3.11 adds."""
    total = start
    for value in values:
        total = total + value
    return total


def exactly(values, /, start=0):
    """Floats without the error of any step, which is more than Python 3.12 does."""
    every = list(values)
    if every and all(isinstance(value, float) for value in every):
        return float(sum_of_fractions(every) + Fraction(start))
    return one_by_one(every, start)


def sum_of_fractions(every):
    total = Fraction(0)
    for value in every:
        total += Fraction(value) if math.isfinite(value) else 0
    return total


def test_the_same_book_however_python_adds(tmp_path, monkeypatch):
    made = []
    for way in (one_by_one, exactly):
        monkeypatch.setattr(builtins, "sum", way)
        book = tmp_path / way.__name__
        assert bind(SAMPLE, book).ok
        made.append(every_file(book))
    assert made[0].keys() == made[1].keys()
    assert [name for name in made[0] if made[0][name] != made[1][name]] == []
