"""Hours that name no stage count, are shown as such, and are lost to no estimate."""

import pytest

from buildbook.estimate.past import told_by_stage
from buildbook.job import read_job
from buildbook.pages.log.build_log import build_log
from buildbook.pages.phrases import Phrases
from buildbook.summary import summarise
from buildbook.summary.model import HoursBooked, StageHours


def job_of(folder, hours, language="en"):
    (folder / "job.toml").write_text('title = "Bench"\n')
    (folder / "shop.toml").write_text(f'language = "{language}"\n')
    (folder / "notes.md").write_text(f"## 2026-03-02 Day\n\nHours: {hours}\n")
    return read_job(folder)


@pytest.mark.parametrize(
    ("said", "booked"),
    [
        ("3", [("", 3.0)]),
        ("3.5 h", [("", 3.5)]),
        ("2:30", [("", 2.5)]),
        ("1 1/4", [("", 1.25)]),
        ("45 min", [("", 0.75)]),
        ("2 Std.", [("", 2.0)]),
        ("joinery 2, 1.5", [("joinery", 2.0), ("", 1.5)]),
        ("2,5", [("", 2.5)]),
    ],
)
def test_they_are_booked(tmp_path, said, booked):
    job = job_of(tmp_path, said)
    assert [str(problem) for problem in job.problems if problem.file == "notes.md"] == []
    assert [(line.stage, line.hours) for line in job.entries[0].hours] == booked
    assert summarise(job).hours.total_h == sum(hours for _, hours in booked)


@pytest.mark.parametrize(
    ("language", "named", "shown"),
    [("en", "joinery", "No stage named"), ("de", "Verbindungen", "Ohne Arbeitsgang")],
)
def test_they_are_shown_as_such(tmp_path, language, named, shown):
    job = job_of(tmp_path, "joinery 2, 1.5", language)
    log = build_log(job, summarise(job), (), Phrases.of(job), lead=None, wood_colours=("", ""))
    assert [bar.stage for bar in log.stages] == [named, shown]
    assert [line.label for line in log.days[0].hours] == [named, shown]


def test_an_estimate_shares_them_among_the_stages_that_are_named():
    """6 h of joinery and 2 of finishing, 4 h without: half as much again of each, 9 and 3."""
    booked = HoursBooked(
        (StageHours("joinery", 6.0), StageHours("finishing", 2.0), StageHours("", 4.0)), 12.0
    )
    assert told_by_stage(booked) == {"joinery": 9.0, "finishing": 3.0}
    assert told_by_stage(HoursBooked((StageHours("", 4.0),), 4.0)) == {}
    plain = HoursBooked((StageHours("joinery", 0.1), StageHours("milling", 0.2)), 0.1 + 0.2)
    assert told_by_stage(plain) == {"joinery": 0.1, "milling": 0.2}
