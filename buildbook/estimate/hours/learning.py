"""Like pieces made one after the other: each takes less than the one before.

The law is that of T. P. Wright, "Factors Affecting the Cost of Airplanes", Journal of the Aeronautical Sciences 3
(1936) 122-128: with every doubling of the count, labour falls to the same share, the learning rate. Wright's share is
of the average of all pieces; here it is of the single one, as J. R. Crawford read the law later, which at the same rate
saves less: piece n takes n^b of the first, b the logarithm of the rate to base two. The shop's own sets move the rate
as far as they tell, from what is believed before (ridge: A. E. Hoerl and R. W. Kennard, Technometrics 12 (1970) 55-67),
one set gone wrong counting less (Huber 1964, see `fit`). Pure.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from buildbook.estimate.hours.fit import huber_weight
from buildbook.estimate.settings import method


class SetSeen(NamedTuple):
    """A past set: how many pieces, and the logarithm of what it took over what one piece would have."""

    pieces: int
    log_times: float


@dataclass(frozen=True)
class Learning:
    """How much less following pieces take: `exponent` is Wright's, `sets` how many of the shop's own it leans on."""

    exponent: float
    sets: int = 0

    @property
    def rate(self) -> float:
        """What a piece takes of one half as far on in the set."""
        return float(2**self.exponent)

    def units(self, count: int) -> float:
        """What so many pieces take together, in first pieces."""
        return _units(count, self.exponent)[0]


def published() -> Learning:
    """The law at the rate of data/method.toml, which a shop without sets of its own is quoted by."""
    return Learning(math.log2(method().learning.rate))


@lru_cache(maxsize=4096)
def _units(count: int, exponent: float) -> tuple[float, float]:
    """The sum of k^b over the pieces, and its slope with b."""
    each = [(k**exponent, math.log(k)) for k in range(1, count + 1)]
    return math.fsum(one for one, _ in each), math.fsum(one * log for one, log in each)


def learnt(seen: Sequence[SetSeen]) -> Learning:
    """What a shop's own sets say of the rate, drawn towards the published one by how little they tell."""
    rules = method().learning
    believed = published().exponent
    sets = [one for one in seen if one.pieces > 1]
    exponent, spread = believed, method().range.total
    for _ in range(method().fit.rounds if sets else 0):
        told, certainty = believed / rules.exponent_sd**2, rules.exponent_sd**-2
        for one in sets:
            units, slope = _units(one.pieces, exponent)
            steep, off = slope / units, one.log_times - math.log(units)
            weight = huber_weight(off / spread) * (steep / spread) ** 2
            told += weight * (exponent + off / steep)
            certainty += weight
        least, most = math.log2(rules.least_rate), math.log2(rules.most_rate)
        exponent = min(max(told / certainty, least), most)
    return Learning(exponent, len(sets))
