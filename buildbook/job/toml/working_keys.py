"""The kinds of [[worked]] tables and what each takes, as data. Names of the inputs are those of
`trade.workings`.
"""

from __future__ import annotations

from dataclasses import replace

from buildbook.job.toml.key import STAYS, Key, Leaves, Table

_COSTS = Leaves(
    "no", "effect"
)  # a part that names it takes its share of the board, which the letter's price counts

KERF = Key(
    "kerf",
    "length",
    '"3 mm"',
    "What the saw takes; left out, the usual kerf.",
    STAYS,
    field="kerf_m",
    within="saw kerf",
)
BOARD = Key(
    "thickness",
    "stock",
    '"8/4"',
    "Of the board.",
    _COSTS,
    field="thickness_m",
    within="stock thickness",
    needed=True,
)
CLEAN_UP = Key(
    "clean_up",
    "length",
    '"1 mm"',
    "Planed off between two leaves.",
    _COSTS,
    field="clean_up_m",
    within="planing",
)
TRIM = Key(
    "trim", "length", '"20 mm"', "What is trimmed off first, in all.", STAYS, field="trim_m", within="trim"
)

COMMON = (
    Key("kind", "text", '"resaw"', "Which working it is.", STAYS),
    Key("title", "text", '"Door panels from one board"', "What it was for.", STAYS),
    Key("note", "lines", '"keep the left edge"', "For yourself.", STAYS),
)
"""Keys of every kind."""

_KINDS: dict[str, tuple[str, tuple[Key, ...]]] = {
    "resaw": (
        "Leaves sawn from one board, opened side by side.",
        (
            BOARD,
            Key(
                "width",
                "length",
                '"180 mm"',
                "Of the board.",
                _COSTS,
                field="width_m",
                within="working length",
                needed=True,
            ),
            Key(
                "leaf",
                "length",
                '"6 mm"',
                "Thickness of a finished leaf.",
                _COSTS,
                field="leaf_m",
                within="working length",
                needed=True,
            ),
            replace(KERF, leaves=_COSTS),
            CLEAN_UP,
        ),
    ),
    "laminate": (
        "A part glued up of layers that are sawn from a board: a bent rail, a thick leg.",
        (
            BOARD,
            Key(
                "layer",
                "length",
                '"3 mm"',
                "Thickness of a finished layer.",
                _COSTS,
                field="leaf_m",
                within="working length",
                needed=True,
            ),
            Key(
                "layers",
                "count",
                "7",
                "How many layers a part has.",
                _COSTS,
                within="layers of a part",
                needed=True,
            ),
            replace(KERF, leaves=_COSTS),
            CLEAN_UP,
        ),
    ),
    "strips": (
        "Strips ripped from one board.",
        (
            Key(
                "width",
                "length",
                '"200 mm"',
                "Of the board.",
                STAYS,
                field="width_m",
                within="working length",
                needed=True,
            ),
            Key(
                "strip",
                "length",
                '"22 mm"',
                "Width of a strip.",
                STAYS,
                field="strip_m",
                within="working length",
                needed=True,
            ),
            KERF,
            TRIM,
        ),
    ),
    "lengths": (
        "Pieces cut from stock lengths.",
        (
            Key(
                "stock",
                "length",
                '"2400 mm"',
                "Length of the stock.",
                STAYS,
                field="stock_m",
                within="working length",
                needed=True,
            ),
            Key(
                "piece",
                "length",
                '"455 mm"',
                "Length of a piece.",
                STAYS,
                field="piece_m",
                within="working length",
                needed=True,
            ),
            Key(
                "count",
                "count",
                "12",
                "How many pieces.",
                STAYS,
                field="wanted",
                within="pieces",
                needed=True,
            ),
            KERF,
            TRIM,
        ),
    ),
    "holes": (
        "A field of holes.",
        (
            Key("rows", "count", "2", "How many rows.", STAYS, within="holes in a row", needed=True),
            Key(
                "columns",
                "count",
                "12",
                "How many holes in a row.",
                STAYS,
                within="holes in a row",
                needed=True,
            ),
            Key(
                "spacing",
                "length",
                '"32 mm"',
                "From hole to hole, both ways.",
                STAYS,
                field="spacing_m",
                within="working length",
            ),
            Key(
                "row_spacing",
                "length",
                '"300 mm"',
                "From row to row.",
                STAYS,
                field="row_spacing_m",
                within="working length",
            ),
            Key(
                "column_spacing",
                "length",
                '"32 mm"',
                "From hole to hole in a row.",
                STAYS,
                field="column_spacing_m",
                within="working length",
            ),
        ),
    ),
    "fall": (
        "How far something at an angle rises or falls.",
        (
            Key(
                "depth",
                "length",
                '"420 mm"',
                "The run that it falls over.",
                STAYS,
                field="run_m",
                within="working length",
                needed=True,
            ),
            Key(
                "angle",
                "angle",
                "5",
                "The angle, in degrees.",
                STAYS,
                field="angle_deg",
                within="angle",
                needed=True,
            ),
        ),
    ),
    "taper": (
        "What a taper takes off each side.",
        (
            Key(
                "wide",
                "length",
                '"45 mm"',
                "At the wide end.",
                STAYS,
                field="wide_m",
                within="working length",
                needed=True,
            ),
            Key(
                "narrow",
                "length",
                '"28 mm"',
                "At the narrow end.",
                STAYS,
                field="narrow_m",
                within="working length",
                needed=True,
            ),
            Key(
                "sides",
                "count",
                "2",
                "How many sides are tapered: 1 or 2.",
                STAYS,
                within="tapered sides",
                needed=True,
            ),
        ),
    ),
    "coat count": (
        "How many times pieces are coated in all.",
        (
            Key("pieces", "count", "14", "How many pieces.", STAYS, within="pieces", needed=True),
            Key(
                "coats", "count", "3", "How many coats; left out, those of the finish.", STAYS, within="coats"
            ),
            Key("sides", "count", "2", "How many sides are coated apart.", STAYS, within="sides"),
            Key("finish", "text", '"body"', "The key of a finish of this job.", STAYS),
        ),
    ),
    "dowels": (
        "Dowels along a joint.",
        (
            Key(
                "joint",
                "length",
                '"400 mm"',
                "Length of the joint.",
                STAYS,
                field="joint_m",
                within="working length",
                needed=True,
            ),
            Key(
                "margin",
                "length",
                '"30 mm"',
                "From each end to the first.",
                STAYS,
                field="margin_m",
                within="working length",
                needed=True,
            ),
            Key(
                "spacing",
                "length",
                '"80 mm"',
                "At least from one to the next.",
                STAYS,
                field="spacing_m",
                within="working length",
                needed=True,
            ),
            Key(
                "thickness",
                "length",
                '"22 mm"',
                "Of the thinner part.",
                STAYS,
                field="thickness_m",
                within="working length",
            ),
            Key(
                "diameter",
                "length",
                '"8 mm"',
                "Of the dowels.",
                STAYS,
                field="diameter_m",
                within="working length",
            ),
        ),
    ),
    "tally": (
        "Board feet of the boards bought; with the wood named, the yield of that wood too.",
        (
            Key("wood", "text", '"European oak"', "Which wood; left out, the only one of the job.", STAYS),
            Key(
                "boards",
                "boards",
                '["5/4 x 7 1/2 in x 9 ft 8 in"]',
                "Thickness x width x length of each.",
                STAYS,
                within="stock thickness; width of a board; size of a part",
                needed=True,
            ),
        ),
    ),
}

WORKED: dict[str, Table] = {
    kind: Table(f'[[worked]] kind = "{kind}"', meaning, (*COMMON, *own))
    for kind, (meaning, own) in _KINDS.items()
}
"""What a [[worked]] table may hold, by its kind."""
