"""What shop.toml may hold, as data, as `keys` holds it of job.toml."""

from __future__ import annotations

from buildbook.job.shop_model import CARD_SIZES, VOICES
from buildbook.job.toml.key import BOTH, LETTER, PAGE, STAYS, Key, Leaves, Table
from buildbook.job.toml.keys import CLIMATE, MADE_AT
from buildbook.job.toml.owner_keys import GUARANTEE

CARD = Table(
    "[card]",
    "The printed care card.",
    (
        Key(
            "size", "choice", '"A6"', "The size it is trimmed to.", Leaves("effect", "no"), choices=CARD_SIZES
        ),
        Key(
            "bleed",
            "flag",
            "false",
            "With 3 mm of bleed and crop marks, for a print shop.",
            Leaves("effect", "no"),
        ),
    ),
)

ALLOWANCES = Table(
    "[allowances]",
    "What you add between a finished part and what you buy, where it is not what the trade usually adds.",
    (
        Key(
            "over_length",
            "length",
            '"25 mm"',
            "Added to the length of each part.",
            Leaves("no", "effect"),
            field="over_length_m",
            within="length allowance",
        ),
        Key(
            "over_width",
            "length",
            '"6 mm"',
            "Added to the width of each part.",
            Leaves("no", "effect"),
            field="over_width_m",
            within="width allowance",
        ),
        Key(
            "waste",
            "percent",
            "20",
            "Solid timber bought on top.",
            Leaves("no", "effect"),
            field="waste_pct",
            within="waste",
        ),
        Key(
            "sheet_waste",
            "percent",
            "10",
            "Sheet goods bought on top.",
            Leaves("no", "effect"),
            field="sheet_waste_pct",
            within="waste",
        ),
    ),
)

ESTIMATE = Table(
    "[estimate]",
    "How you quote. What is left out is not reckoned, and not said.",
    (
        Key(
            "contingency",
            "percent",
            "5",
            "Put by for what nobody foresaw, on materials and labour.",
            Leaves("no", "effect"),
            field="contingency_pct",
            within="share",
        ),
        Key(
            "overhead",
            "percent",
            "12",
            "Rent, tools and light, on materials and labour.",
            Leaves("no", "effect"),
            field="overhead_pct",
            within="share",
        ),
        Key(
            "margin",
            "percent",
            "15",
            "What is to be left of the price.",
            Leaves("no", "effect"),
            field="margin_pct",
            within="margin",
        ),
        Key("tax", "percent", "20", "Added to the price, and shown.", LETTER, "tax_pct", within="share"),
        Key(
            "tax_name", "text", '"VAT"', "What that tax is called; left out, as the country calls it.", LETTER
        ),
        Key(
            "tax_note",
            "text",
            '"No VAT is charged: a small trader’s rule."',
            "A sentence about tax for the letter, with or without a tax.",
            LETTER,
        ),
        Key(
            "voice",
            "choice",
            '"we"',
            "Who writes the letter: one maker, or several.",
            Leaves("no", "effect"),
            choices=VOICES,
        ),
        Key(
            "round_to",
            "amount",
            "10",
            "A price in the letter is rounded up to a whole number of these.",
            Leaves("no", "effect"),
            within="round step",
        ),
        Key("deposit", "percent", "30", "Paid with the order.", LETTER, "deposit_pct", within="share"),
        Key(
            "valid",
            "days",
            '"30 days"',
            "How long an offer holds.",
            Leaves("no", "effect"),
            "valid_days",
            within="validity",
        ),
        Key(
            "booked_until",
            "date",
            "2027-02-01",
            "The bench is taken until then; it gives the lead time.",
            Leaves("no", "effect"),
            within="day of a shop",
        ),
        Key(
            "week_hours",
            "number",
            "28",
            "Hours at the bench in a week.",
            Leaves("no", "effect"),
            within="hours of a week",
        ),
        Key("includes", "texts", '["a care book"]', "What every offer includes.", LETTER),
        Key("excludes", "texts", '["making good of walls"]', "What no offer includes.", LETTER),
        Key(
            "payment", "tables", "[[estimate.payment]]", "The payments after the deposit.", LETTER, "payments"
        ),
    ),
)

PAYMENT = Table(
    "[[estimate.payment]]",
    "A payment, one table each.",
    (
        Key("when", "text", '"before delivery"', "When it is due.", LETTER, needed=True),
        Key("share", "percent", "40", "Of the price.", LETTER, "share_pct", within="share", needed=True),
    ),
)

SHOP = Table(
    "",
    "The shop.",
    (
        Key("name", "text", '"…"', "The name of the shop.", BOTH),
        Key("maker", "text", '"…"', "Who makes the pieces.", BOTH),
        Key("address", "lines", '"…"', "The postal address.", BOTH),
        Key("email", "text", '"…"', "The electronic address for questions.", BOTH),
        Key("phone", "text", '"…"', "The telephone number.", BOTH),
        Key("web", "address", '"https://example.org"', "The shop's site.", BOTH),
        GUARANTEE,
        Key("country", "text", '"GB"', "The country that the shop is in.", Leaves("yes", "effect")),
        Key(
            "language",
            "text",
            '"en"',
            "The language that you write to clients in.",
            Leaves("effect", "effect"),
        ),
        Key(
            "units",
            "choice",
            '"mm"',
            "The unit of a bare number, where a job does not say.",
            Leaves("effect", "effect"),
            choices=("mm", "in"),
        ),
        Key(
            "both_systems",
            "flag",
            "true",
            "Whether the other system stands in brackets. Left out: as your country, or your language, measures.",
            Leaves("effect", "effect"),
        ),
        Key("currency", "text", '"EUR"', "The currency of every price, as three letters.", LETTER),
        Key("theme", "text", '"oilstone"', "The look of the pages.", Leaves("effect", "effect")),
        Key("themes_in_jobs", "flag", "false", "A theme that lies in a job folder may be used.", STAYS),
        Key(
            "pages_at",
            "address",
            '"https://example.org/pieces/"',
            "Where client's pages are put on the web.",
            PAGE,
        ),
        Key(
            "hour_rate",
            "amount",
            "55",
            "What an hour of work costs.",
            Leaves("no", "effect"),
            within="rate of an hour",
        ),
        Key(
            "stages",
            "texts",
            '["design", "milling", "joinery"]',
            "The kinds of work that hours are booked to.",
            STAYS,
        ),
        Key(
            "climate",
            "table",
            '{ rh_low = 30, rh_high = 60, temperature = "20 degC" }',
            CLIMATE.meaning,
            PAGE,
        ),
        Key(
            "made_at",
            "table",
            '{ rh = 45, temperature = "18 degC" }',
            MADE_AT.meaning,
            Leaves("effect", "no"),
        ),
        Key(
            "allowances", "table", "{ waste = 20 }", ALLOWANCES.meaning, Leaves("no", "effect"), field="waste"
        ),
        Key("card", "table", '{ size = "A6" }', CARD.meaning, Leaves("effect", "no")),
        Key(
            "estimate",
            "table",
            "{ contingency = 5, … }",
            ESTIMATE.meaning,
            Leaves("no", "effect"),
            field="quoting",
        ),
    ),
)

SHOP_TABLES = (SHOP, CLIMATE, MADE_AT, ALLOWANCES, CARD, ESTIMATE, PAYMENT)
