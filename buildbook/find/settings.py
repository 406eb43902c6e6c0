"""weights.toml read into records: tuples with names, which take a third of the time to make of a dataclass."""

from __future__ import annotations

import tomllib
from functools import cache
from pkgutil import get_data
from typing import NamedTuple


class Ranking(NamedTuple):
    """How strongly a word counts and how matches differ; the head of weights.toml says what each is."""

    saturation: float
    levels: int
    rarity: int
    exact: int
    same: int
    prefix: int
    kind: int
    typo: int
    few: int
    most_of: int
    most_pct: int
    turned_from: int
    one_slip_from: int
    two_slips_from: int
    size_within_pct: int
    size_points: int


class FieldWeight(NamedTuple):
    weight: float
    length: float
    order: int


class Showing(NamedTuple):
    """How much of a job is shown to say why it was found, and how strongly a passage answers a word."""

    most: int
    before: int
    words: int
    itself: int
    other: int
    called: int


class Settings(NamedTuple):
    """All of weights.toml."""

    ranking: Ranking
    passage: Showing
    fields: dict[str, FieldWeight]
    ranges: dict[str, tuple[int, ...]]

    def for_asking(self) -> dict[str, object]:
        """What is needed when a question is asked, for the page."""
        order = {name: field.order for name, field in self.fields.items()}
        return {**self.ranking._asdict(), **self.passage._asdict(), "order": order}


@cache
def settings() -> Settings:
    read = tomllib.loads((get_data(__name__, "weights.toml") or b"").decode("utf-8"))
    return Settings(
        Ranking(**read["ranking"]),
        Showing(**read["passage"]),
        {name: FieldWeight(**facts) for name, facts in read["fields"].items()},
        {name: tuple(bounds) for name, bounds in read["ranges"].items()},
    )
