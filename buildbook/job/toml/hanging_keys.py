"""What job.toml may say of how a piece hangs, as data. It stays in: what holds a piece is reckoned for its maker, and a
client who read of screws and studs might hang it elsewhere by them.
"""

from __future__ import annotations

from buildbook.job.toml.key import STAYS, Key, Table

FASTENER = Table(
    "[hanging.fastener]",
    "What holds the piece to the wall.",
    (
        Key("kind", "text", '"wood screw"', "What it is.", STAYS, needed=True),
        Key(
            "diameter",
            "diameter",
            '"5 mm"',
            "Across the shank.",
            STAYS,
            "diameter_m",
            within="fastener diameter",
            needed=True,
        ),
        Key(
            "length",
            "length",
            '"70 mm"',
            "From under the head to the point.",
            STAYS,
            "length_m",
            within="fastener length",
            needed=True,
        ),
        Key(
            "in_wall",
            "length",
            '"45 mm"',
            "How much of it bites into the wall.",
            STAYS,
            "in_wall_m",
            within="fastener length",
            needed=True,
        ),
        Key("count", "count", "6", "How many.", STAYS, within="fasteners", needed=True),
    ),
)

WALL = Table(
    "[hanging.wall]",
    "The wall that it was hung on, or that it is meant for.",
    (
        Key("kind", "text", '"softwood studs"', "What the fixings go into.", STAYS, needed=True),
        Key(
            "sg",
            "number",
            "0.42",
            "Specific gravity of that wood.",
            STAYS,
            "specific_gravity",
            within="specific gravity",
        ),
    ),
)

HANGING = Table(
    "[hanging]",
    "Only for a piece that hangs.",
    (
        Key(
            "method",
            "text",
            '"cleat"',
            "How it hangs: on a cleat, battens, keyhole plates, hidden fixings …",
            STAYS,
            needed=True,
        ),
        Key(
            "pull_height",
            "length",
            '"600 mm"',
            "From the fixings down to the lower bearing edge.",
            STAYS,
            "pull_height_m",
            within="size of a piece",
        ),
        Key("fastener", "table", '{ kind = "wood screw", … }', FASTENER.meaning, STAYS),
        Key("wall", "table", '{ kind = "softwood studs", sg = 0.42 }', WALL.meaning, STAYS),
    ),
)
