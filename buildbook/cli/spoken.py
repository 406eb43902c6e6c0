"""In which language the command line speaks: that of the shop that a folder belongs to, found without reading a job."""

from __future__ import annotations

import os
import re
import tomllib
from pathlib import Path

from buildbook import limits
from buildbook.job.plain_file import NotRead, read_plain

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

        return tomllib.loads(as_toml(text.replace("\r\n", "\n"))).get("language", "")


def _of_page(path: Path) -> str:
    try:
        with path.open("rb") as page:
            return _stated(page.read(_HEAD))
    except OSError:
        return ""


def _of_file(path: Path) -> str:
    """Of a page, or of the page that lies on top in an archive; nothing is said of where it stands."""
    import zipfile
    import zlib  # only where a file is given

    try:
        with zipfile.ZipFile(path) as archive:
            name = next((name for name in archive.namelist() if name.rpartition("/")[2] == _LIST), None)
            if name is None:
                return ""
            with archive.open(name) as page:
                return _stated(page.read(_HEAD))
    except zipfile.BadZipFile:
        return _of_page(path)
    except (OSError, ValueError, NotImplementedError, RuntimeError, zlib.error):  # told by whoever checks it
        return ""


def _stated(head: bytes) -> str:
    stated = _STATED.search(head)
    return stated[1].decode() if stated else ""


def _known(tag: str) -> str:
    if not tag or tag == ENGLISH:
        return ENGLISH
    from buildbook.words import known_language  # of no use to a shop that says nothing

    return known_language(tag) or ENGLISH
