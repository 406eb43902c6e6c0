"""Lays out a new job folder: the only command that writes where jobs are, and only where nothing is yet."""

from __future__ import annotations

import re
from datetime import date
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path
from string import Template

from buildbook.job.places import around, clash, is_book, job_around
from buildbook.words import chain

_SHOP, _ENGLISH = "shop.toml", "en"
_FILES = ("job.toml", "parts.csv", "notes.md")
_NUMBERED = re.compile(r"^(?P<number>\d{4}-\d{1,4}|\d{1,6})[-_ ]+(?P<title>.+)$")


class BeginError(Exception):
    """The folder cannot be made; the text says why and what to do."""


def _named(folder: Path) -> dict[str, str]:
    """Number and title out of a folder's name: `2026-014-record-cabinet`."""
    match = _NUMBERED.match(folder.name)
    number, words = (match["number"], match["title"]) if match else ("", folder.name)
    title = re.sub(r"[-_]+", " ", words).strip().capitalize()
    quoted = title.replace("\\", "\\\\").replace('"', '\\"')
    return {"number": number, "title": "".join(c for c in quoted if c.isprintable())}


def _refuse(folder: Path) -> None:
    """A job inside another or inside a book would not be found, and one of a like name not be bound."""
    if job := job_around(folder):
        raise BeginError(f"{folder} lies in a job folder ({job}). Give another place.")
    if book := next((place for place in around(folder) if is_book(place)), None):
        raise BeginError(f"{folder} lies in a book ({book}). Give another place.")
    if (parent := folder.absolute().parent).is_dir() and (
        problem := clash(folder, (path.name for path in parent.iterdir()))
    ):
        raise BeginError(f"{folder} cannot be made. {problem.message} Give another name.")


def _source(language: str) -> Traversable:
    """The files that a job begins with, in the language of the shop where there are such."""
    source = resources.files("buildbook.job").joinpath("data", "begin")
    own = (source.joinpath(name) for name in chain(language))
    return next((folder for folder in own if folder.is_dir()), source)


def _language(folder: Path) -> str:
    """The language of the shop whose folder it is laid in; English where there is no shop. What reads a shop is loaded
    only where there is one: most of what a job is read with comes along.
    """
    if not folder.absolute().parent.joinpath(_SHOP).is_file():
        return _ENGLISH
    from buildbook.job.folder import shop_around

    return shop_around(folder)[0].language


def begin(folder: Path, today: date | None = None) -> list[str]:
    """Make the folder with job.toml, parts.csv, notes.md and photos/. Raises `BeginError`."""
    folder = folder.expanduser()
    if folder.exists() or folder.is_symlink():
        raise BeginError(f"{folder} is there already; begin only makes new folders. Give another name.")
    _refuse(folder)
    day = (today or date.today()).isoformat()
    values = {**_named(folder), "begun": day}
    source = _source(_language(folder))
    try:
        folder.mkdir(parents=True)
        for name in _FILES:
            text = Template(source.joinpath(name).read_text("utf-8")).substitute(values)
            (folder / name).write_text(text, "utf-8", newline="\n")
        (folder / "photos").mkdir()
    except OSError as error:
        raise BeginError(f"{folder} cannot be made: {error.strerror or error}.") from error
    return [*_FILES, "photos/"]
