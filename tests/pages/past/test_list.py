"""The list of past work: by year, the newest first, with what a job's pages lack."""

from hypothesis import given
from hypothesis import strategies as st

from buildbook.left.model import Entry
from buildbook.pages.past.list import listed, past_work, without_entry
from buildbook.words import Words


def job(key, delivered="", begun="", year="", mark=""):
    day = delivered or begun
    return listed(
        Entry(key=key, title=key, year=year or day[:4], delivered=delivered, begun=begun), Words("en"), mark
    )


JOBS = [
    job("b", "2024-03-01"), job("a", "2024-03-01"), job("c", "2024-11-30", begun="2023-01-01"), job("d", begun="2025-02-01"),
    job("e", "2025-01-31", mark="Not bound again."), job("f"), without_entry("g", "Never bound.", has_handover=False),
]  # fmt: skip


@given(st.permutations(JOBS))
def test_years_and_their_jobs_go_back_in_time_and_what_has_no_date_is_last(jobs):
    work = past_work(jobs, language="en", shop="Shop")
    assert [(year.year, [entry.key for entry in year.entries]) for year in work.years] == [
        ("2025", ["d", "e"]),
        ("2024", ["c", "a", "b"]),
        ("", ["f", "g"]),
    ]
    assert work.count == len(JOBS)


def test_a_mark_stays_with_its_job_and_a_name_alone_leads_to_no_handover():
    work = past_work(JOBS, language="en", shop="Shop")
    every = [entry for year in work.years for entry in year.entries]
    assert {entry.key: entry.mark for entry in every if entry.mark} == {
        "e": "Not bound again.",
        "g": "Never bound.",
    }
    assert [entry.key for entry in every if not entry.has_handover] == ["g"]
    assert every[-1].title == "g"


def test_a_listed_job_says_all_that_its_entry_does():
    entry = Entry(key="k", title="T", number="1", piece="table", year="2026", size="1 m", woods=("oak",), tags=("x",), hours="3 h")  # fmt: skip
    shown = listed(entry, Words("en"))
    assert all(getattr(shown, name) == getattr(entry, name) for name in Entry.__slots__)
    assert past_work([], language="en", shop="").years == ()
