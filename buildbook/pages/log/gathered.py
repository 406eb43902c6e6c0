"""What the marked lines of a log come to, gathered by kind, so that a setting is found without reading the days.

In: the entries of a job with the ids of their days. Out: groups in the order in which the next piece asks for them,
each line as the maker wrote it, with its day and a link there.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from buildbook.job.log_model import LogEntry
from buildbook.pages.drawn.shaped import MarkedLine
from buildbook.pages.log.onward import Bit, Onward
from buildbook.pages.phrases import Phrases

ORDER = (
    "joint", "at", "gap", "setting", "glue", "taper", "edge", "board", "jig", "template", "changed",
    "mistake", "next-time",
)  # fmt: skip
"""The marks in the order in which they stand: what is cut and set out first, what went otherwise last."""
_TOGETHER = {"fix": "mistake"}
"""What is told with another: how a mistake was mended, under the mistake."""


@dataclass(frozen=True)
class GatheredLine:
    """One marked line: its text, its day in short, the id of where it stands, and the title of the day's note.
    `label`: which mark it is, where its group holds another kind too. `bits`: the text with where its names lead.
    """

    text: str
    day: str
    anchor: str
    title: str
    label: str = ""
    bits: tuple[Bit, ...] = ()


@dataclass(frozen=True)
class GatheredGroup:
    """The lines of one mark, in the order of the log."""

    key: str
    heading: str
    lines: tuple[GatheredLine, ...]


def gathered(
    entries: Sequence[tuple[str, LogEntry]], phrases: Phrases, leads: Onward
) -> tuple[GatheredGroup, ...]:
    """The groups that have lines. `entries`: each with the id of its day on the page."""
    lines: dict[str, list[GatheredLine]] = {}
    for entry, line in _marked(entries, phrases):
        group = _TOGETHER.get(line.key, line.key)
        label = phrases(f"log.gathered.{line.key}") if group != line.key else ""
        lines.setdefault(group, []).append(
            GatheredLine(line.text, line.day, line.anchor, entry.title, label, leads.bits(line.text))
        )
    return tuple(
        GatheredGroup(key, phrases(f"log.gathered.{key}"), tuple(lines[key])) for key in ORDER if key in lines
    )


def marked_lines(entries: Sequence[tuple[str, LogEntry]], phrases: Phrases) -> tuple[MarkedLine, ...]:
    """Every marked line in the order of the log, with its day and the id of where it stands."""
    return tuple(line for _, line in _marked(entries, phrases))


def _marked(
    entries: Sequence[tuple[str, LogEntry]], phrases: Phrases
) -> Iterator[tuple[LogEntry, MarkedLine]]:
    for identity, entry in entries:
        counts: Counter[str] = Counter()
        for mark in entry.marks:
            counts[mark.key] += 1
            anchor = f"{identity}-{mark.key}-{counts[mark.key]}"
            yield entry, MarkedLine(mark.key, mark.text, phrases.short_date(entry.day), anchor)
