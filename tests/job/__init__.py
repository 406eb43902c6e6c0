"""Tests of `buildbook.job`, a file a module.

The heart are the files of `slips/`: what a maker wrote, and every line that is shown for it.
"""

from pathlib import Path

import pytest

from buildbook.problems import Problems

SLIPS = Path(__file__).with_name("slips")


def told(problems: Problems) -> list[str]:
    """Every problem as a maker sees it, its severity first."""
    return [f"{problem.severity}: {problem}" for problem in problems]


def slips(name: str) -> list:
    """The cases of a file of slips, each a text and the lines that it gets, as parameters of a test."""
    _, *cases = (SLIPS / f"{name}.txt").read_text("utf-8").split("\n== ")
    found = []
    for case in cases:
        title, _, rest = case.partition("\n")
        text, _, lines = rest.partition("\n--\n")
        found.append(pytest.param(text, lines.strip().split("\n"), id=title))
    return found
