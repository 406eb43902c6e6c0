"""What a request names: the target of a request line -> the parts of a path in the book. Pure.

Split first and decoded after, once: a slash that comes out of a %2F is part of a name, and no name has one.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from http import HTTPStatus
from urllib.parse import quote, unquote_to_bytes

LONGEST = 2_000
"""Characters of a target; the longest path of a book is a tenth of that."""

_ESCAPE_CUT = re.compile(r"%(?![0-9A-Fa-f]{2})")
_IN_NO_NAME = re.compile(r'[\x00-\x1f\x7f<>:"/\\|?*]')  # what a job's folder cannot have in its name either


class BadAddress(Exception):
    """A target that names nothing; `status` says in which way."""

    def __init__(self, status: HTTPStatus, words: str) -> None:
        super().__init__(words)
        self.status = status


@dataclass(frozen=True)
class Address:
    """Parts of a path from the top of the book, whether it ends as a folder's does, and the query as it came."""

    parts: tuple[str, ...]
    is_folder: bool
    query: str

    @property
    def path(self) -> str:
        """The path as a browser is sent to it, a folder's."""
        return "".join(f"/{quote(part, safe='')}" for part in self.parts) + "/"


def read_address(target: str) -> Address:
    """Raises `BadAddress`."""
    if len(target) > LONGEST:
        raise BadAddress(HTTPStatus.REQUEST_URI_TOO_LONG, "This address is too long.")
    path, _, query = target.partition("?")
    if not path.startswith("/") or "#" in target or _ESCAPE_CUT.search(path):
        raise BadAddress(HTTPStatus.BAD_REQUEST, "This is no address of the book.")
    *folders, last = path[1:].split("/")
    parts = tuple(_name(part) for part in (*folders, *([last] if last else [])))
    return Address(parts, not last, query)


def _name(part: str) -> str:
    try:
        name = unquote_to_bytes(part).decode("utf-8")
    except UnicodeDecodeError:
        raise BadAddress(HTTPStatus.BAD_REQUEST, "This is no address of the book.") from None
    if not name or _IN_NO_NAME.search(name):
        raise BadAddress(HTTPStatus.BAD_REQUEST, "This is no address of the book.")
    if name.startswith("."):  # the folder itself, the one above, and what is being written or hidden
        raise BadAddress(HTTPStatus.NOT_FOUND, "There is nothing here.")
    return name
