"""The jigs of a job: what stands behind `Jig:` in its notes, taken apart.

`Jig: strip of the shelf pins, six holes at 32, first 150 from its foot; on the nail beside the drill, marked PINS.` has
a name, a pitch, a first place, somewhere it hangs and a word that is written on it, by which every job knows it. The
words that tell are `data/jigs.toml`; what none of them tells is left out here: the line itself is shown whole.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources

from buildbook.folding import folded
from buildbook.job.log_model import LogEntry, Mark
from buildbook.job.notes.places import with_ids

JIG = "jig"  # the mark
_PIECES = re.compile(r"[,;]\s+|\.\s+(?=[A-ZÄÖÜ])|\.$")
_LABEL = re.compile(r"(?<!\w)[A-ZÄÖÜ][A-ZÄÖÜ0-9-]{2,}(?: [A-ZÄÖÜ][A-ZÄÖÜ0-9-]{2,})*(?!\w)")
_DIGIT = re.compile(r"[0-9¼½¾⅛⅜⅝⅞⅓⅔]")


@dataclass(frozen=True)
class Jig:
    """A jig as a note tells of it; what it does not tell is empty. `key`: what is written on it, else its name."""

    name: str
    label: str = ""
    first: str = ""
    pitch: str = ""
    hangs: str = ""

    @property
    def key(self) -> str:
        return folded(self.label or self.name)


@cache
def _words() -> dict[str, tuple[str, ...]]:
    text = resources.files("buildbook.job").joinpath("data", "jigs.toml").read_text(encoding="utf-8")
    return {key: tuple(map(folded, words)) for key, words in tomllib.loads(text).items()}


def jig_of(text: str) -> Jig:
    """The jig of a marked line."""
    name, *pieces = [piece.strip() for piece in _PIECES.split(text) if piece.strip()] or [text]
    told: dict[str, str] = {}
    for piece in pieces:
        if kind := _kind_of(piece):
            told.setdefault(kind, piece)
    label = _label_in(told.get("marked", "")) or next(filter(None, map(_label_in, pieces)), "")
    return Jig(name, label, told.get("first", ""), told.get("pitch", ""), told.get("hangs", ""))


def _kind_of(piece: str) -> str:
    plain = folded(piece)
    if any(plain.startswith(f"{word} ") for word in _words()["marked"]):
        return "marked"
    if _DIGIT.search(piece):
        for kind in ("first", "pitch"):
            if any(re.search(rf"(?<!\w){re.escape(word)}(?!\w)", plain) for word in _words()[kind]):
                return kind
    return "hangs" if any(plain.startswith(f"{word} ") for word in _words()["hangs"]) else ""


def _label_in(text: str) -> str:
    match = _LABEL.search(text)
    return match[0] if match else ""


def labels_in(text: str) -> Iterator[str]:
    """What stands in a text in capitals, as on a jig."""
    yield from (match[0] for match in _LABEL.finditer(text))


def jigs_of(entries: Sequence[LogEntry]) -> Iterator[tuple[str, Mark, Jig]]:
    """The jigs of a job in the order of its notes, each with the id of its line on the page of the log."""
    for identity, entry in with_ids(entries):
        marks = (mark for mark in entry.marks if mark.key == JIG)
        for number, mark in enumerate(marks, 1):
            yield f"{identity}-{JIG}-{number}", mark, jig_of(mark.text)


def same_jig(jigs: Iterable[Jig]) -> Jig:
    """One jig of what several lines tell of it: what one does not say another may."""
    first, *others = jigs
    told = {
        name: next((getattr(jig, name) for jig in (first, *others) if getattr(jig, name)), "")
        for name in ("label", "first", "pitch", "hangs")
    }
    return Jig(first.name, **told)
