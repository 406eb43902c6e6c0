"""The progress that a person sees, on a terminal of our own making."""

import io

from rich.console import Console

from buildbook.cli import bar as bars


def shown(monkeypatch, terminal, **how):
    screen = io.StringIO()
    console = Console(file=screen, force_terminal=terminal, width=100, color_system=None)
    monkeypatch.setattr(bars, "Console", lambda **_: console)
    with bars.Bar(**how) as bar:
        bar.show("jobs", 0, 12)
        bar.show("photos", 0, 1)
        bar.show("jobs", 7, 12)
        bar._bar.refresh()
        seen = screen.getvalue()
        bar.show("jobs", 12, 12)
    assert bar.done == {"jobs": (12, 12), "photos": (0, 1)}
    return seen


def test_it_counts_jobs_and_shows_the_time_left(monkeypatch):
    seen = shown(monkeypatch, True)
    assert "jobs" in seen
    assert " 7/12" in seen
    assert ":" in seen.split("7/12")[1]
    assert "photos" not in seen  # of one piece of work there is no progress to be shown


def test_a_file_or_a_quiet_terminal_gets_none(monkeypatch):
    assert shown(monkeypatch, False) == ""
    assert shown(monkeypatch, True, quiet=True) == ""
