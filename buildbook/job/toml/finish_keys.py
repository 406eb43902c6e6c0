"""What a [[finish]] of job.toml may hold, as data."""

from __future__ import annotations

from buildbook.job.model import WEARS
from buildbook.job.toml.key import BOTH, PAGE, STAYS, Key, Leaves, Table

FINISH = Table(
    "[[finish]]",
    "The finish schedule, one table a finish. What it leaves out is taken from the family.",
    (
        Key(
            "key",
            "text",
            '"body"',
            "A short name; parts.csv says it in its column `finish`.",
            STAYS,
            needed=True,
        ),
        Key("family", "text", '"hardwax-oil"', "The family of the finish.", BOTH, needed=True),
        Key(
            "product", "text", '"clear satin hardwax oil"', "What it is, as the client should read it.", BOTH
        ),
        Key("sheen", "text", '"satin, 20"', "How much it shines, as it stands on the tin.", PAGE),
        Key("batch", "text", '"4711"', "The batch of the tin, for yourself: it stays in the log.", STAYS),
        Key(
            "over",
            "text",
            '"stain"',
            "The key of the finish beneath it on the same parts; parts.csv names the top one.",
            Leaves("effect", "effect"),
        ),
        Key(
            "coats",
            "dates",
            "[2026-03-20, 2026-03-21]",
            "The day of each coat.",
            Leaves("yes", "effect"),
            within="day of work",
        ),
        Key(
            "spread",
            "spread",
            '"24 m2/l"',
            "What a litre covers in one coat.",
            Leaves("effect", "effect"),
            field="spread_m2_per_l",
            within="spread",
        ),
        Key(
            "later_spread",
            "spread",
            '"35 m2/l"',
            "What a litre covers in a coat after the first, where that goes farther.",
            Leaves("effect", "effect"),
            field="later_m2_per_l",
            within="spread",
        ),
        Key(
            "voc",
            "solvent",
            '"350 g/l"',
            "Solvent in it, off the tin.",
            Leaves("effect", "no"),
            field="voc_g_per_l",
            within="solvent content",
        ),
        Key(
            "light_use_days",
            "days",
            "1",
            "From the last coat until it may be used with care.",
            Leaves("effect", "no"),
            within="waiting days",
        ),
        Key(
            "full_cure_days",
            "days",
            '"3 weeks"',
            "From the last coat until it is fully hard.",
            Leaves("effect", "no"),
            within="waiting days",
        ),
        Key(
            "refresh_months",
            "count",
            "24",
            "How often to renew it.",
            Leaves("effect", "no"),
            within="renewal months",
        ),
        Key(
            "wear",
            "choice",
            '"daily"',
            "How it is handled, which says how soon it is renewed; left out, by the piece and its parts.",
            Leaves("effect", "no"),
            choices=WEARS,
        ),
        Key("two_part", "flag", "false", "Mixed from two parts before use.", STAYS),
        Key(
            "food_safe",
            "flag",
            "true",
            "Its maker states that it suits contact with food once cured.",
            Leaves("effect", "effect"),
        ),
        Key("exterior", "flag", "true", "Its maker sells it for outdoors.", STAYS),
        Key("note", "lines", '"thinned the first coat"', "For yourself.", STAYS),
    ),
)
