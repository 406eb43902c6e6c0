"""The index as plain JSON kinds with its lists packed into text, and back.

A list of ascending places is kept as differences. Numbers are written in base 45 with 90 printable signs: 45 that go on
and 45 that end one, so that nothing needs an escape in a script.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import lru_cache
from typing import Any, Generic, TypeVar

from buildbook.find.index import Facet, FacetValue, Index, Posting
from buildbook.find.settings import settings

SCHEMA = 1
SIGNS = "".join(chr(code) for code in range(0x23, 0x7F) if chr(code) not in "\\<")[:90]
"""Printable ASCII without what a string of JavaScript or a page would have to escape."""
BASE = len(SIGNS) // 2
_BREAK = " "  # between words; no sign of a number
_NUMBER = re.compile(f"[{re.escape(SIGNS[:BASE])}]*[{re.escape(SIGNS[BASE:])}]")

P = TypeVar("P")
T = TypeVar("T")


def pack_numbers(numbers: Iterable[int]) -> str:
    """Numbers of at least 0 as text."""
    return "".join(map(_packed, numbers))


@lru_cache(maxsize=1 << 16)
def _packed(number: int) -> str:
    digits = [SIGNS[BASE + number % BASE]]
    while number := number // BASE:
        digits.append(SIGNS[number % BASE])
    return "".join(reversed(digits))


def unpack_numbers(text: str) -> Iterator[int]:
    """The numbers of a text; the last digit of each is one of the second half of the signs."""
    number = 0
    for sign in text:
        digit = _DIGITS[sign]
        number = number * BASE + digit % BASE
        if digit >= BASE:
            yield number
            number = 0


_DIGITS = {sign: place for place, sign in enumerate(SIGNS)}


def _gaps(places: Iterable[int]) -> Iterator[int]:
    last = -1
    for place in places:
        yield place - last - 1
        last = place


def _places(gaps: Iterable[int]) -> Iterator[int]:
    last = -1
    for gap in gaps:
        last += gap + 1
        yield last


def _pack_postings(postings: Sequence[Posting], levels: int) -> str:
    """Each as the places since the last one and its step, in one number."""
    numbers, last = [], -1
    for place, step in postings:  # half a million of them in a shelf of 2,000: no call for each
        numbers.append((place - last - 1) * levels + step - 1)
        last = place
    return "".join(map(_packed, numbers))


def _unpack_postings(text: str, levels: int) -> tuple[Posting, ...]:
    numbers = list(unpack_numbers(text))
    places = _places(number // levels for number in numbers)
    return tuple((place, number % levels + 1) for place, number in zip(places, numbers, strict=True))


def _pack_terms(terms: Sequence[str]) -> str:
    """Sorted terms, each as the count of letters that it shares with the one before and the rest of it. A term may hold
    a blank (`1 1/2in`), written as a tab.
    """
    out, before = [], ""
    for term in terms:
        shared = 0
        while shared < min(len(term), len(before), BASE - 1) and term[shared] == before[shared]:
            shared += 1
        out.append(pack_numbers([shared]) + term[shared:].replace(" ", "\t"))
        before = term
    return _BREAK.join(out)


def _unpack_terms(text: str) -> tuple[str, ...]:
    terms, before = [], ""
    for packed in text.split(_BREAK) if text else ():  # thousands of them: no call for each
        before = before[: _DIGITS[packed[0]] % BASE] + packed[1:]
        terms.append(before)
    return tuple(term.replace("\t", " ") if "\t" in term else term for term in terms)


class Unpacked(Sequence[T], Generic[P, T]):
    """Items that are unpacked when they are asked for: of half a million postings, a question needs a few hundred."""

    def __init__(self, packed: Sequence[P], item: Callable[[P], T]) -> None:
        self._packed = packed
        self._item = item

    def __len__(self) -> int:
        return len(self._packed)

    def __getitem__(self, place: Any) -> Any:
        return self._item(self._packed[place])

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and tuple(self) == tuple(other)

    __hash__ = None  # type: ignore[assignment]


def pack(index: Index) -> dict[str, Any]:
    """The index as JSON kinds."""
    levels = settings().ranking.levels
    return {
        "schema": SCHEMA,
        "keys": list(index.keys),
        "titles": list(index.titles),
        "days": list(index.days),
        "sides": [list(sides) for sides in index.sides],
        "terms": _pack_terms(index.terms),
        "rarity": pack_numbers(index.rarity),
        "postings": _BREAK.join(_pack_postings(some, levels) for some in index.postings),
        "facets": [
            {"name": facet.name, "values": [[v.label, pack_numbers(_gaps(v.jobs))] for v in facet.values]}
            for facet in index.facets
        ],
    }


def unpack(facts: dict[str, Any]) -> Index:
    """The index again. Raises KeyError, TypeError, IndexError or ValueError for what is none."""
    if facts["schema"] != SCHEMA:
        raise ValueError("an index of another edition")
    levels = settings().ranking.levels
    terms = _unpack_terms(facts["terms"])
    postings = facts["postings"].split(_BREAK) if terms else ()
    rarity = _NUMBER.findall(facts["rarity"])
    if not len(terms) == len(postings) == len(rarity) or not _is_packed(facts["postings"] + facts["rarity"]):
        raise ValueError("an index that was cut short, or altered")
    return Index(
        keys=tuple(facts["keys"]),
        titles=tuple(facts["titles"]),
        days=tuple(facts["days"]),
        sides=tuple(map(tuple, facts["sides"])),
        terms=terms,
        rarity=Unpacked(rarity, lambda text: next(unpack_numbers(text))),
        postings=Unpacked(postings, lambda text: _unpack_postings(text, levels)),
        facets=Unpacked(facts["facets"], _unpack_facet),
    )


def _unpack_facet(facet: dict[str, Any]) -> Facet:
    values = (FacetValue(label, tuple(_places(unpack_numbers(jobs)))) for label, jobs in facet["values"])
    return Facet(facet["name"], tuple(values))


def _is_packed(text: str) -> bool:
    return not text.encode().translate(None, (SIGNS + _BREAK).encode())
