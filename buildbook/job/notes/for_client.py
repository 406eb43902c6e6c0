"""Passages for the client: cut out of a note by their mark, without what must not leave.

Lines of hours, comments, and links to a place on one computer stay in.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from buildbook.job.log_model import Passage
from buildbook.job.notes.bounds import check_passage
from buildbook.job.notes.hours import LIKE_HOURS, plain_hours
from buildbook.job.notes.local_links import LocalLink, without_local_links
from buildbook.job.notes.markdown import (
    FOR_CLIENT,
    FOR_CLIENT_LEVEL,
    Note,
    is_for_client,
    parse,
    with_references,
    without_comments,
)
from buildbook.job.notes.pictures import Names, tell_missing
from buildbook.job.notes.said_hours import booked_in
from buildbook.job.text import shown
from buildbook.problems import Problems


@dataclass(frozen=True)
class Cut:
    """A passage for the client, the lines that it was cut from, and the references of the images that it shows once it
    is cut out: an image in a comment of it is gone.
    """

    passage: Passage
    start: int
    end: int
    shows: frozenset[str]


def passages(
    name: str, note: Note, lines: range, photos: Names, problems: Problems, stages: Sequence[str] = ()
) -> Iterator[Cut]:
    """The passages that are marked for the client in some lines of a note; what must not leave is out of them: `stages`
    say which lines book hours.
    """
    inside = note.between(note.headings, lambda heading: heading.start, lines.start, lines.stop)
    for number, heading in enumerate(inside):
        if not is_for_client(heading) or note.in_comment(heading.start):
            continue
        later = (inside[after] for after in range(number + 1, len(inside)))
        end = next((after.start for after in later if after.level <= heading.level), lines.stop)
        start = next((line for line in range(heading.end, end) if note.lines[line].strip()), end)
        text = _may_leave("\n".join(note.lines[start:end]), stages)
        text, local = _without_local_links(_may_leave(with_references(note, text), stages), name, stages)
        for which, line in _lines_of(local, note, start, end):
            _tell_local(local[which], name, line + 1, photos, problems)
        if not text.strip():
            problems.warn(
                name,
                "There is nothing for the client under this heading.",
                "Write the passage, or delete the heading.",
                line=heading.start + 1,
            )
            continue
        shown_alone = parse(text)
        check_passage(name, start + 1, shown_alone, problems)
        shows = frozenset(image.reference for image in shown_alone.images)
        yield Cut(Passage(text, start + 1), start, end, shows)


def _without_local_links(text: str, name: str, stages: Sequence[str]) -> tuple[str, tuple[LocalLink, ...]]:
    """What may leave of a text, without its local links; what closes up where one was may be a comment again."""
    found: tuple[LocalLink, ...] = ()
    while True:
        without, local = without_local_links(text, name)
        found += local
        if (without := _may_leave(without, stages)) == text:
            return text, found
        text = without


def _lines_of(links: Sequence[LocalLink], note: Note, start: int, end: int) -> Iterator[tuple[int, int]]:
    """The number of each link and the line that it stands in: the same words again are in the next such line."""
    seen: dict[str, int] = {}
    for number, link in enumerate(links):
        inside = [line for line in range(start, end) if link.written in note.lines[line]]
        places = inside or [line for line, text in enumerate(note.lines) if link.written in text] or [start]
        nth = seen.get(link.written, 0)
        seen[link.written] = nth + 1
        yield number, places[min(nth, len(places) - 1)]


def _tell_local(link: LocalLink, name: str, line: int, photos: Names, problems: Problems) -> None:
    if link.is_picture:
        tell_missing(link.place, name, line, photos, problems)
        return
    problems.warn(
        name,
        f"{shown(link.place)} is a place on one computer, so this link is left out of what the client reads.",
        "Give the address of a web page, or delete the link.",
        line=line,
    )


def _may_leave(text: str, stages: Sequence[str]) -> str:
    """A text without comments and without anything that looks like a line of hours."""
    lines = without_comments(text).split("\n")
    kept = (
        booked_in(line)[1]
        for line in lines
        if not LIKE_HOURS.match(line) and plain_hours(line, stages) is None
    )
    return "\n".join(kept).strip("\n").rstrip()


def tell_near_misses(name: str, note: Note, problems: Problems) -> None:
    """Headings that look like the mark of a passage for the client and are none, and hours that became a
    heading.
    """
    for heading in (*note.headings, *note.nested):
        if LIKE_HOURS.match(heading.text.split("\n")[-1]):
            problems.error(
                name,
                "This line of hours is a heading, so nothing is booked.",
                "Put an empty line between it and the dashes under it, or delete the # before it.",
                line=heading.start + 1,
            )
        words = " ".join(heading.text.split()).casefold().strip(" :.*_")
        if words not in FOR_CLIENT:
            continue
        if note.in_comment(heading.start):
            why = "stands in a comment"
        elif heading.nested:
            why = "stands in a list or a quote"
        elif heading.level != FOR_CLIENT_LEVEL:
            why = f"is a heading of level {heading.level}"
        elif not is_for_client(heading):
            why = "is not just the words For the client"
        else:
            continue
        problems.warn(
            name,
            f"{shown(heading.text)} {why}, so what follows stays in.",
            "Write ### For the client on a line of its own if the client may read it.",
            line=heading.start + 1,
        )
    headings = {line for one in (*note.headings, *note.nested) for line in range(one.start, one.end)}
    for number, line in enumerate(note.lines):
        if number in headings or note.in_comment(number) or not _names_the_client(line):
            continue
        problems.warn(
            name,
            f"{shown(line.strip())} is a line of the note and no heading, so it stays in.",
            "Write ### For the client on a line of its own if the client may read it.",
            line=number + 1,
        )


def _names_the_client(line: str) -> bool:
    """Whether a line is the words of the mark, or has them before a colon."""
    words = " ".join(line.split()).casefold()
    return words.strip(" :.*_-") in FOR_CLIENT or words.partition(":")[0].strip(" *_-") in FOR_CLIENT
