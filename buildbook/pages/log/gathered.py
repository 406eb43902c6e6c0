"""What the marked lines of a log come to, gathered by kind, so that a setting is found without reading the days.

In: the entries of a job with the ids of their days. Out: groups in the order in which the next piece asks for them,
each line as the maker wrote it, with its day and a link there.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from buildbook.job.log_model import LogEntry
from buildbook.pages.drawn.shaped import MarkedLine
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
    `label`: which mark it is, where its group holds another kind too.
    """

    text: str
    day: str
    anchor: str
    title: str
    label: str = ""


@dataclass(frozen=True)
class GatheredGroup:
    """The lines of one mark, in the order of the log."""

    key: str
    heading: str
    lines: tuple[GatheredLine, ...]


def day_ids(days: Iterable[date | None]) -> tuple[str, ...]:
    """The id of each day of the log in its order: `day-2026-02-16`, a second one `day-2026-02-16-2`; empty for what has
    no date.
    """
    counts: Counter[date] = Counter()
    found = []
    for day in days:
        if day is None:
            found.append("")
            continue
        counts[day] += 1
        found.append(f"day-{day.isoformat()}" + (f"-{counts[day]}" if counts[day] > 1 else ""))
    return tuple(found)


def gathered(entries: Sequence[tuple[str, LogEntry]], phrases: Phrases) -> tuple[GatheredGroup, ...]:
    """The groups that have lines. `entries`: each with the id of its day on the page."""
    lines: dict[str, list[GatheredLine]] = {}
    for entry, line in _marked(entries, phrases):
        group = _TOGETHER.get(line.key, line.key)
        label = phrases(f"log.gathered.{line.key}") if group != line.key else ""
        lines.setdefault(group, []).append(GatheredLine(line.text, line.day, line.anchor, entry.title, label))
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
