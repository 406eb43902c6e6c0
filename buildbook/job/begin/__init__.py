"""Lays out a new job folder: the only command that writes where jobs are, and only where nothing is yet.

`wishes` is what is said of the piece, `texts` and `rows` what is written of it; `past` finds a job to begin like,
`like` takes from it what belongs to a piece and not to its story, at another size where one is asked for (`sizes`).
"""

from __future__ import annotations

import json
import os
import re
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from buildbook.job.begin.rows import parts_csv
from buildbook.job.begin.texts import ENGLISH, filled
from buildbook.job.begin.wishes import Around, BeginError, Settled, Wishes, known_units, settled
from buildbook.job.places import around, clash, is_book, job_around

if TYPE_CHECKING:  # reads tables
    from buildbook.job.begin.sizes import NewSizes

__all__ = ["Around", "BeginError", "Laid", "Wishes", "begin", "surroundings"]

_SHOP = "shop.toml"
_UNITS = "mm"
_NUMBERED = re.compile(r"^(?P<number>\d{4}-\d{1,4}|\d{1,6})[-_ ]+(?P<title>.+)$")
_KEY = re.compile(r'^key +=\s*"(?P<key>[^"]+)"', re.MULTILINE)


@dataclass(frozen=True)
class Laid:
    """What was laid out: the names in the folder, the shop.toml beside it where there was none, the job it is like."""

    names: tuple[str, ...]
    shop: Path | None = None
    like: str = ""


def _named(folder: Path) -> tuple[str, str]:
    """Number and title out of a folder's name: `2026-014-record-cabinet`."""
    match = _NUMBERED.match(folder.name)
    number, words = (match["number"], match["title"]) if match else ("", folder.name)
    title = re.sub(r"[-_]+", " ", words).strip().capitalize()
    return number, "".join(c for c in title if c.isprintable())


def _quoted(text: str) -> str:
    """Words as TOML takes them: its basic strings are those of JSON."""
    return json.dumps("".join(c for c in text if c.isprintable()), ensure_ascii=False)


def _refuse(folder: Path) -> None:
    """A job inside another or inside a book would not be found, and one of a like name not be bound."""
    if folder.exists() or folder.is_symlink():
        raise BeginError(f"{folder} is there already; begin only makes new folders. Give another name.")
    if job := job_around(folder):
        raise BeginError(f"{folder} lies in a job folder ({job}). Give another place.")
    if book := next((place for place in around(folder) if is_book(place)), None):
        raise BeginError(f"{folder} lies in a book ({book}). Give another place.")
    if (parent := folder.absolute().parent).is_dir() and (
        problem := clash(folder, (path.name for path in parent.iterdir()))
    ):
        raise BeginError(f"{folder} cannot be made. {problem.message} Give another name.")


def surroundings(folder: Path) -> Around:
    """Title of the piece by the folder's name; language and units of the shop that it is laid in, or in a folder of: an
    enquiry lies apart from the jobs and is quoted by their shop. `BeginError` where no folder can be made here. What
    reads a shop is loaded only where there is one: most of what a job is read with comes along.
    """
    folder = folder.expanduser()
    _refuse(folder)
    title = _named(folder)[1]
    shelf = Path(os.path.abspath(folder)).parent
    at = next((place for place in (shelf, shelf.parent) if _has_shop(place)), None)
    if at is None:
        return Around(title, ENGLISH, _UNITS, has_shop=False)
    from buildbook.job.folder import read_shop

    shop = read_shop(at)[0]
    return Around(title, shop.language, shop.units, has_shop=True)


def _has_shop(shelf: Path) -> bool:
    with suppress(OSError):
        return any(name.casefold() == _SHOP for name in os.listdir(shelf))
    return False


def begin(
    folder: Path,
    today: date | None = None,
    wishes: Wishes | None = None,
    like: str | None = None,
    sizes: NewSizes | None = None,
) -> Laid:
    """Make the folder with job.toml, parts.csv, notes.md and photos/, and shop.toml beside it where there is none.

    like  a job to take parts, finishes, fittings, joints and workings from: its folder, or the number or name of one
          on the same shelf
    sizes what is of another size than in that job
    Raises `BeginError`; nothing is left behind then.
    """
    folder = folder.expanduser()
    here = surroundings(folder)
    day = today or date.today()
    past = None
    more: dict[str, str] = {}
    if like is not None:
        from buildbook.job.begin.past import find_past  # reads a job

        past = find_past(like, folder.absolute().parent)
        if not here.has_shop:  # the shelf's first: its words and its numbers are those of the job it is like
            here = Around(here.title, past.language, past.units, has_shop=False)
    piece = settled(wishes or Wishes(), here)
    values = _values(folder, piece, day)
    if past:
        from buildbook.job.begin.like import taken

        own_values = {name: values[name] for name in ("number", "title", "begun", "client")}
        own, more = taken(past, piece, own_values, sizes), dict(sizes.files if sizes else {})
        files = {"job.toml": own.job_toml, "parts.csv": own.parts_csv}
    else:
        job_toml = filled("job.toml", piece.language, piece.facts, values)
        match = _KEY.search(job_toml)
        files = {"job.toml": job_toml, "parts.csv": parts_csv(piece, match["key"] if match else "")}
    files["notes.md"] = filled("notes.md", piece.language, piece.facts, values)
    files |= more
    shop = None if here.has_shop else filled(_SHOP, piece.language, piece.facts, values)
    laid = _lay(folder, files, shop)
    return Laid((*files, "photos/"), laid, past.name if past else "")


def _values(folder: Path, piece: Settled, day: date) -> dict[str, str]:
    number, title = _named(folder)
    return {
        "number": _quoted(number),
        "title": _quoted(title),
        "piece": _quoted(piece.piece),
        "units": known_units(piece.units),
        "client": _quoted(piece.client),
        "begun": day.isoformat(),
        "finish": _quoted(piece.finish),
        "language": piece.language,
    }


def _lay(folder: Path, files: Mapping[str, str], shop: str | None) -> Path | None:
    """Write the folder, and shop.toml beside it where none is; where that fails, all of it is taken back."""
    undo: list[Callable[[], None]] = []
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        folder.mkdir()
        undo.append(folder.rmdir)
        for name, text in files.items():
            _write(folder / name, text, undo)
        (folder / "photos").mkdir()
        undo.append((folder / "photos").rmdir)
        if shop is None:
            return None
        beside = folder.absolute().parent / _SHOP
        with suppress(FileExistsError):
            _write(beside, shop, undo)
            return beside
    except BaseException as error:
        for step in reversed(undo):
            with suppress(OSError):
                step()
        if isinstance(error, OSError):
            raise BeginError(f"{folder} cannot be made: {error.strerror or error}.") from error
        raise
    return None


def _write(path: Path, text: str, undo: list[Callable[[], None]]) -> None:
    """A new file; never one that is there."""
    with path.open("x", encoding="utf-8", newline="\n") as file:
        undo.append(path.unlink)
        file.write(text)
