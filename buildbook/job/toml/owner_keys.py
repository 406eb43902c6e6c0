"""What job.toml may say of a piece for those who live with it for decades, as data: what it carries, how it comes
apart, where a hole may go, what is guaranteed. The shop may say the last for all its pieces.
"""

from __future__ import annotations

from buildbook.job.toml.key import PAGE, Key

GUARANTEE = Key(
    "guarantee",
    "lines",
    '"two years on the joints"',
    "What you guarantee, in your own words; a job says it for its piece, the shop for all of them.",
    PAGE,
)

OWNER: tuple[Key, ...] = (
    Key(
        "loads",
        "loads",
        '["15 kg in each drawer", "10 kg on the glass shelf"]',
        "What each place carries: the mass first, then where, and whether it is for each.",
        PAGE,
        within="load",
    ),
    Key(
        "comes_apart",
        "texts",
        '["take out the drawers", "undo the four bolts of the stand, 5 mm key"]',
        "How it comes apart, a step each: what is undone first stands first.",
        PAGE,
    ),
    Key(
        "may_drill",
        "lines",
        '"the plywood back, in the middle"',
        "Where a hole for a cable may go; left out, the owner is told to ask you.",
        PAGE,
    ),
    GUARANTEE,
)
