"""What a maker may have meant by the name of a finish that no table has: only ever one of the same kind.

In: a name. Out: families of its kind, and those whose names are spelt much like it. Decking oil is never offered as
tung oil, nor a stain as a varnish.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable

from buildbook.trade import tables
from buildbook.trade.finish_rows import finish_kinds, kinds_of
from buildbook.trade.lookup import plain_names, spellings, words
from buildbook.trade.records import FinishFamily

LIKE = 0.8  # names of one kind that are less alike are no slip of the pen
SURELY_LIKE = 0.88  # the same, where the name tells no kind, or may tell it wrongly


def of_kinds(kinds: Iterable[str]) -> tuple[FinishFamily, ...]:
    """Every family of some kinds, in the order of the table."""
    wanted = set(kinds)
    return tuple(family for family in tables.finishes() if family.kind in wanted)


def meant(name: str, count: int = 3) -> tuple[FinishFamily, ...]:
    """Families with a name that is spelt much like this one, the likest first; of the kinds that the name tells, where
    it tells one. A slip in a single word may tell a wrong kind (`Schelack`), so that one is looked for among all.
    `lacquer` alone is no slip for any one of them: none is nearer than the others.
    """
    kinds = kinds_of(name)
    if any(words(name) == (word,) for kind in finish_kinds() for word in (*kind.words, *kind.endings)):
        return ()
    if len(words(name)) == 1 or not kinds:
        surely = _near(name, tables.finishes(), SURELY_LIKE, count)
        if surely or not kinds:
            return surely
    return _near(name, of_kinds(kinds), LIKE, count)


def _near(name: str, families: Iterable[FinishFamily], like: float, count: int) -> tuple[FinishFamily, ...]:
    index = {
        next(spellings(plain)): family
        for family in families
        for written in (family.name, *family.aliases, *family.taken_for)
        for plain in plain_names(written)
        if words(plain)
    }
    close = difflib.get_close_matches("".join(words(name)), index, n=count * 2, cutoff=like)
    return tuple({index[spelling].key: index[spelling] for spelling in close}.values())[:count]
