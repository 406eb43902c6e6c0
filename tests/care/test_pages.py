"""The client's pages of twelve whole jobs: as they were read from end to end, and marked."""

import re
import tomllib

import pytest

from tests.care.pages import HERE, advice_text, golden, jobs, maker_text, page_text

MARKS = tomllib.loads((HERE / "marks.toml").read_text(encoding="utf-8"))
KNOWN = [
    tuple(row.split(" ; "))
    for row in (HERE / "known.txt").read_text(encoding="utf-8").splitlines()
    if row and not row.startswith("#")
]


def open_marks() -> list[tuple[str, str, str]]:
    """The marks that the pages do not answer."""
    found = []
    for name, marks in MARKS.items():
        page = page_text(name)
        texts = {"needed": advice_text(name), "stated": page, "wrong": page, "maker": maker_text(name)}
        for sort, patterns in marks.items():
            for pattern in patterns:
                if bool(re.search(pattern, texts[sort])) is (sort == "wrong"):
                    found.append((name, sort, pattern))
    return found


@pytest.mark.parametrize("name", jobs())
def test_a_page_is_as_it_was_read(name):
    """Where a change is meant: `python -m tests.care.pages`, and read what git shows."""
    assert page_text(name) == golden(name).read_text(encoding="utf-8")


def test_there_is_a_page_and_a_mark_for_each_of_twelve_jobs():
    assert len(jobs()) == 12
    assert set(MARKS) == set(jobs())
    assert {file.relative_to(HERE).with_suffix("").as_posix() for file in HERE.glob("*/*.txt")} == set(jobs())


def test_what_was_marked_in_a_page_is_answered():
    """Nothing is open that is not known to be, and what is known is still open."""
    found = open_marks()
    assert [mark for mark in found if mark not in KNOWN] == []
    assert [mark for mark in KNOWN if mark not in found] == [], "mended: take them out of known.txt"
