"""What a maker looks up leads to the paragraph that answers it: thirty-six look-ups, written from the notes before.

Run as `python -m tests.find.test_lookups` for the figures and the look-ups that lead elsewhere.
"""

import tomllib
from pathlib import Path

import pytest

from buildbook.book.past.found import found_by
from buildbook.find.index import build
from buildbook.job import find_jobs, read_job
from tests.conftest import SAMPLE
from tests.make_shelf import searched

HERE = Path(__file__).parent
ASKED = tomllib.loads((HERE / "lookups.toml").read_text("utf-8"))["asked"]
JOBS = (SAMPLE, *find_jobs(HERE.parents[0] / "shelf"), *find_jobs(HERE / "lookups"))
LEAST_PARAGRAPHS, LEAST_DAYS = 26, 29
"""Look-ups of which the first passage of the first job is the right paragraph, and at least the right day. Before there
were places to lead to, it would have been 12 and 19.
"""


@pytest.fixture(scope="module")
def shelf():
    return {path.name: searched(read_job(path, pictures=False)) for path in JOBS}


def first_of(shelf, text):
    """The job and the passage that come first, whole."""
    index = build(one.record for one in shelf.values())
    passages = {one.record.key: one.passages for one in shelf.values()}
    _, found = found_by(index, text, 1, passages.__getitem__)
    if not found or not found[0].passages:
        return None
    shown = found[0].passages[0]
    whole = next(
        p for p in passages[found[0].key] if (p.field, p.where, p.at) == (shown.field, shown.where, shown.at)
    )
    assert found[0].page == f"jobs/{found[0].key}/index.html" + (f"#{shown.at}" if shown.at else "")
    return found[0].key, whole


def leads(shelf, asked):
    """`paragraph`, `day` or `elsewhere`."""
    found = first_of(shelf, asked["text"])
    if found is None:
        return "elsewhere"
    key, whole = found
    right = [says for job, day, says in asked["to"] if (job, day) == (key, whole.where)]
    if any(says in whole.text for says in right):
        return "paragraph"
    return "day" if right else "elsewhere"


def test_each_answer_stands_in_the_notes(shelf):
    for asked in ASKED:
        for job, day, says in asked["to"]:
            assert any(p.where == day and says in p.text for p in shelf[job].passages), (asked["text"], says)


def test_most_lead_to_the_paragraph_at_once(shelf):
    found = [leads(shelf, asked) for asked in ASKED]
    assert found.count("paragraph") >= LEAST_PARAGRAPHS
    assert found.count("paragraph") + found.count("day") >= LEAST_DAYS


if __name__ == "__main__":
    all_of = {path.name: searched(read_job(path, pictures=False)) for path in JOBS}
    for one in ASKED:
        if (where := leads(all_of, one)) != "paragraph":
            print(f"{where:9}  {one['text']}  {first_of(all_of, one['text'])}")
