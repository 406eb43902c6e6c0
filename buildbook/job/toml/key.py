"""What a key of a maker's TOML file is: how it is read, what is believable, what it means."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

READS = {
    "text": "words in quotes",
    "lines": "words in quotes, of several lines if you like",
    "texts": "a list of words in quotes",
    "address": "a web address in quotes",
    "date": "a day, without quotes",
    "dates": "a list of days, without quotes",
    "length": "a length in quotes, or a bare number in the job's unit",
    "diameter": 'across a screw: a length, or its number such as `"#10"`',
    "mass": "a mass with its unit, in quotes",
    "loads": "a list of masses, each with the place that carries it, in quotes",
    "sums": "a list of sums in quotes, the size first that each must come out at",
    "temperature": "a temperature with its unit, in quotes",
    "spread": "an area a volume covers, with its unit, in quotes",
    "solvent": "grams of solvent in a litre",
    "stock": 'a nominal thickness such as `"8/4"`, or a length',
    "boards": "a list of boards, thickness x width x length",
    "angle": "a number of degrees",
    "number": "a number, without quotes",
    "percent": "a number of per cent, without quotes",
    "days": 'a number of days, or such as `"3 weeks"`',
    "count": "a whole number, without quotes",
    "pieces": 'numbers of pieces in quotes, such as `"1-4"` or `"5, 6"`',
    "amount": "an amount of money, without quotes",
    "flag": "`true` or `false`",
    "choice": "one of a few words",
    "choices": "a list of some of a few words",
    "table": "a table",
    "tables": "tables, one for each",
}
"""How a value is written, by the name of how it is read."""

MEASURED = frozenset(
    (
        "date", "dates", "length", "diameter", "mass", "loads", "temperature", "spread", "solvent", "stock", "boards",
        "angle", "number", "percent", "days", "count", "amount",
    )
)  # fmt: skip
"""What has a believable range."""


How = Literal["no", "effect", "yes"]


@dataclass(frozen=True)
class Leaves:
    """What a client may learn of a value: from the handover (`page`), and from the letter of an estimate (`letter`).

    no      nothing: whatever is written there, every byte stays the same.
    effect  never the value, but what follows from it: an instruction, a picture, a figure that it goes into.
    yes     it can be read there.
    """

    page: How
    letter: How


STAYS = Leaves("no", "no")
PAGE = Leaves("yes", "no")
LETTER = Leaves("no", "yes")
BOTH = Leaves("yes", "yes")


@dataclass(frozen=True)
class Key:
    """One key of a table. Whether it leaves has to be decided for each, and is tested.

    example  the value as TOML text.
    field    what it is called in the model, where that differs.
    choices  what a `choice` may be.
    within   what is believable, by its name in data/believable.csv; what is `MEASURED` has one.
    between  whether two figures may stand for their middle: `7-9`.
    """

    name: str
    reads: str
    example: str
    meaning: str
    leaves: Leaves
    field: str = ""
    choices: tuple[str, ...] = ()
    within: str = ""
    needed: bool = False
    between: bool = False

    @property
    def target(self) -> str:
        return self.field or self.name


@dataclass(frozen=True)
class Table:
    """A table of a file: its heading as written (empty for the top), what it is for, and its keys."""

    heading: str
    meaning: str
    keys: tuple[Key, ...]

    def key(self, name: str) -> Key | None:
        return next((key for key in self.keys if key.name == name), None)

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(key.name for key in self.keys)
