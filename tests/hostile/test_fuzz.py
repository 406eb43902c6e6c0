"""Whatever a maker writes is told, or shown: no reader, sum, page, calendar or print ends in a fault of ours.

HYPOTHESIS_PROFILE=search looks for new cases; a run as usual tries the same ones each time.
"""

import json
import shutil
import tempfile
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from buildbook.book.bind_job import pages_of
from buildbook.book.estimate import estimate
from buildbook.book.past.records import job_files
from buildbook.book.past.search import find_in
from buildbook.job import read_job
from buildbook.problems import Problems, any_error
from buildbook.summary import summarise
from tests.hostile import bound
from tests.hostile.makers import folders

TRIED = settings.default.max_examples
QUICK = settings(
    max_examples=max(1, TRIED // 2),
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    phases=[
        Phase.explicit,
        Phase.reuse,
        Phase.generate,
    ],  # whole folders shrink for minutes; the traceback tells more
)
SLOW = settings(QUICK, max_examples=max(1, TRIED // 8))
KINDS = pytest.mark.parametrize("wild", [False, True], ids=["believable", "wild"])


@pytest.fixture(scope="module")
def place():
    with tempfile.TemporaryDirectory() as name:
        yield Path(name)


def shelf(place, files):
    """A shelf with one job, fresh."""
    folder = place / "shelf"
    shutil.rmtree(folder, ignore_errors=True)
    (folder / "job").mkdir(parents=True)
    for name, text in files.items():
        (folder / name).write_bytes(text.encode("utf-8"))
    return folder


@KINDS
@QUICK
@given(data=st.data())
def test_what_is_read_is_reckoned_and_laid_out(place, wild, data):
    job = read_job(shelf(place, data.draw(folders(wild))) / "job")
    summary = summarise(job)
    for content in job_files(job, summary, None).values():
        content.decode("utf-8")
    if not any_error(job.problems):
        *_, facts = pages_of(job, summary)
        json.loads(facts)


@KINDS
@SLOW
@given(data=st.data())
def test_what_is_bound_can_be_opened(place, wild, data):
    book = place / "book"
    shutil.rmtree(book, ignore_errors=True)
    result = bound(shelf(place, data.draw(folders(wild))), book)
    assert not [p for p in result.problems if p.field != "theme"]
    assert all(job.bound != any_error(job.problems) for job in result.jobs)


@KINDS
@SLOW
@given(data=st.data(), day=st.sampled_from([date.min, date(2026, 5, 1), date.max]))
def test_a_shelf_answers_and_quotes(place, wild, data, day):
    folder = shelf(place, data.draw(folders(wild)))
    enquiry = place / "asked"
    shutil.rmtree(enquiry, ignore_errors=True)
    enquiry.mkdir()
    for name, text in data.draw(folders(wild)).items():
        if name.startswith("job/"):
            (enquiry / name.removeprefix("job/")).write_bytes(text.encode("utf-8"))
    problems = Problems()
    find_in(folder, "oak", None, problems)
    made = estimate(enquiry, folder, place / "estimate", day)
    assert not made.fault, made.fault
    assert not [p for p in (*problems, *made.problems) if "itself failed" in p.message]


def test_what_should_be_right_is_mostly_bound(place):
    """Else the tests above would try nothing but problems."""
    bound_ones = []

    @settings(QUICK, max_examples=20, derandomize=True)
    @given(files=folders(False))
    def try_one(files):
        bound_ones.append(not any_error(read_job(shelf(place, files) / "job").problems))

    try_one()
    assert sum(bound_ones) > len(bound_ones) / 3
