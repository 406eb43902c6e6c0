"""How like two pieces are: Gower's general coefficient of similarity over traits of mixed kinds.

Source: J. C. Gower, "A general coefficient of similarity and some of its properties", Biometrics 27 (1971) 857-871.
Counts and sizes are compared by their logarithms, since twice as wide is as far from once as four times from twice.
In: `Traits`. Out: how alike, from 0 to 1. Pure.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from buildbook.estimate.likeness.traits import Traits
from buildbook.estimate.model import Compared
from buildbook.estimate.settings import Trait, likeness_rules
from buildbook.trade.kinds import kind_of

_NO_RANGE = 1.0

Ranges = Mapping[str, float]
"""How far the logarithms of a trait lie apart on the shelf, by trait."""


def ranges_of(everyone: Iterable[Traits]) -> Ranges:
    """The range of each trait that is measured, over all pieces: what a difference is measured against."""
    pieces, rules = list(everyone), likeness_rules()
    smallest = math.log(rules.smallest_range)
    found = {}
    for trait in rules.traits:
        if trait.compare == "number":
            logs = [math.log1p(v) for piece in pieces if isinstance(v := piece.values[trait.name], float)]
            found[trait.name] = max([max(logs) - min(logs), smallest] if logs else [smallest])
        elif trait.compare == "sizes":
            sides = zip(*(_sides(piece.values[trait.name]) for piece in pieces), strict=True)
            spans = [
                max(known) - min(known) for side in sides if (known := [s for s in side if s is not None])
            ]
            found[trait.name] = max([*spans, smallest])
    return found


def compare(here: Traits, there: Traits, ranges: Ranges) -> tuple[Compared, ...]:
    """Each trait of two pieces that can be compared."""
    out = []
    for trait in likeness_rules().traits:
        alike = alike_in(trait, here.values[trait.name], there.values[trait.name], ranges)
        if alike is not None:
            shown = (here.shown[trait.name], there.shown[trait.name])
            out.append(Compared(trait.name, alike, trait.weight, *shown))
    return tuple(out)


def likeness(compared: Sequence[Compared]) -> float:
    """Gower's coefficient: the mean of what could be compared, by weight. 0 where nothing could."""
    weight = math.fsum(item.weight for item in compared)
    return math.fsum(item.alike * item.weight for item in compared) / weight if weight else 0.0


def alike_in_each(trait: Trait, here: Any, there: Sequence[Any]) -> list[float | None]:
    """`alike_in` of one piece with each of many values, where no range is known."""
    if here is None:
        return [None] * len(there)
    way = _WAYS[trait.compare]
    return [None if value is None else way(here, value, _NO_RANGE) for value in there]


# -- each kind of trait ----------------------------------------------------------------------------


def alike_in(trait: Trait, here: Any, there: Any, ranges: Ranges) -> float | None:
    """How alike in one trait; None where it cannot be compared."""
    if here is None or there is None:
        return None
    return _WAYS[trait.compare](here, there, ranges.get(trait.name, _NO_RANGE))


def _same(here: str, there: str, _: float) -> float:
    if here == there:
        return 1.0
    rules = likeness_rules()
    heads = [text.replace("-", " ").split()[-1] for text in (here, there)]
    if heads[0].endswith(heads[1]) or heads[1].endswith(heads[0]):
        return rules.same_head
    kinds = (kind_of(here), kind_of(there))
    if kinds[0] is None or kinds[1] is None or kinds[0].family != kinds[1].family:
        return 0.0
    return rules.same_head if kinds[0] is kinds[1] else rules.family_alike


def _sizes(here: Any, there: Any, span: float) -> float | None:
    pairs = [
        (a, b) for a, b in zip(_sides(here), _sides(there), strict=True) if a is not None and b is not None
    ]
    if not pairs:
        return None
    return math.fsum(max(0.0, 1 - abs(a - b) / span) for a, b in pairs) / len(pairs)


def _sides(size: Any) -> list[float | None]:
    return [math.log(side) if side else None for side in size]


def _number(here: float, there: float, span: float) -> float | None:
    if not here and not there:
        return None
    return max(0.0, 1 - abs(math.log1p(here) - math.log1p(there)) / span)


def _shares(here: Mapping[str, float], there: Mapping[str, float], _: float) -> float | None:
    if not here or not there:
        return None
    return math.fsum(min(share, there.get(name, 0.0)) for name, share in here.items())


def _word_lists(here: frozenset[str], there: frozenset[str], _: float) -> float | None:
    """Words in common, of all words (Jaccard). What an enquiry does not say is not known, and not compared."""
    if not here:
        return None
    common = len(here & there)
    return common / (len(here) + len(there) - common)


_WAYS: dict[str, Callable[[Any, Any, float], float | None]] = {
    "same": _same,
    "sizes": _sizes,
    "number": _number,
    "shares": _shares,
    "words": _word_lists,
}
