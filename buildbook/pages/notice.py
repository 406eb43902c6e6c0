"""A problem or a caution as the maker's pages show it."""

from __future__ import annotations

from dataclasses import dataclass

from buildbook.job.row_names import row_name
from buildbook.pages.phrases import Phrases
from buildbook.problems import Problem
from buildbook.words import Words
from buildbook.words.told import rows_and_lines, told


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
    said = told(problem, phrases.words.language, row_name)
    text = " ".join(part for part in (said.message, said.hint) if part)
    return Notice(
        text,
        problem.severity,
        phrases(f"problem.{problem.severity}"),
        where=place_said(problem, phrases.words),
    )


def place_said(problem: Problem, words: Words) -> str:
    """Where it is, in words: `parts.csv, row 7, thickness`."""
    return ", ".join(filter(None, (problem.file, *rows_and_lines(problem, words.language), problem.field)))
