"""Finding a record by any name a maker would write, and the nearest ones when there is none.

In: a name as written. Out: the record, and the assumption that was made, in words. Capitals, accents,
hyphens, word order and the like make no difference.
"""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from buildbook.trade.records import Named

T = TypeVar("T", bound=Named)

NOISE = frozenset(
    {"solid", "timber", "lumber", "wood", "kiln", "dried", "kd", "the", "of"}
    | {"massiv", "massivholz", "leimholz", "leimholzplatte", "altholz", "reclaimed", "salvaged"}
)
"""Words that say nothing about which one is meant."""


@dataclass(frozen=True)
class Found(Generic[T]):
    """What was found for a name; `assumed` is empty, or says what a loose name was taken for. `stated`: the name says
    which one it is, if only by the place where it was written.
    """

    record: T
    assumed: str = ""
    stated: bool = True


def words(name: str) -> tuple[str, ...]:
    """A name as bare words: `Yellow-poplar` and `yellow  POPLAR` are the same."""
    plain = unicodedata.normalize("NFKD", name).casefold()
    plain = "".join(letter for letter in plain if not unicodedata.combining(letter)).replace("'", "")
    found = tuple(re.findall(r"[^\W_]+", plain.replace("’", "")))
    return tuple(word for word in found if word not in NOISE) or found


def spellings(name: str) -> Iterator[str]:
    """A name as the index keeps it: run together, and with its words sorted."""
    parts = words(name)
    if parts:
        yield "".join(parts)
        yield " ".join(sorted(parts))


def plain_names(name: str) -> Iterator[str]:
    """A printed name, without what stands in brackets, and each side of a slash."""
    yield name
    yield from re.sub(r"\(.*?\)", "", name).split("/")


def _shares_a_word(some: Sequence[str], others: Sequence[str]) -> bool:
    return any(difflib.get_close_matches(word, others, n=1, cutoff=0.8) for word in some)


class Table(Generic[T]):
    """The records of one table, in the order of the file. Names are checked: no name may mean two records."""

    def __init__(self, records: Iterable[T]) -> None:
        self.records: tuple[T, ...] = tuple(records)
        self._by_key = {record.key: record for record in self.records}
        if len(self._by_key) != len(self.records):
            raise ValueError("two records have the same key")
        self._exact: dict[str, T] = {}
        self._loose: dict[str, T] = {}
        for record in self.records:
            for name in (record.key, *plain_names(record.name), *record.aliases):
                self._add(self._exact, name, record)
            for name in record.taken_for:
                self._add(self._loose, name, record)
        for record in self.records:
            for name in record.also:
                self._add_shared(name, record)

    def _add(self, index: dict[str, T], name: str, record: T) -> None:
        for spelling in spellings(name):
            known = index.setdefault(spelling, record)
            if known is not record:
                raise ValueError(f"{name!r} means both {known.key} and {record.key}")

    def _add_shared(self, name: str, record: T) -> None:
        """A name that several records may share (two woods of one botanical name): then a loose one, for
        the first.
        """
        for plain in plain_names(name):
            for spelling in spellings(plain):
                known = self._exact.setdefault(spelling, record)
                if known is not record:
                    self._loose.setdefault(spelling, known)

    def __iter__(self) -> Iterator[T]:
        return iter(self.records)

    def __len__(self) -> int:
        return len(self.records)

    def __contains__(self, key: object) -> bool:
        return key in self._by_key

    def __getitem__(self, key: str) -> T:
        """The record of a key; KeyError when there is none."""
        return self._by_key[key]

    def find(self, name: str) -> Found[T] | None:
        """The record that a name means, or None.

        A loose name (`oak`, `ply`) is taken for the usual one, and the answer says so.
        """
        for spelling in spellings(name):
            if spelling in self._loose:
                record = self._loose[spelling]
                said = f"“{name.strip()}” was taken for {record.full_name}; name it in full if it is another"
                return Found(record, said, stated=False)
            if spelling in self._exact:
                return Found(self._exact[spelling])
        return None

    def key_of(self, name: str) -> str:
        """The key of the record that a name means; empty where it means none."""
        found = self.find(name)
        return found.record.key if found else ""

    def nearest(self, name: str, count: int = 3) -> tuple[str, ...]:
        """Names of records that are spelt much like a name that was not found, or share a word with it."""
        wanted = words(name)
        index = {**self._loose, **self._exact}
        close = difflib.get_close_matches("".join(wanted), index, n=count * 2, cutoff=0.7)
        whole = " ".join(sorted(wanted))
        sharing = sorted(
            (spelling for spelling in index if _shares_a_word(wanted, spelling.split())),
            key=lambda spelling: -difflib.SequenceMatcher(None, whole, spelling).ratio(),
        )
        names = dict.fromkeys(index[spelling].name for spelling in (*close, *sharing))
        return tuple(names)[:count]
