"""What a bound job leaves for estimates, as the bytes of a file, and back. *Private*.

Three lines: the SHA-256 of the other two; the facts that every estimate reads, with the mark of the shop in which the
job was read; the rows that an enquiry without parts is scaled from, which most estimates never unfold.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace
from functools import cache

import msgspec

from buildbook.estimate.past import KnownJob, PastFacts
from buildbook.job.model import Job
from buildbook.job.shop_model import Shop
from buildbook.left.codec import read_as


@dataclass(frozen=True)
class _Kept:
    shop: str
    facts: PastFacts


def encoded_past(past: KnownJob) -> bytes:
    """A past job in bytes; none where they would not read back as the same."""
    stuff = past.stuff()
    lines = (
        msgspec.json.encode(_Kept(_mark(past.shop), past.facts)),
        msgspec.json.encode(replace(stuff, shop=Shop())),
    )
    content = b"\n".join(lines)
    data = _digest(content) + b"\n" + content
    back = decoded_past(data, past.shop)
    return data if back == past and back.stuff() == stuff else b""


def decoded_past(data: bytes, shop: Shop) -> KnownJob | None:
    """The past job that was written so, if it was read in this shop; None for anything else, whatever it is."""
    digest, _, content = data.partition(b"\n")
    if _digest(content) != digest:
        return None
    first, _, second = content.partition(b"\n")
    found = read_as(_Kept, first)
    if found is None or found.shop != _mark(shop):
        return None

    @cache
    def stuff() -> Job:
        return replace(msgspec.json.decode(second, type=Job), shop=shop)

    return KnownJob(found.facts, shop, stuff)


def _mark(shop: Shop) -> str:
    """One digest of all that a shop says."""
    return _digest(msgspec.json.encode(shop)).decode()


def _digest(content: bytes) -> bytes:
    return hashlib.sha256(content).hexdigest().encode()
