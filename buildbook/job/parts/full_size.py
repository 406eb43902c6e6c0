"""What can be printed in full size: tapers of parts and templates, by the marked lines of the notes.

In: a `Job`. Out: of each line `Taper:` or `Template:` that says enough a `Shape`, of one that begins to and does not
say enough a question. What is not plain is asked and never guessed: a template is cut by. Words are
`data/full_size.toml`.

A template is a picture of squared paper (`leg profile, IMG_2041.jpg, 10 mm squares, 24 across`), a bow (`apron, bow 600
long, rise 40`), or a curve through points (`back post, offsets 0 x 40, 100 x 52, 300 x 60`: along, then across).
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from importlib import resources
from itertools import pairwise
from typing import Literal

from buildbook import limits
from buildbook.folding import folded
from buildbook.job.log_model import LogEntry, Mark
from buildbook.job.model import Job, Part
from buildbook.job.notes.measures import NoteFigure, measures, parts_named
from buildbook.job.notes.pictures import Names, resolve
from buildbook.job.photo_model import Photo
from buildbook.job.text import shown
from buildbook.job.toml.shop_toml import decimal_comma
from buildbook.problems import Problem, listed
from buildbook.trade.outlines import Point, bow, fair, tapered

Kind = Literal["taper", "bow", "curve", "picture"]
_NEAR_M = 0.0005  # by which a figure of the notes may differ from that of parts.csv
_ALIKE = (
    0.02  # by which squares across and down may differ in size before the picture was not taken square on
)
_FILE = re.compile(r"[^\s,;()\"“”]+\.(?:jpe?g|png|heic|heif|webp|tiff?|gif|bmp)\b", re.IGNORECASE)
_TAPER_SUCH = "Write such as “Taper: Leg 45 to 28, from 60 below the top to the foot, the two inner faces”."
_SQUARES_SUCH = "Write such as “Template: leg profile, IMG_2041.jpg, 10 mm squares, 24 across”."
_TEMPLATE_SUCH = (
    "Write such as “Template: apron, bow 600 long, rise 40”, or “offsets 0 x 40, 100 x 52, 300 x 60”."
)


@dataclass(frozen=True)
class Shape:
    """One line that can be drawn in full size. Lengths in metres, x across, y along from the top.

    said     the line as written. name: of the part that it is of, or what the line calls it; may be empty.
    outline  closed, its first point not told again; empty for a picture. levels: places along where it changes.
    picture  of a picture the photo, `width_m` and `height_m` what it shows; square_m: a square of it.
    """

    kind: Kind
    said: str
    day: date
    name: str
    width_m: float
    height_m: float
    outline: tuple[Point, ...] = ()
    levels: tuple[float, ...] = ()
    picture: Photo | None = None
    square_m: float = 0.0


class _Unclear(Exception):
    """Why a line cannot be drawn: a sentence, and how to write it."""

    def __init__(self, why: str, hint: str) -> None:
        super().__init__(why)
        self.why, self.hint = why, hint


def shapes(job: Job) -> tuple[Shape, ...]:
    """What can be drawn, in the order of the log."""
    return tuple(found for _, _, found in _read(job) if isinstance(found, Shape))


def unclear(job: Job) -> list[Problem]:
    """A question for each line that begins to say enough to be drawn, and does not."""
    return [
        Problem("warning", entry.file, found.why, found.hint, line=mark.line or None)
        for entry, mark, found in _read(job)
        if isinstance(found, _Unclear)
    ]


def _read(job: Job) -> Iterator[tuple[LogEntry, Mark, Shape | _Unclear]]:
    names: Names | None = None
    drawn = 0
    for entry in job.entries:
        for mark in entry.marks:
            if mark.key not in ("taper", "template"):
                continue
            names = names or Names(job.photos)
            try:
                found = (
                    _taper(job, entry, mark) if mark.key == "taper" else _template(job, entry, mark, names)
                )
                if found and drawn >= limits.FULL_SIZE:
                    hint = "Keep those that will be cut by again."
                    raise _Unclear(f"More than {limits.FULL_SIZE} lines can be drawn in full size.", hint)
                if found and max(found.width_m, found.height_m) > limits.FULL_SIZE_M:
                    hint = "Draw a part of it, or take its figures."
                    raise _Unclear(f"More than {limits.FULL_SIZE_M:g} m is not drawn in full size.", hint)
            except _Unclear as why:
                yield entry, mark, why
                continue
            if found:
                drawn += 1
                yield entry, mark, found


# -- words ---------------------------------------------------------------------------------------


@cache
def _words(table: str) -> dict[str, tuple[str, ...]]:
    text = resources.files("buildbook.job").joinpath("data", "full_size.toml").read_text(encoding="utf-8")
    rows = tomllib.loads(text)[table]
    return {name: tuple(sorted(map(folded, words), key=len, reverse=True)) for name, words in rows.items()}


def _has(words: Sequence[str], text: str) -> bool:
    plain = folded(text)
    return any(re.search(rf"(?<!\w){re.escape(word)}(?!\w)", plain) for word in words)


def _ends(words: Sequence[str], text: str) -> bool:
    plain = folded(text).rstrip()
    return any(re.search(rf"(?:^|[^\w]){re.escape(word)}$", plain) for word in words)


# -- tapers --------------------------------------------------------------------------------------


def _taper(job: Job, entry: LogEntry, mark: Mark) -> Shape | None:
    """A taper; None where it names no two widths."""
    words, text = _words("taper"), mark.text
    figures = _lengths(text, "taper", job)
    pair = next(
        (
            i
            for i, (a, b) in enumerate(pairwise(figures))
            if folded(text[a.end : b.start]).strip() in words["to"]
        ),
        None,
    )
    if pair is None:
        return None
    wide_m, narrow_m = figures[pair].values[0], figures[pair + 1].values[0]
    part = _part_of(text[: figures[pair].start], text, job)
    length_m = part.length.m if part.length else 0.0
    sides = {side.m for side in (part.width, part.thickness) if side}
    if sides and not any(abs(side - wide_m) <= _NEAR_M for side in sides):
        begins = figures[pair].words
        why = f"The taper begins at {begins}, which is neither the width nor the thickness of {shown(part.name)}."
        raise _Unclear(why, "See which of them is right.")
    start_m, end_m = 0.0, length_m
    for number, figure in enumerate(figures):
        if number in (pair, pair + 1):
            continue
        before = text[figures[number - 1].end if number else 0 : figure.start]
        after = text[figure.end : figures[number + 1].start if number + 1 < len(figures) else len(text)]
        nearest = _first_of(after, words)
        if _ends(words["start"], before) and nearest == "top":
            start_m = figure.values[0]
        elif _ends(words["last"], before):
            start_m = length_m - figure.values[0]
        elif _ends(words["until"], before) and nearest == "foot":
            end_m = length_m - figure.values[0]
        else:
            raise _Unclear(f"What {figure.words} of the taper is measured from is not plain.", _TAPER_SUCH)
    both, one = _has(words["both"], text), _has(words["one"], text)
    if both == one:
        raise _Unclear(
            "Whether the part narrows on one face or on two that are opposite is not told.", _TAPER_SUCH
        )
    try:
        outline = tapered(length_m, wide_m, narrow_m, start_m, end_m, both=both)
    except ValueError:
        why = f"The figures are no taper of {shown(part.name)}, as long as parts.csv says."
        raise _Unclear(why, _TAPER_SUCH) from None
    levels = tuple(y for y in (start_m, end_m) if 0 < y < length_m)
    return Shape("taper", text, entry.day, part.name, wide_m, length_m, outline, levels)


def _first_of(after: str, words: dict[str, tuple[str, ...]]) -> str:
    """Whether the top or the foot is named first behind a figure."""
    plain = folded(after)
    named = {}
    for end in ("top", "foot"):
        found = (re.search(rf"(?<!\w){re.escape(word)}(?!\w)", plain) for word in words[end])
        if places := [match.start() for match in found if match]:
            named[end] = min(places)
    return min(named, key=lambda end: named[end]) if named else ""


def _part_of(before: str, text: str, job: Job) -> Part:
    """The one part that a taper is of, with its length: named before its figures, or else anywhere in the line."""
    names = [part.name for part in job.parts]
    named = parts_named(before, names) or parts_named(text, names)
    if not named:
        raise _Unclear("A taper names no part of parts.csv, so it is not drawn in full size.", _TAPER_SUCH)
    if len(named) > 1:
        why = f"Of which part a taper is, is not plain: it names {listed(map(shown, named))}."
        raise _Unclear(why, _TAPER_SUCH)
    part = next(part for part in job.parts if part.name == named[0])
    if part.length is None:
        why = f"How long {shown(part.name)} is, is not told, so its taper is not drawn in full size."
        raise _Unclear(why, "Write its length in parts.csv.")
    return part


def _called(text: str) -> str:
    """What a line calls its template: its words up to the first comma or figure."""
    return re.split(r"[,;:(]|\d", text)[0].strip()


def _lengths(text: str, key: str, job: Job) -> list[NoteFigure]:
    comma = decimal_comma(job.shop.language)
    return [one for one in measures(text, key, job.units, decimal_comma=comma) if one.is_length]


# -- templates -----------------------------------------------------------------------------------


def _template(job: Job, entry: LogEntry, mark: Mark, names: Names) -> Shape | None:
    """A template; None where the line only says where one hangs."""
    words = _words("template")
    files = [*mark.pictures, *_FILE.findall(mark.text)]
    text = _FILE.sub(" ", mark.text)
    if files:
        found = next((name for file in files if (name := resolve(file, entry.file, names))), None)
        if found is None:
            why = f"{shown(files[0])}, the picture of a template, is not a photo of this job."
            raise _Unclear(why, "Put it in the folder photos, or write its name as it is there.")
        photo = next(photo for photo in job.photos if found in (photo.name, *photo.also))
        return _squared(job, entry, mark, text, photo)
    figures = _lengths(text, "template", job)
    if _has(words["offsets"], text):
        points = [(figure.values[1], figure.values[0]) for figure in figures if len(figure.values) == 2]
        return _curved(entry, mark, points)
    if _has(words["bow"], text):
        return _bowed(entry, mark, text, figures)
    return None


def _curved(entry: LogEntry, mark: Mark, points: Sequence[Point]) -> Shape:
    try:
        outline = fair(points)
    except ValueError:
        why = "A curve takes three points or more, each further along than the last."
        raise _Unclear(why, _TEMPLATE_SUCH) from None
    first_m = points[0][1]
    outline = tuple((x, y - first_m) for x, y in outline)
    if min(x for x, _ in outline) < 0:
        raise _Unclear(
            "The curve runs over the straight edge that its points are measured from.", _TEMPLATE_SUCH
        )
    levels = tuple(y - first_m for _, y in points[1:-1])
    high_m = points[-1][1] - first_m
    return Shape(
        "curve", mark.text, entry.day, _called(mark.text), max(x for x, _ in outline), high_m, outline, levels
    )


def _bowed(entry: LogEntry, mark: Mark, text: str, figures: Sequence[NoteFigure]) -> Shape:
    words = _words("template")
    long = [figure for figure in figures if _has(words["long"], figure.after)]
    rise = [
        f for f in figures if f not in long and (_has(words["rise"], f.name) or _has(words["rise"], f.after))
    ]
    if len(long) != 1 or len(rise) != 1 or len(figures) > 2:
        raise _Unclear("Of a bow its length and its rise are needed, and no other figure.", _TEMPLATE_SUCH)
    chord_m, rise_m = long[0].values[0], rise[0].values[0]
    try:
        return Shape("bow", mark.text, entry.day, _called(text), chord_m, rise_m, bow(chord_m, rise_m))
    except ValueError:
        raise _Unclear("A bow rises by half of its length at most.", _TEMPLATE_SUCH) from None


def _squared(job: Job, entry: LogEntry, mark: Mark, text: str, photo: Photo) -> Shape:
    """A picture of squared paper. Its size is known by the size of a square and how many go across or down."""
    words = _words("template")
    side: float | None = None
    counts: dict[str, float] = {}
    for figure in _lengths(text, "template", job):
        count = re.fullmatch(r"\d{1,4}(?:[.,]\d+)?", figure.words)
        for way in ("across", "high"):
            if count and _has(words[way], figure.after):
                counts[way] = float(figure.words.replace(",", "."))
                break
        else:
            if _has(words["squares"], figure.after) or _has(words["squares"], figure.name):
                side = figure.values[0]
    named = shown(photo.name.rpartition("/")[2])
    if side is None:
        raise _Unclear(
            f"How large the squares in {named} are is not told, so it is not drawn in full size.",
            _SQUARES_SUCH,
        )
    if not any(counts.values()):
        why = f"How many squares go across the picture’s width in {named} is not told, so it is not drawn in full size."
        raise _Unclear(why, _SQUARES_SUCH)
    across_m, high_m = (counts.get(way, 0.0) * side for way in ("across", "high"))
    if across_m and high_m and abs(across_m / photo.width / (high_m / photo.height) - 1) > _ALIKE:
        why = f"The squares in {named} are wider than high or higher than wide: it was not taken square on."
        raise _Unclear(why, "Take it anew from straight above, and cut it to whole squares.")
    width_m = across_m or high_m * photo.width / photo.height
    height_m = width_m * photo.height / photo.width
    return Shape(
        "picture", mark.text, entry.day, _called(text), width_m, height_m, picture=photo, square_m=side
    )
