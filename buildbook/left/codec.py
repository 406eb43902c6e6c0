"""The record of a job as the bytes of a file, and back.

msgspec reads it strictly by the types of `model`. What it cannot see in plain dataclasses (a field too many or too
few, one written twice) shows when the record is written again: a file is a record only if it is, byte for byte,
what is written of it.
"""

from __future__ import annotations

from collections.abc import Hashable
from functools import cache
from typing import Any, TypeVar, cast

import msgspec

from buildbook.left.model import JobRecord
from buildbook.quantity.figures import figure

T = TypeVar("T")


def encoded(record: JobRecord) -> bytes:
    """The record as JSON on one line, UTF-8; the same bytes for the same record."""
    return _written(msgspec.convert(_as_figures(msgspec.to_builtins(record)), JobRecord))


def decoded(data: bytes) -> JobRecord | None:
    """The record that was written so; None for anything else, whatever it is."""
    record = read_as(JobRecord, data)
    return record if record is not None and _written(record) == data else None


class Parts(msgspec.Struct, frozen=True):
    """The parts of a record as they stand in its file: what a page is made from, without reading it."""

    entry: msgspec.Raw
    find: msgspec.Raw
    used: msgspec.Raw


def read_as(kind: type[T], data: bytes) -> T | None:
    """JSON as a kind of value, checked by its types; None for what is none."""
    try:
        value: T = _reader(cast(Hashable, kind)).decode(data)
    except (ValueError, RecursionError):  # msgspec's own errors are ValueErrors
        return None
    return value


@cache
def _reader(kind: Hashable) -> Any:
    return msgspec.json.Decoder(cast(type, kind))


def _written(value: Any) -> bytes:
    return msgspec.json.encode(value) + b"\n"


def _as_figures(value: Any) -> Any:
    match value:
        case float():
            return figure(value)
        case list() | tuple():
            return [_as_figures(item) for item in value]
        case dict():
            return {name: _as_figures(item) for name, item in value.items()}
    return value
