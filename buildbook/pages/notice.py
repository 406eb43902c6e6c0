"""A problem or a caution as the maker's pages show it."""

from __future__ import annotations

from dataclasses import dataclass

from buildbook.pages.phrases import Phrases
from buildbook.problems import Problem


@dataclass(frozen=True)
class Notice:
    """A problem or a caution as one line."""

    text: str
    severity: str
    severity_word: str
    where: str = ""
    why: str = ""
    title: str = ""


def problem_line(problem: Problem, phrases: Phrases) -> Notice:
    """A problem with what to do about it, by its place."""
    text = " ".join(part for part in (problem.message, problem.hint) if part)
    return Notice(text, problem.severity, phrases(f"problem.{problem.severity}"), where=problem.place)
