"""A generated shelf of 300 jobs, as records and as a book, made once for all tests of finding."""

import pytest

from tests.make_shelf import job_of, made_jobs, searched, write_book


@pytest.fixture(scope="session")
def jobs():
    """300 jobs with what is true of each."""
    return list(made_jobs(300, seed=7))


@pytest.fixture(scope="session")
def found(jobs):
    """What is searched of each, with its words."""
    return [searched(job_of(job)) for job in jobs]


@pytest.fixture(scope="session")
def records(found):
    return [one.record for one in found]


@pytest.fixture(scope="session")
def book(jobs, tmp_path_factory):
    """The same jobs as binding would leave them for the page."""
    place = tmp_path_factory.mktemp("found") / "book"
    write_book(place, iter(jobs))
    return place
