"""In which language the command line speaks: that of the shop that a folder belongs to, found without reading a job."""

from __future__ import annotations

import os
import re
import tomllib
from pathlib import Path

from buildbook import limits
from buildbook.job.plain_file import NotRead, open_plain, read_plain

ENGLISH = "en"
_SHOP = "shop.toml"
_LIST = "index.html"
_HEAD = 400  # bytes of a page of ours within which it names its language
_STATED = re.compile(rb'<html[^>]*\slang="([A-Za-z-]+)"')


def language_of(folder: Path, else_of: str = "") -> str:
    """The language of the shop of a job, a shelf or a book, or of a packed handover; where nothing tells of one,
    `else_of`, or English.
    """
    if os.path.isfile(folder):
        return language_of(Path(folder).absolute().parent, _of_file(folder) or else_of)
    places = (folder, Path(folder).absolute().parent)
    for place in places:
        if (stated := _of_shop(place / _SHOP)) is not None:
            return _known(stated)
    return _known(next(filter(None, (_of_page(place / _LIST) for place in places)), else_of))


def _of_shop(path: Path) -> str | None:
    """What a shop.toml says; None where there is none."""
    try:
        said = _language(read_plain(path, limits.TOML_BYTES).decode("utf-8-sig"))
    except NotRead:
        return None
    except (ValueError, RecursionError):  # told by whoever reads it whole
        return ""
    return said if isinstance(said, str) else ""


def _language(text: str) -> object:
    """What a text says that its language is. ValueError where it cannot be read, whatever is put in quotes."""
    try:
        return tomllib.loads(text).get("language", "")
    except ValueError:
        from buildbook.job.toml.natural import as_toml  # only where a figure stands without its quotes

        return tomllib.loads(as_toml(text)).get("language", "")


def _of_page(path: Path) -> str:
    try:
        with open_plain(path, limits.PAGE_BYTES) as page:
            return _stated(page.read(_HEAD))
    except (OSError, NotRead):
        return ""


def _of_file(path: Path) -> str:
    """Of a page, or of the page in a packed handover; nothing is said of where it stands. Anyone may have made it:
    it is opened as `verify` opens it, within the same limits, and of what that refuses nothing is known.
    """
    from buildbook.book.sealed.archive import archive_contents  # only where a file is given
    from buildbook.book.sealed.contents import Refused, plain_file

    try:
        with plain_file(path) as (file, length):
            contents = archive_contents(file, length)
            return _stated(next(contents.pieces(_LIST), b"")[:_HEAD]) if _LIST in contents.sizes else ""
    except Refused:
        return _of_page(path)


def _stated(head: bytes) -> str:
    stated = _STATED.search(head)
    return stated[1].decode() if stated else ""


def _known(tag: str) -> str:
    if not tag or tag == ENGLISH:
        return ENGLISH
    from buildbook.words import known_language  # of no use to a shop that says nothing

    return known_language(tag) or ENGLISH
