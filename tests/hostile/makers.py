"""Job folders as hypothesis makes them: every key and column with what it should hold, the ends of what is believable,
and what nobody should write. From the tables that the readers read by, so that a new key is tried without being named.
"""

import csv
import io
import json
import re
from datetime import date, datetime, time

from hypothesis import strategies as st

from buildbook.job.believable import believable
from buildbook.job.signs import NO_SIGN
from buildbook.job.table.headings import PARTS, PRICES
from buildbook.job.toml import keys, shop_keys
from buildbook.job.toml.key import MEASURED
from buildbook.job.toml.working_keys import WORKED

SIGNS = st.sampled_from(
    [
        *'\n\r\t\x0b\x0c\x00\x07\x1b\x7f\x85\u2028\u2029\u200b\u202e\ufeff\ufffe\uffff,;:\\/"<>&#`*_[](){}|=+-@%^~€½山😀ع\u0301'
    ]
)
WORDS = st.one_of(
    st.sampled_from([
        "Oak", "Side", "</script><script>alert(1)</script>", "END:VEVENT\r\nBEGIN:VEVENT", "{{ 7 * 7 }}", "#let x = 1", "]]>",
        "../../etc/passwd", "=1+1", "%s%n", "a" * 300, "https://example.org/?a=1&b=2", "photos/a.jpg", "CON", ".", "-", "1e999",
    ]),
    st.text(max_size=30),
    st.text(SIGNS, max_size=12),
)  # fmt: skip
DAYS = st.one_of(
    st.dates(),
    st.sampled_from([date.min, date.max, date(1600, 1, 1), date(2199, 12, 31), date(2024, 2, 29), date(2026, 3, 2)]),
)  # fmt: skip
NUMBERS = st.sampled_from([
    "0", "1", "-1", "0.5", "1e400", "-1e400", "1e-400", "nan", "inf", "-inf", "9" * 49, "9" * 4400, "0x" + "f" * 5000,
    "1e9", "1e12", "1_000", "0.1234567890123456789012345678901234567890", "1e-999999", "-0.0", "3", "7", "40", "250",
])  # fmt: skip
UNITS = ["", " mm", " m", " in", " ft", "\"", " kg", " t", " g", " degC", " °F", " K", " m2/l", " g/l", " days", " weeks", " years", " h", "%"]  # fmt: skip
FILLED = [
    "</script>",
    "END:VEVENT\r\nBEGIN:VEVENT",
    "a;b,c\\n",
    "山😀ع",
    "a" * 300,
    "\u202e\u2028",
    "=1+1",
    "{{ 7 }}",
]
NAMES = WORDS.map(lambda text: f"{text} x")  # never blank
MEASURES = st.builds(str.__add__, NUMBERS, st.sampled_from(UNITS))
SI = {"m": " m", "kg": " kg", "degC": " degC", "m2/l": " m2/l", "g/l": " g/l", "d": " days", "deg": " deg"}


def toml_text(text):
    """A string of TOML, its signs escaped where it must be."""
    out = []
    for sign in text:
        plain = sign >= " " and sign not in '"\\\x7f'
        out.append(sign if plain else f"\\U{ord(sign):08x}")
    return f'"{"".join(out)}"'


def plain(text):
    return not re.search(
        "U00000(?:00[0-8bcef]|01|07f|08[0-46-9a-f]|09)|U0000fff[ef]", text
    ) and not NO_SIGN.search(text)


def tame(text):
    """A text that is read as it is; another where this one is told of."""
    return text if plain(text) else '"Oak"'


def ends(within):
    """The two ends of what is believable, as text, and a day or a number between them."""
    known = believable(within)
    if known.unit == "day":
        return st.sampled_from([known.least.isoformat(), known.most.isoformat(), "2026-03-02"])
    unit = SI.get(known.unit, "")
    return st.sampled_from([f"{known.least:.12f}{unit}", f"{known.most:.12f}{unit}"])


HOSTILE = st.one_of(
    NUMBERS,
    MEASURES.map(toml_text),
    WORDS.map(toml_text),
    DAYS.map(date.isoformat),
    st.builds(datetime.combine, DAYS, st.times()).map(lambda at: at.isoformat() + "+23:59"),
    st.times().map(time.isoformat),
    st.sampled_from(["true", "false", "[]", "{}", "[[]]", '["a"]', "{a = 1}", "[1, 2]", '[""]']),
)


FITTING = {
    "theme": ["oilstone", "sawbench"],
    "currency": ["EUR", "GBP", "JPY", "KWD"],
    "language": ["en", "de"],
    "country": ["GB", "DE", "Atlantis"],
    "email": ["workshop@example.org"],
    "finish": ["f0"],
    "over": ["f0"],
}
"""Keys whose words have a shape of their own."""


ORDERED = {
    "rh_low": ["0", "30"],
    "rh_high": ["60", "100"],
    "begun": ["1600-01-01", "2026-02-16"],
    "delivered": ["2199-12-31", "2026-04-11"],
    "wide": ['"20 m"'],
    "in_wall": ['"1 mm"'],
}
"""Keys that go with another."""


def value(key, wild):
    """What a key holds: as it should, at the ends of what is believable; `wild`, now and then anything."""
    if not wild and key.name in ORDERED:
        return st.sampled_from(ORDERED[key.name])
    if key.name in FITTING and key.reads == "text":
        right = st.sampled_from(FITTING[key.name]).map(toml_text)
        return st.one_of(right, right, right, HOSTILE) if wild else right
    right = [st.just(key.example)] if "…" not in key.example or key.reads in ("text", "lines") else []
    match key.reads:
        case "text" | "lines":
            right.append(
                (NAMES if key.needed else WORDS).map(toml_text).map(lambda text: text if wild else tame(text))
            )
        case "texts":
            texts = WORDS.map(toml_text).map(lambda text: text if wild else tame(text))
            right.append(st.lists(texts, max_size=4).map(lambda some: f"[{', '.join(some)}]"))
        case "choice":
            right.append(st.sampled_from(key.choices).map(toml_text))
        case "choices":
            right.append(st.just(f"[{', '.join(map(toml_text, key.choices))}]"))
        case "date":
            right.append(ends(key.within))
        case "dates":
            right.append(st.lists(ends(key.within), max_size=4).map(lambda some: f"[{', '.join(some)}]"))
        case "number" | "percent" | "count" | "amount":
            right.append(
                ends(key.within).map(lambda text: text.rstrip("0").rstrip(".") if "." in text else text)
            )
        case "flag":
            right.append(st.sampled_from(["true", "false"]))
        case "boards":
            right.append(st.just('["1 m x 3 m x 20 m", "0.3 mm x 5 mm x 0.5 mm"]'))
        case "loads":
            right.append(ends(key.within).map(lambda text: f'["{text} in each drawer"]'))
        case reads if reads in MEASURED:
            right.append(ends(key.within).map(toml_text))
    return st.one_of(*right, *right, *right, HOSTILE) if wild else st.one_of(*right)


@st.composite
def table(draw, spec, wild, often=0.4):
    """Lines of some keys of a table. Keys that hold tables are written by `toml`."""
    lines = []
    for key in spec.keys:
        if key.reads not in ("table", "tables") and (key.needed or draw(st.floats(0, 1)) < often):
            lines.append(f"{key.name} = {draw(value(key, wild))}")
    return lines


@st.composite
def toml(draw, wild, top, tables, many=()):
    """A whole file: the top, and each of the tables none, once, or `many` times."""
    lines = draw(table(top, wild))
    for spec in tables:
        if draw(st.booleans()):
            lines += [spec.heading, *draw(table(spec, wild, 0.7))]
    for spec in many:
        for _ in range(draw(st.integers(0, 2))):
            lines += [spec.heading, *draw(table(spec, wild, 0.7))]
    return "\n".join(lines) + "\n"


@st.composite
def job_toml(draw, wild):
    text = draw(
        toml(
            wild,
            keys.JOB,
            (keys.OVERALL, keys.CLIMATE, keys.MADE_AT, keys.PHOTOS, keys.HANGING),
        )
    )
    for number in range(2):
        fixed = ("key =", "family =", "over =") if number == 0 else ("key =", "family =")
        lines = [line for line in draw(table(keys.FINISH, wild, 0.6)) if not line.startswith(fixed)]
        family = draw(st.sampled_from(["hardwax-oil", "soap", "shellac", "unfinished", "polyurethane"]))
        text += "\n".join(["[[finish]]", f'key = "f{number}"', f'family = "{family}"', *lines]) + "\n"
    for kind in draw(st.lists(st.sampled_from(list(WORKED)), max_size=3)):
        lines = [line for line in draw(table(WORKED[kind], wild, 0.7)) if not line.startswith("kind =")]
        text += "\n".join(["[[worked]]", f'kind = "{kind}"', *lines]) + "\n"
    return text


def shop_toml(wild):
    tables = (keys.CLIMATE, keys.MADE_AT, shop_keys.ALLOWANCES, shop_keys.CARD, shop_keys.ESTIMATE)
    return toml(wild, shop_keys.SHOP, tables, (shop_keys.PAYMENT,))


# -- tables ------------------------------------------------------------------------------------------

CELLS = {
    "part": [*FILLED, "Side"],
    "kind": ["", ""],
    "material": ["European oak", "black walnut", "birch plywood", "float glass", "marble", "brass hinge", "cocobolo"],
    "length": ["0.5 mm", "20 m", "700 mm"],
    "width": ["0.5 mm", "20 m", "400 mm"],
    "thickness": ["0.05 mm", "300 mm", "19 mm"],
    "stock": ["1 m", ""],
    "opening": ["20 m", ""],
    "cut": ["flat", "rift", "quarter", ""],
    "faces": ["all", "faces", "one face", "edges", "none", ""],
    "price": ["0", "10000000000", "12.3456789012", "3"],
    "per": ["board_foot", "m3", "m2", "each", "sheet", "l", "kg", "m"],
    "client": ["yes", "no", ""],
    "finish": ["f0", "f1", ""],
    "country": ["GB", "Atlantis", ""],
    "fit": ["floating", "glued", ""],
    "mass": ["0.01 g", "5 t", ""],
    "date": ["1900-01-01", "2199-12-31", ""],
    "qty": ["1", "1000000", "3"],
    "dia": ["", ""],
    "tenons": ["", ""],
    "working": ["", ""],
}  # fmt: skip
"""Cells as they should be: both ends of what is believable, and what is usual."""


def cell(name, wild):
    right = st.sampled_from(CELLS[name]) if name in CELLS else WORDS
    return st.one_of(right, right, right, MEASURES, WORDS) if wild else right


@st.composite
def csv_of(draw, wild, columns, most=6):
    """A table with some of its columns; cells in quotes where they must be."""
    heads = [name for name in columns if draw(st.integers(0, 9)) or not wild]
    out = io.StringIO()
    writer = csv.writer(
        out, delimiter=draw(st.sampled_from(",;\t")), lineterminator=draw(st.sampled_from(["\n", "\r\n"]))
    )
    writer.writerow(heads)
    for _ in range(draw(st.integers(0, most))):
        writer.writerow([draw(cell(name, wild)).replace("\0", "") for name in heads])
    return out.getvalue()


# -- notes, estimates --------------------------------------------------------------------------------

LINES = st.one_of(
    DAYS.map(lambda day: f"## {day.isoformat()} Day"),
    ends("day of work").map(lambda day: f"## {day} Day"),
    st.sampled_from([
        "### For the client", "### Notes", "Setting: 12 mm", "Mistake: cut wrong", "Next time: slower", "![a](photos/a.jpg)",
        "| a | b |\n|---|---|\n| 1 | 2 |", "```\ncode", "> quote", "1. one\n2. two", "<b>x</b>", "<!-- gone", "[a](javascript:x)",
        "[x]: http://example.org/ 'y'", "---", "***a*** _b_ `c`", "Hours:", "",
    ]),
    st.builds("Hours: {} {}".format, st.sampled_from(["joinery", "milling", "a&b", "山"]), st.one_of(NUMBERS, MEASURES, ends("booked hours"))),
    WORDS,
)  # fmt: skip
TAME = st.one_of(
    ends("day of work").map(lambda day: f"## {day} Day"),
    st.sampled_from(["### For the client", "Setting: 12 mm", "Hours: joinery 20000", "Hours: milling 0:06", "| a |\n|---|\n| 1 |"]),
    st.sampled_from(["<b>x</b>", "[a](javascript:x)", "[x]: http://example.org/ 'y'", "***a*** _b_ `c`", "> quote", "1. one\n2. two"]),
    WORDS.map(lambda text: f"x {text}".replace("\r", "\n")),
)  # fmt: skip


def notes(wild):
    return st.lists(LINES if wild else TAME, max_size=14).map("\n\n".join)


LEAVES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(allow_nan=False),
    WORDS,
    st.just("\ud800"),
    st.just(10**9),
)
FIGURES = st.one_of(st.integers(0, 10**6), st.floats(0, 1e6), LEAVES)


@st.composite
def estimate_json(draw):
    def ranged(*names):
        return {name: draw(FIGURES) for name in names if draw(st.floats(0, 1)) < 0.9}

    def spread(*names):
        low = draw(st.integers(0, 10**6))
        return (
            dict(zip(names, (low, low * 2, low * 4), strict=True)) if draw(st.booleans()) else ranged(*names)
        )

    in_hours = ("low_h", "median_h", "high_h")
    stages = [
        {"stage": draw(WORDS), "driver": draw(WORDS), "from_jobs": draw(FIGURES), **spread(*in_hours)}
        for _ in range(draw(st.integers(0, 3)))
    ]
    facts = {
        "schema": 1,
        "hours": {"by_stage": stages, **spread(*in_hours)},
        "materials": {"amount": draw(FIGURES), "currency": draw(WORDS)},
        "price": {"currency": draw(st.one_of(st.just("EUR"), WORDS)), **spread("low", "median", "high")},
    }
    for name in list(facts):
        if draw(st.floats(0, 1)) < 0.15:
            facts[name] = draw(LEAVES)
    return json.dumps(facts)


@st.composite
def folders(draw, wild):
    """The files of a job and of the shop around it, by name: each as it should be, or `wild`, with anything in it."""
    written = draw(notes(wild))
    files = {
        "job/job.toml": draw(job_toml(wild)),
        "job/parts.csv": draw(csv_of(wild, PARTS)),
        "job/notes.md": written if wild else f"## 2026-03-02 Day\n\n{written}",
        "shop.toml": draw(shop_toml(wild)),
        "prices.csv": draw(csv_of(wild, PRICES, 3)),
        "job/estimate.json": draw(estimate_json()),
    }
    may_lack = [name for name in files if name not in ("job/job.toml", "job/notes.md")]
    left_out = draw(st.sets(st.sampled_from(may_lack), max_size=2))
    return {name: text for name, text in files.items() if name not in left_out}
