"""What job.toml may hold, as data: each key, how it is read, an example, what it means (shop.toml: `shop_keys`).

The readers take every key by its entry here, and the key tables of the README are made from it, so that a key
that is read is a key that is explained.
"""

from __future__ import annotations

from buildbook.job.model import STANDS
from buildbook.job.toml.adds import EXAMPLE
from buildbook.job.toml.finish_keys import FINISH
from buildbook.job.toml.hanging_keys import FASTENER, HANGING, WALL
from buildbook.job.toml.key import BOTH, LETTER, PAGE, STAYS, Key, Leaves, Table
from buildbook.job.toml.owner_keys import OWNER
from buildbook.job.toml.set_keys import DELIVERY, SET

NEAR = (
    "radiator", "heater", "underfloor heating", "vent", "stove", "fireplace", "hob", "oven", "window", "sun",
    "conservatory", "kitchen", "sink", "bathroom", "laundry", "cellar",
)  # fmt: skip
"""What may stand near a piece and matters to its wood and finish."""

OVERALL = Table(
    "[overall]",
    "The outer sizes of the piece.",
    (
        Key("width", "length", '"1200 mm"', "From left to right.", BOTH, within="size of a piece"),
        Key("depth", "length", '"420 mm"', "From front to back.", BOTH, within="size of a piece"),
        Key(
            "height",
            "length",
            '"700 mm"',
            "From the floor, or from its lowest edge, to the top.",
            BOTH,
            within="size of a piece",
        ),
    ),
)

CLIMATE = Table(
    "[climate]",
    "The air of the rooms where the piece will stand, over a year.",
    (
        Key(
            "rh_low",
            "percent",
            "30",
            "Relative humidity in the driest season.",
            PAGE,
            "rh_low_pct",
            within="humidity",
            needed=True,
        ),
        Key(
            "rh_high",
            "percent",
            "60",
            "Relative humidity in the dampest season.",
            PAGE,
            "rh_high_pct",
            within="humidity",
            needed=True,
        ),
        Key(
            "temperature",
            "temperature",
            '"20 degC"',
            "The usual temperature.",
            Leaves("effect", "no"),
            "temperature_c",
            within="room temperature",
            needed=True,
        ),
    ),
)

MADE_AT = Table(
    "[made_at]",
    "The state of the wood when it was worked: a meter's reading, or the air of the workshop.",
    (
        Key(
            "moisture",
            "percent",
            "8.0",
            "What the moisture meter read.",
            Leaves("effect", "no"),
            "moisture_pct",
            within="wood moisture",
            between=True,  # a meter reads each board otherwise
        ),
        Key(
            "rh",
            "percent",
            "45",
            "Relative humidity of the workshop.",
            Leaves("effect", "no"),
            "rh_pct",
            within="humidity",
        ),
        Key(
            "temperature",
            "temperature",
            '"18 degC"',
            "Temperature of the workshop.",
            Leaves("effect", "no"),
            "temperature_c",
            within="room temperature",
        ),
    ),
)

PHOTOS = Table(
    "[photos]",
    "Photos that the client may see, beside those in a passage for the client.",
    (
        Key(
            "lead",
            "text",
            '"photos/finished/front.jpg"',
            "The picture at the head of the client's page.",
            Leaves("effect", "no"),
        ),
        Key(
            "client",
            "texts",
            '["photos/finished/open.jpg"]',
            "More that may be shown.",
            Leaves("effect", "no"),
            "client_photos",
        ),
    ),
)

UNITS = Key(
    "units", "choice", '"mm"', "The unit of a bare number.", Leaves("effect", "effect"), choices=("mm", "in")
)

JOB = Table(
    "",
    "The facts of the job.",
    (
        Key("number", "text", '"2026-014"', "Your number for the job; it identifies the piece.", BOTH),
        Key("title", "text", '"Record cabinet"', "What you call the piece.", BOTH),
        Key(
            "piece", "text", '"cabinet"', "What kind of piece it is: table, chair, bench, shelf, box …", BOTH
        ),
        UNITS,
        Key("client", "lines", '"…"', "Who it is for.", LETTER),
        Key(
            "begun",
            "date",
            "2026-02-16",
            "The day that work began; leave it out of an enquiry.",
            PAGE,
            within="day of work",
        ),
        Key(
            "delivered", "date", "2026-04-11", "The day that it was handed over.", PAGE, within="day of work"
        ),
        *SET,
        Key("overall", "table", '{ width = "1200", depth = "420", height = "700" }', OVERALL.meaning, BOTH),
        Key(
            "tags", "texts", '["sliding doors", "brass"]', "Words to find it by.", Leaves("effect", "effect")
        ),
        Key("joinery", "texts", '["half-blind dovetail"]', "How it is joined.", BOTH),
        Key("stands", "choice", '"floor"', "What carries it.", Leaves("yes", "effect"), choices=STANDS),
        Key("contents", "mass", '"60 kg"', "What it will carry.", BOTH, "contents_kg", within="load"),
        Key(
            "climate",
            "table",
            '{ rh_low = 30, rh_high = 60, temperature = "20 degC" }',
            CLIMATE.meaning,
            PAGE,
        ),
        Key("made_at", "table", "{ moisture = 8.0 }", MADE_AT.meaning, Leaves("effect", "no")),
        Key("price", "amount", "4850", "What the client pays, for all pieces.", STAYS, within="price"),
        Key(
            "marks",
            "lines",
            '"branded and dated inside the left door"',
            "How to know that it is this piece.",
            PAGE,
        ),
        Key("features", "texts", '["both doors are cut from one board"]', "What no other piece has.", PAGE),
        Key("use", "lines", '"indoors, at home"', "What it is meant for.", BOTH),
        Key(
            "description", "lines", '"A low cabinet with two doors …"', "The piece in a few sentences.", BOTH
        ),
        Key("fitting", "lines", '"Stands on four levelling feet …"', "How it is set up or fitted.", BOTH),
        Key("adjusting", "lines", '"The hinges turn …"', "What can be adjusted, and how.", PAGE),
        Key("limits", "texts", '["nobody may sit on it"]', "What it must not be asked to do.", PAGE),
        *OWNER,
        Key(
            "adds",
            "sums",
            f'["{EXAMPLE}"]',
            "Sums that must come out: first the size (of the piece, or `Part length`, `width`, `thickness`,"
            " `between shoulders`), then what adds up to it. The log shows each with its difference.",
            STAYS,
        ),
        Key(
            "near",
            "choices",
            '["radiator", "window"]',
            "What it stands near.",
            Leaves("yes", "effect"),
            choices=NEAR,
        ),
        Key("crosses_border", "flag", "false", "It goes to another country.", Leaves("effect", "effect")),
        Key(
            "goes_to",
            "text",
            '"NZ"',
            "The country where it will stand, if not the shop's: its seasons are meant.",
            Leaves("effect", "no"),
            "goes_to_code",
        ),
        Key("food", "flag", "false", "Food touches it.", Leaves("effect", "effect")),
        Key("children", "flag", "false", "Small children live with it.", Leaves("effect", "no")),
        Key(
            "doors",
            "count",
            "2",
            "How many doors it has.",
            Leaves("effect", "effect"),
            within="doors and drawers",
        ),
        Key(
            "drawers",
            "count",
            "0",
            "How many drawers it has.",
            Leaves("effect", "effect"),
            within="doors and drawers",
        ),
        Key(
            "joints",
            "count",
            "24",
            "How many joints it has; left out, counted from the parts.",
            Leaves("no", "effect"),
            within="joints",
        ),
        Key(
            "woods",
            "texts",
            '["European oak"]',
            "For an enquiry without parts: its woods, the main first.",
            LETTER,
        ),
        Key(
            "stages",
            "texts",
            '["turning"]',
            "For an enquiry: kinds of work that its parts do not tell.",
            Leaves("no", "effect"),
        ),
        Key(
            "includes",
            "texts",
            '["delivery and fitting"]',
            "For the letter of an estimate: what is included.",
            LETTER,
        ),
        Key(
            "excludes",
            "texts",
            '["the wiring"]',
            "For the letter of an estimate: what is not included.",
            LETTER,
        ),
        Key(
            "page",
            "address",
            '"https://example.org/2026-014/"',
            "Where the client's page will be; the card points there.",
            PAGE,
        ),
        Key("finish", "tables", "[[finish]]", FINISH.meaning, BOTH),
        Key("hanging", "table", '{ method = "cleat", … }', HANGING.meaning, Leaves("effect", "effect")),
        Key("worked", "tables", "[[worked]]", "Workings that belong in the record.", STAYS),
        Key("photos", "table", '{ lead = "photos/front.jpg" }', PHOTOS.meaning, Leaves("effect", "no")),
    ),
)

JOB_TABLES = (JOB, DELIVERY, OVERALL, CLIMATE, MADE_AT, FINISH, HANGING, FASTENER, WALL, PHOTOS)
