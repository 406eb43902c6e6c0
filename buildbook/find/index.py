"""The index over all jobs of a book: for each word, the jobs that have it and how strongly, as small integers.

In: `FindRecord`s. Out: `Index`. The effect of a word in a job is that of BM25F (Robertson and Zaragoza, The
Probabilistic Relevance Framework, 2009, section 3.6): counts weighted by field and marked down by the length
of the field are added, then saturated once; it is kept in a few steps. Rarity is kept a word. Whoever asks
only looks up, multiplies and adds integers, so the terminal and the page cannot come to another order.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

from buildbook.find.counting import Counts
from buildbook.find.model import FACETS, FindRecord
from buildbook.find.settings import settings
from buildbook.folding import folded

Posting = tuple[int, int]
"""The place of a job in the index, and the step of the effect that the word has in it, from 1."""


class FacetValue(NamedTuple):
    """A value that jobs can be narrowed down to, and the places of those that have it."""

    label: str
    jobs: tuple[int, ...]


class Facet(NamedTuple):
    """Values in the order in which they are shown: ranges and years by themselves, others by frequency."""

    name: str
    values: tuple[FacetValue, ...]


@dataclass(frozen=True)
class Index:
    """Jobs stand newest first, by key within a day: the order of what ranks the same.

    terms are sorted; rarity and postings go with them by place. sides: overall sizes in tenths of a millimetre.
    """

    keys: tuple[str, ...]
    titles: tuple[str, ...]
    days: tuple[str, ...]
    sides: tuple[tuple[int, ...], ...]
    terms: tuple[str, ...]
    rarity: Sequence[int]
    postings: Sequence[tuple[Posting, ...]]
    facets: Sequence[Facet]

    @cached_property
    def lines(self) -> str:
        """The terms, one a line: to look for a word in all of them at once."""
        return "\n".join(self.terms)


def in_order(records: Iterable[FindRecord]) -> list[FindRecord]:
    """Newest first, then by key; what has no day last."""
    by_key = sorted(records, key=lambda record: record.key)
    return sorted(by_key, key=lambda record: record.day, reverse=True)


def build(records: Iterable[FindRecord], units: str = "mm") -> Index:
    """The index of some jobs. `units` of the shop (`mm` or `in`) choose the ranges of size."""
    ordered = in_order(records)
    counted = [record.counts for record in ordered]
    usual = _usual_lengths(counted)
    rule = settings().ranking
    levels, saturation = rule.levels, rule.saturation
    postings: dict[str, list[Posting]] = defaultdict(list)
    for place, fields in enumerate(counted):  # half a million words in a shelf of 2,000: no call for each
        weights = _weighted(fields, usual)
        each = {
            weight: (place, round(levels * weight / (saturation + weight)) or 1)
            for weight in set(weights.values())
        }
        for term, weight in weights.items():
            postings[term].append(each[weight])
    every = sorted(postings)
    return Index(
        keys=tuple(record.key for record in ordered),
        titles=tuple(record.title for record in ordered),
        days=tuple(record.day for record in ordered),
        sides=tuple(record.sides for record in ordered),
        terms=tuple(every),
        rarity=tuple(_rarity(len(postings[term]), len(ordered)) for term in every),
        postings=tuple(tuple(postings[term]) for term in every),
        facets=facets(ordered, units),
    )


# -- the effect of a word in a job ---------------------------------------------------------------


def _usual_lengths(counted: Sequence[Counts]) -> dict[str, float]:
    """The mean number of words of each field among the jobs that have it."""
    lengths: dict[str, list[int]] = defaultdict(list)
    for fields in counted:
        for name, counts in fields.items():
            lengths[name].append(sum(counts.values()))
    return {name: sum(some) / len(some) for name, some in lengths.items()}


def _weighted(fields: Counts, usual: dict[str, float]) -> dict[str, float]:
    """The weighted count of every word of a job, over its fields."""
    weights: dict[str, float] = {}
    so_far = weights.get
    for name, counts in fields.items():
        rule = settings().fields[name]
        length = 1 - rule.length + rule.length * sum(counts.values()) / usual[name] if usual[name] else 1.0
        shares = {count: rule.weight * count / length for count in set(counts.values())}
        for term, count in counts.items():
            weights[term] = so_far(term, 0.0) + shares[count]
    return weights


def _rarity(having: int, jobs: int) -> int:
    """Points by the share of jobs that have a word (the inverse document frequency of BM25, never below one)."""
    return max(1, round(settings().ranking.rarity * math.log2(1 + (jobs - having + 0.5) / (having + 0.5))))


# -- facets --------------------------------------------------------------------------------------


def facets(ordered: Sequence[FindRecord], units: str) -> tuple[Facet, ...]:
    """What jobs can be narrowed down by; facets that tell nothing apart are left out."""
    bounds = settings().ranges
    sides = bounds["side_in" if units == "in" else "side_mm"]
    step = 254 if units == "in" else 10  # tenths of a millimetre
    by_words = [_by_words(name, ordered) for name in FACETS]
    every = (
        *by_words,
        _by_year(ordered),
        _by_range("hours", [record.hours_h for record in ordered], bounds["hours_h"]),
        _by_range("size", [max(record.sides, default=0) / step for record in ordered], sides),
    )
    return tuple(facet for facet in every if facet.values)


def _by_words(name: str, ordered: Sequence[FindRecord]) -> Facet:
    jobs: dict[str, list[int]] = defaultdict(list)
    labels: dict[str, str] = {}
    for place, record in enumerate(ordered):
        for value in record.facets.get(name, ()):
            labels.setdefault(folded(value), value)
            jobs[folded(value)].append(place)
    values = [FacetValue(labels[same], tuple(places)) for same, places in jobs.items()]
    return Facet(name, tuple(sorted(values, key=lambda value: (-len(value.jobs), value.label))))


def _by_year(ordered: Sequence[FindRecord]) -> Facet:
    """The newest year first, as the jobs stand."""
    jobs: dict[str, list[int]] = defaultdict(list)
    for place, record in enumerate(ordered):
        jobs[record.year].append(place)
    return Facet("year", tuple(FacetValue(year, tuple(places)) for year, places in jobs.items() if year))


def _by_range(name: str, figures: Sequence[float], bounds: Sequence[int]) -> Facet:
    """Ranges named by their ends: `-10`, `10-25`, `200-`; a figure on a bound belongs below it. Zero is not known."""
    ends = [0, *bounds, math.inf]
    values = []
    for low, high in pairwise(ends):
        places = tuple(place for place, figure in enumerate(figures) if low < figure <= high)
        label = f"{low or ''}-{'' if high == math.inf else high}"
        if places:
            values.append(FacetValue(label, places))
    return Facet(name, tuple(values))
