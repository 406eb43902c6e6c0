"""What a binding remembers of what it made, by which the next one knows what need not be made again. Private.

One file for each job, and one for the pages across jobs, in `.own/made/`. A record that cannot be read, or that is not
to the byte what was written, is none: then everything is made from nothing. Losing one costs time only.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

import msgspec

from buildbook.book.disk import write
from buildbook.book.lock import OWN
from buildbook.book.redo.noted import Noted
from buildbook.book.sealed.seal import NOT_SEALED, Fingerprints
from buildbook.job.photo_model import PhotoHeader, VideoFacts
from buildbook.job.plain_file import NotRead, read_plain
from buildbook.job.slug import JobSlug
from buildbook.left.codec import read_as
from buildbook.limits import LEFT_BYTES
from buildbook.problems import Problem
from buildbook.render.print.typeset import LeftOut

_SCHEMA = 5  # raised when what a record holds means something else
_UNNAMED = JobSlug("", False)


@dataclass(frozen=True)
class KeptPrint:
    """What a print was made from, as one digest, and what was told of it: the PDF itself lies in the book."""

    made_from: str
    problems: tuple[Problem, ...]
    left_out: tuple[LeftOut, ...]


@dataclass(frozen=True, kw_only=True)
class Made:
    """What something was made from, and what was made.

    program   the digest of what made it; imaging: of that, what made the copies of photos
    begun_ns  when the inputs were noted; done_ns: when the outputs were, in nanoseconds since 1970
    themes    the names of the theme and of those it comes after, which say where files of themes lie
    headers   of photos, by the digest of their content; videos: what was read of them, the same way
    prints    by their names
    named     the slug of a job, and whether it states an address
    past      the SHA-256 of what a job left for estimates; empty where it left nothing
    without   jobs that had left no record; groups: what each of the pages across jobs was made from, as one digest
    """

    schema: int = _SCHEMA
    program: str
    imaging: str
    begun_ns: int
    done_ns: int
    themes: tuple[str, ...]
    inputs: tuple[Noted, ...]
    outputs: tuple[Noted, ...]
    problems: tuple[Problem, ...] = ()
    sealed: Fingerprints = NOT_SEALED
    headers: Mapping[str, PhotoHeader] = field(default_factory=dict)
    videos: Mapping[str, VideoFacts] = field(default_factory=dict)
    prints: Mapping[str, KeptPrint] = field(default_factory=dict)
    named: JobSlug = _UNNAMED
    past: str = ""
    without: tuple[str, ...] = ()
    groups: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Brief:
    """Of a record, what is needed of a job that is passed over. state: see `redo.state`; past: as in `Made`."""

    schema: int = _SCHEMA
    program: str
    state: str
    themes: tuple[str, ...]
    problems: tuple[Problem, ...]
    sealed: Fingerprints
    named: JobSlug
    past: str


def place_of(book: Path, key: str = "") -> Path:
    """Where the record of a job is; without a key, that of the pages across jobs."""
    return book / OWN / "made" / (f"jobs/{key}.json" if key else "book.json")


def place_of_past(book: Path, key: str) -> Path:
    """Where what a job left for estimates is."""
    return place_of(book, key).with_name(f"{key}.past")


def read_made(place: Path) -> Made | None:
    """The record at a place; None where there is none that we have written."""
    lines = _lines_of(place)
    made = read_as(Made, lines[1]) if lines else None
    return made if made is not None and made.schema == _SCHEMA else None


def read_brief(place: Path) -> Brief | None:
    """The same in brief."""
    lines = _lines_of(place)
    brief = read_as(Brief, lines[0]) if lines else None
    return brief if brief is not None and brief.schema == _SCHEMA else None


def _lines_of(place: Path) -> tuple[bytes, bytes] | None:
    """A record in brief, and whole; None where it is not to the byte what was written."""
    try:
        data = read_plain(place, LEFT_BYTES)
    except NotRead:
        return None
    digest, _, content = data.partition(b"\n")
    if _digest(content) != digest:
        return None
    brief, _, whole = content.partition(b"\n")
    return brief, whole


def keep_made(place: Path, made: Made, state: str = "") -> None:
    """Leave a record. Where it cannot be written the next binding takes longer, and that is all."""
    brief = Brief(
        program=made.program,
        state=state,
        themes=made.themes,
        problems=made.problems,
        sealed=made.sealed,
        named=made.named,
        past=made.past,
    )
    content = b"%b\n%b\n" % (msgspec.json.encode(brief), msgspec.json.encode(made))
    with suppress(OSError):
        write.write_lightly(place, _digest(content) + b"\n" + content)


def _digest(content: bytes) -> bytes:
    return hashlib.sha256(content).hexdigest().encode()
