"""A desk: pages of the bench's own that may also write, below `/-/<name>/`. What it shows, and what it takes.

Before `take` is called `admit` has seen to it that one of our own pages sends, with the word that only such a page
was given, and the body was read whole, is no longer than `most_bytes`, is JSON and of the `kind` that was asked for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from http import HTTPStatus
from typing import Any

import msgspec

from buildbook.bench.answer import JSON, Response

BODY_BYTES = 262_144
"""A list of 2,000 photos with a line of words each."""


class NotTaken(Exception):
    """What was sent cannot be taken; the text says why and what to do, for the maker to read on the page."""

    def __init__(self, words: str, status: HTTPStatus = HTTPStatus.CONFLICT) -> None:
        super().__init__(words)
        self.status = status


@dataclass(frozen=True)
class Desk:
    """Pages at `/-/<name>/<parts…>`. Both functions run in a thread; of all that is taken, one at a time.

    show        the parts of the path after the name -> a page, a picture; None where there is nothing. Changes nothing
    take        the parts and what was sent -> what is answered, as JSON. Raises `NotTaken`
    kind        what is sent: a msgspec.Struct, a dataclass, a dict …; anything else is refused before `take` is called
    most_bytes  of what is sent; what is longer is refused before it is read
    """

    show: Callable[[tuple[str, ...]], Response | None]
    take: Callable[[tuple[str, ...], Any], object]
    kind: Any = dict[str, Any]
    most_bytes: int = BODY_BYTES


def read_sent(body: bytes, kind: Any) -> Any:
    """What was sent, as a value. Raises `NotTaken`."""
    try:
        return msgspec.json.decode(body, type=kind)
    except (msgspec.MsgspecError, ValueError, RecursionError) as error:
        said = f"This cannot be read as what this page sends ({error})."
        raise NotTaken(said, HTTPStatus.BAD_REQUEST) from None


def taken(desk: Desk, parts: tuple[str, ...], body: bytes) -> Response:
    """What a desk answers to what was sent."""
    try:
        answer = desk.take(parts, read_sent(body, desk.kind))
    except NotTaken as error:
        return Response.short(error.status, str(error))
    return Response.of(msgspec.json.encode(answer), JSON)
