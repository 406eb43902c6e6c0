"""In which language the command line speaks: that of the shop that a folder belongs to, found without reading a job."""

from __future__ import annotations

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
    """The language of the shop of a job, a shelf or a book; where nothing tells of one, `else_of`, or English."""
    for place in (folder, Path(folder).absolute().parent):
        if (stated := _of_shop(place / _SHOP)) is not None:
            return _known(stated)
    return _known(_of_page(folder / _LIST) or else_of)


def _of_shop(path: Path) -> str | None:
    """What a shop.toml says; None where there is none."""
    try:
        said = tomllib.loads(read_plain(path, limits.TOML_BYTES).decode("utf-8-sig")).get("language", "")
    except NotRead:
        return None
    except (ValueError, RecursionError):  # told by whoever reads it whole
        return ""
    return said if isinstance(said, str) else ""


def _of_page(path: Path) -> str:
    try:
        with path.open("rb") as page:
            stated = _STATED.search(page.read(_HEAD))
    except OSError:
        return ""
    return stated[1].decode() if stated else ""


def _known(tag: str) -> str:
    if not tag or tag == ENGLISH:
        return ENGLISH
    from buildbook.words import known_language  # of no use to a shop that says nothing

    return known_language(tag) or ENGLISH
