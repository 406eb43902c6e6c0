"""What job.toml may hold, as data: each key, how it is read, an example, what it means (shop.toml: `shop_keys`).

The readers take every key by its entry here, and the key tables of the README are made from it, so that a key
that is read is a key that is explained.
"""

from __future__ import annotations

from buildbook.job.key import OUT, Key, Table
from buildbook.job.model import STANDS

NEAR = ("radiator", "stove", "window", "sun", "underfloor heating", "vent", "kitchen", "bathroom")
"""What may stand near a piece and matters to its wood and finish."""

OVERALL = Table(
    "[overall]",
    "The outer sizes of the piece.",
    (
        Key("width", "length", '"1200 mm"', "From left to right.", OUT, within="size of a piece"),
        Key("depth", "length", '"420 mm"', "From front to back.", OUT, within="size of a piece"),
        Key(
            "height",
            "length",
            '"700 mm"',
            "From the floor, or from its lowest edge, to the top.",
            OUT,
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
            OUT,
            "rh_low_pct",
            within="humidity",
            needed=True,
        ),
        Key(
            "rh_high",
            "percent",
            "60",
            "Relative humidity in the dampest season.",
            OUT,
            "rh_high_pct",
            within="humidity",
            needed=True,
        ),
        Key(
            "temperature",
            "temperature",
            '"20 degC"',
            "The usual temperature.",
            OUT,
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
            OUT,
            "moisture_pct",
            within="wood moisture",
        ),
        Key("rh", "percent", "45", "Relative humidity of the workshop.", OUT, "rh_pct", within="humidity"),
        Key(
            "temperature",
            "temperature",
            '"18 degC"',
            "Temperature of the workshop.",
            OUT,
            "temperature_c",
            within="room temperature",
        ),
    ),
)

FINISH = Table(
    "[[finish]]",
    "The finish schedule, one table a finish. What it leaves out is taken from the family.",
    (
        Key("key", "text", '"body"', "A short name; parts.csv says it in its column `finish`.", needed=True),
        Key("family", "text", '"hardwax-oil"', "The family of the finish.", OUT, needed=True),
        Key("product", "text", '"clear satin hardwax oil"', "What it is, as the client should read it.", OUT),
        Key("coats", "dates", "[2026-03-20, 2026-03-21]", "The day of each coat.", OUT, within="day of work"),
        Key(
            "spread",
            "spread",
            '"24 m2/l"',
            "What a litre covers in one coat.",
            field="spread_m2_per_l",
            within="spread",
        ),
        Key(
            "voc",
            "solvent",
            '"350 g/l"',
            "Solvent in it, off the tin.",
            field="voc_g_per_l",
            within="solvent content",
        ),
        Key(
            "light_use_days",
            "days",
            "1",
            "From the last coat until it may be used with care.",
            OUT,
            within="waiting days",
        ),
        Key(
            "full_cure_days",
            "days",
            '"3 weeks"',
            "From the last coat until it is fully hard.",
            OUT,
            within="waiting days",
        ),
        Key("refresh_months", "count", "24", "How often to renew it.", OUT, within="renewal months"),
        Key("two_part", "flag", "false", "Mixed from two parts before use.", OUT),
        Key("food_safe", "flag", "true", "Its maker states that it suits contact with food once cured.", OUT),
        Key("note", "lines", '"thinned the first coat"', "For yourself."),
    ),
)

FASTENER = Table(
    "[hanging.fastener]",
    "What holds the piece to the wall.",
    (
        Key("kind", "text", '"wood screw"', "What it is.", OUT, needed=True),
        Key(
            "diameter",
            "length",
            '"5 mm"',
            "Across the shank.",
            OUT,
            "diameter_m",
            within="fastener diameter",
            needed=True,
        ),
        Key(
            "length",
            "length",
            '"70 mm"',
            "From under the head to the point.",
            OUT,
            "length_m",
            within="fastener length",
            needed=True,
        ),
        Key(
            "in_wall",
            "length",
            '"45 mm"',
            "How much of it bites into the wall.",
            OUT,
            "in_wall_m",
            within="fastener length",
            needed=True,
        ),
        Key("count", "count", "6", "How many.", OUT, within="fasteners", needed=True),
    ),
)

WALL = Table(
    "[hanging.wall]",
    "The wall that it was hung on, or that it is meant for.",
    (
        Key("kind", "text", '"softwood studs"', "What the fixings go into.", OUT, needed=True),
        Key(
            "sg",
            "number",
            "0.42",
            "Specific gravity of that wood.",
            OUT,
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
            OUT,
            needed=True,
        ),
        Key(
            "pull_height",
            "length",
            '"600 mm"',
            "From the fixings down to the lower bearing edge.",
            OUT,
            "pull_height_m",
            within="size of a piece",
        ),
        Key("fastener", "table", '{ kind = "wood screw", … }', FASTENER.meaning, OUT),
        Key("wall", "table", '{ kind = "softwood studs", sg = 0.42 }', WALL.meaning, OUT),
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
            OUT,
        ),
        Key(
            "client", "texts", '["photos/finished/open.jpg"]', "More that may be shown.", OUT, "client_photos"
        ),
    ),
)

JOB = Table(
    "",
    "The facts of the job.",
    (
        Key("number", "text", '"2026-014"', "Your number for the job; it identifies the piece.", OUT),
        Key("title", "text", '"Record cabinet"', "What you call the piece.", OUT),
        Key("piece", "text", '"cabinet"', "What kind of piece it is: table, chair, bench, shelf, box …", OUT),
        Key("units", "choice", '"mm"', "The unit of a bare number.", OUT, choices=("mm", "in")),
        Key("client", "lines", '"…"', "Who it is for."),
        Key(
            "begun",
            "date",
            "2026-02-16",
            "The day that work began; leave it out of an enquiry.",
            OUT,
            within="day of work",
        ),
        Key("delivered", "date", "2026-04-11", "The day that it was handed over.", OUT, within="day of work"),
        Key("overall", "table", '{ width = "1200", depth = "420", height = "700" }', OVERALL.meaning, OUT),
        Key("tags", "texts", '["sliding doors", "brass"]', "Words to find it by."),
        Key("joinery", "texts", '["half-blind dovetail"]', "How it is joined.", OUT),
        Key("stands", "choice", '"floor"', "What carries it.", OUT, choices=STANDS),
        Key("contents", "mass", '"60 kg"', "What it will carry.", OUT, "contents_kg", within="load"),
        Key(
            "climate", "table", '{ rh_low = 30, rh_high = 60, temperature = "20 degC" }', CLIMATE.meaning, OUT
        ),
        Key("made_at", "table", "{ moisture = 8.0 }", MADE_AT.meaning, OUT),
        Key("price", "amount", "4850", "What the client pays.", within="price"),
        Key(
            "marks",
            "lines",
            '"branded and dated inside the left door"',
            "How to know that it is this piece.",
            OUT,
        ),
        Key("features", "texts", '["both doors are cut from one board"]', "What no other piece has.", OUT),
        Key("use", "lines", '"indoors, at home"', "What it is meant for.", OUT),
        Key("description", "lines", '"A low cabinet with two doors …"', "The piece in a few sentences.", OUT),
        Key("fitting", "lines", '"Stands on four levelling feet …"', "How it is set up or fitted.", OUT),
        Key("adjusting", "lines", '"The hinges turn …"', "What can be adjusted, and how.", OUT),
        Key("limits", "texts", '["no more than 15 kg a shelf"]', "What it must not be asked to do.", OUT),
        Key("near", "choices", '["radiator", "window"]', "What it stands near.", OUT, choices=NEAR),
        Key("crosses_border", "flag", "false", "It goes to another country.", OUT),
        Key("food", "flag", "false", "Food touches it.", OUT),
        Key("children", "flag", "false", "Small children live with it.", OUT),
        Key("doors", "count", "2", "How many doors it has.", OUT, within="doors and drawers"),
        Key("drawers", "count", "0", "How many drawers it has.", OUT, within="doors and drawers"),
        Key(
            "joints",
            "count",
            "24",
            "How many joints it has; left out, counted from the parts.",
            within="joints",
        ),
        Key(
            "woods",
            "texts",
            '["European oak"]',
            "For an enquiry without parts: its woods, the main first.",
            OUT,
        ),
        Key("stages", "texts", '["turning"]', "For an enquiry: kinds of work that its parts do not tell."),
        Key(
            "includes",
            "texts",
            '["delivery and fitting"]',
            "For the letter of an estimate: what is included.",
            OUT,
        ),
        Key(
            "excludes", "texts", '["the wiring"]', "For the letter of an estimate: what is not included.", OUT
        ),
        Key(
            "page",
            "address",
            '"https://example.org/2026-014/"',
            "Where the client's page will be; the card points there.",
            OUT,
        ),
        Key("finish", "tables", "[[finish]]", FINISH.meaning, OUT),
        Key("hanging", "table", '{ method = "cleat", … }', HANGING.meaning, OUT),
        Key("worked", "tables", "[[worked]]", "Workings that belong in the record."),
        Key("photos", "table", '{ lead = "photos/front.jpg" }', PHOTOS.meaning, OUT),
    ),
)

JOB_TABLES = (JOB, OVERALL, CLIMATE, MADE_AT, FINISH, HANGING, FASTENER, WALL, PHOTOS)
