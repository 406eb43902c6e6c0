"""What the marked lines of a log come to, gathered by kind, so that a setting is found without reading the days.

In: the entries of a job with the ids of their days. Out: groups in the order in which the next piece asks for them,
each line as the maker wrote it, with its day and a link there.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from buildbook.job.log_model import LogEntry
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
    for identity, entry in entries:
        counts: Counter[str] = Counter()
        for mark in entry.marks:
            counts[mark.key] += 1
            anchor = f"{identity}-{mark.key}-{counts[mark.key]}"
            group = _TOGETHER.get(mark.key, mark.key)
            label = phrases(f"log.gathered.{mark.key}") if group != mark.key else ""
            lines.setdefault(group, []).append(
                GatheredLine(
                    mark.text,
                    phrases.short_date(entry.day),
                    anchor,
                    entry.title,
                    label,
                    leads.bits(mark.text),
                )
            )
    return tuple(
        GatheredGroup(key, phrases(f"log.gathered.{key}"), tuple(lines[key])) for key in ORDER if key in lines
    )
