"""What job.toml may hold of a set: how many like pieces a job makes, what its parts count for, and when each went."""

from __future__ import annotations

from buildbook.job.model import CARDS, PARTS_FOR
from buildbook.job.toml.key import BOTH, PAGE, Key, Leaves, Table

DELIVERY = Table(
    "[[delivery]]",
    "Where a set goes in parts: one table a day, instead of `delivered`.",
    (
        Key(
            "day",
            "date",
            "2026-06-12",
            "The day that these pieces were handed over.",
            PAGE,
            within="day of work",
            needed=True,
        ),
        Key("pieces", "pieces", '"1-4"', "Which pieces went, by their numbers from 1.", PAGE),
    ),
)

SET = (
    Key(
        "quantity",
        "count",
        "6",
        "How many like pieces the job makes; 1 where it is left out. Sizes, contents, loads, limits, doors,"
        " drawers, joints and hanging are those of one piece; price and hours are for all.",
        BOTH,
        within="pieces of a set",
    ),
    Key(
        "parts_for",
        "choice",
        '"all"',
        "Whether the counts of parts.csv are for all pieces, or for each; to be said of several.",
        Leaves("effect", "effect"),
        choices=PARTS_FOR,
    ),
    Key(
        "cards",
        "choice",
        '"one"',
        "Whether one card is printed for the set, or each piece has its own.",
        Leaves("effect", "no"),
        choices=CARDS,
    ),
    Key("delivery", "tables", "[[delivery]]", DELIVERY.meaning, PAGE),
)
