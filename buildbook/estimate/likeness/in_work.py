"""How far the past jobs of a shop tell of the hours of a piece: their likeness to it in those traits only that say so.

In: `Traits`. Out: a likeness for each job, from 0 to 1. Pure. One piece is compared with hundreds of jobs, and hundreds
of pieces with the same jobs: so each value of a trait is compared once, however many jobs have it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from operator import add

from buildbook.estimate.likeness.similarity import alike_in_each
from buildbook.estimate.likeness.traits import Traits, Value
from buildbook.estimate.settings import likeness_rules


class LikeInWork:
    """Jobs in some order, ready to be compared with."""

    def __init__(self, everyone: Sequence[Traits]) -> None:
        self._count = len(everyone)
        self._columns = [
            (trait, _Column([traits.values[trait.name] for traits in everyone]))
            for trait in likeness_rules().traits
            if trait.hours
        ]

    def to(self, here: Traits) -> list[float]:
        """The likeness of each job: Gower's coefficient over traits none of which comes from parts.csv. 1 where nothing
        could be compared: then every past job tells as much.
        """
        found, weight = [0.0] * self._count, [0.0] * self._count
        for trait, column in self._columns:
            alike = alike_in_each(trait, here.values[trait.name], column.values)
            if any(alike):
                told = [trait.weight * one if one else 0.0 for one in alike]
                found = list(map(add, found, map(told.__getitem__, column.places)))
            if any(one is not None for one in alike):
                counts = [trait.weight if one is not None else 0.0 for one in alike]
                weight = list(map(add, weight, map(counts.__getitem__, column.places)))
        return [told / most if most else 1.0 for told, most in zip(found, weight, strict=True)]


class _Column:
    """The values of one trait: each once, and which of them a job has."""

    def __init__(self, every: Sequence[Value]) -> None:
        place_of: dict[object, int] = {}
        self.values: list[Value] = []
        self.places: list[int] = []
        for value in every:
            key = tuple(value.items()) if isinstance(value, Mapping) else value
            place = place_of.setdefault(key, len(place_of))
            if place == len(self.values):
                self.values.append(value)
            self.places.append(place)
