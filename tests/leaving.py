"""A job, its shop, parts and prices filled from the tables of keys and columns: every one of them has a value, and each
value can be turned into another. What leaves is judged by what changes, and by what can be read.

A key that is new is filled by how it reads, so nothing here lists them; only words that have to mean something to the
program are given (`MEANS`), and what must be left out where it hides others (`PLAIN`).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from pathlib import Path

from PIL import Image

from buildbook.job import adds_model, holding_model, log_model, model, photo_model, shop_model
from buildbook.job.believable import believable
from buildbook.job.photos.choices import FILE as CHOICES
from buildbook.job.table.headings import PARTS, PRICES
from buildbook.job.toml import keys, shop_keys
from buildbook.job.toml.key import BOTH, PAGE, STAYS, Key, Leaves, Table
from buildbook.job.toml.photo_keys import CHOSEN, PHOTO, PHOTO_TABLES
from buildbook.job.toml.working_keys import WORKED

CANARY = "Zqwx"


@dataclass(frozen=True)
class Place:
    """Where a key stands: its file, the heading of its table (empty for the top of a file, and for a column)."""

    file: str
    heading: str
    name: str

    def __str__(self) -> str:
        return f"{self.file} {self.heading} {self.name}".replace("  ", " ")


def _placed() -> Iterator[tuple[Place, Key]]:
    for file, tables in (
        ("job.toml", (*keys.JOB_TABLES, *WORKED.values())),
        ("shop.toml", shop_keys.SHOP_TABLES),
        (CHOICES, PHOTO_TABLES),
    ):
        for table in tables:
            for key in table.keys:
                yield Place(file, table.heading, key.name), key
    for file, columns in (("parts.csv", PARTS), ("prices.csv", PRICES)):
        for key in columns.values():
            yield Place(file, "", key.name), key


EVERY: dict[Place, Key] = dict(_placed())
HOLDS_OTHERS = ("table", "tables")
DECIDED = {place: key for place, key in EVERY.items() if key.reads not in HOLDS_OTHERS}
"""Whether a table leaves is what its keys say."""

FINISH_KEY = Place("job.toml", "[[finish]]", "key")
BOARD = Place("job.toml", '[[worked]] kind = "resaw"', "title")
LAYERS = Place("job.toml", '[[worked]] kind = "laminate"', "title")
LINKED = {
    BOARD: {Place("parts.csv", "", "working")},
    FINISH_KEY: {
        Place("parts.csv", "", "finish"),
        Place("job.toml", '[[worked]] kind = "coat count"', "finish"),
    },
}
"""A name that is given in one place and used in others: turned, it is turned in all of them."""

Values = Mapping[tuple[str, str, str], tuple[str, str]]
"""The two values of a key, by file, heading and name."""

MEANS: Values = {
    ("job.toml", "", "begun"): ("2025-11-16", "2025-12-18"),
    ("job.toml", "", "quantity"): ("37", "41"),
    ("job.toml", "", "stands"): ("wall", "ceiling"),
    ("job.toml", "", "goes_to"): ("GB", "NZ"),
    ("job.toml", "", "near"): ("stove", "radiator"),
    ("job.toml", "", "woods"): ("European oak", "black cherry"),
    ("job.toml", "", "stages"): ("turning", "glazing"),
    ("job.toml", "[[finish]]", "coats"): ("2026-03-20, 2026-03-25", "2026-04-23, 2026-05-24, 2026-06-24"),
    ("job.toml", "[[finish]]", "over"): ("Zqwxfinishother", "Zqwxfinishthird"),
    ("job.toml", "[[finish]]", "family"): ("hardwax-oil", "shellac"),
    ("job.toml", "[hanging.fastener]", "kind"): ("wood screw", "lag screw"),
    ("job.toml", "[hanging.wall]", "kind"): ("softwood studs", "Douglas fir studs"),
    ("job.toml", "[photos]", "lead"): ("photos/Zqwxlead.jpg", "photos/Zqwxsecond.jpg"),
    ("job.toml", "[photos]", "client"): ("photos/Zqwxsecond.jpg", "photos/Zqwxthird.jpg"),
    (CHOICES, "", "lead"): ("photos/Zqwxthird.jpg", "photos/Zqwxsecond.jpg"),
    (CHOICES, "", "instead_of"): ("photos/Zqwxlead.jpg", "photos/Zqwxsecond.jpg"),
    (CHOICES, "[[photo]]", "file"): ("photos/Zqwxsecond.jpg", "photos/Zqwxlead.jpg"),
    (CHOICES, "[[photo]]", "turn"): ("90", "180"),
    ("job.toml", '[[worked]] kind = "coat count"', "finish"): ("Zqwxfinishkeya", "Zqwxfinishkeyb"),
    ("job.toml", '[[worked]] kind = "tally"', "wood"): ("European oak", "European oak"),
    ("shop.toml", "", "country"): ("GB", "US"),
    ("shop.toml", "", "language"): ("en", "de"),
    ("shop.toml", "", "currency"): ("EUR", "CHF"),
    ("shop.toml", "", "theme"): ("oilstone", "sawbench"),
    ("shop.toml", "", "email"): ("zqwxemaila@example.org", "zqwxemailb@example.org"),
    ("parts.csv", "", "qty"): ("47", "53"),
    ("parts.csv", "", "kind"): ("wood", "panel"),
    ("parts.csv", "", "material"): ("European oak", "black cherry"),
    ("parts.csv", "", "stock"): ("40 mm", "60 mm"),
    ("job.toml", BOARD.heading, "title"): ("Zqwxboarda", "Zqwxboardb"),
    ("job.toml", BOARD.heading, "thickness"): ("8/4", "12/4"),
    ("job.toml", LAYERS.heading, "title"): ("Zqwxlayers", "Zqwxlayers"),
    ("job.toml", LAYERS.heading, "thickness"): ("8/4", "12/4"),
    ("parts.csv", "", "working"): ("Zqwxboarda", "Zqwxboardb"),
    ("parts.csv", "", "cut"): ("quarter", "flat"),
    ("parts.csv", "", "fit"): ("floating", "glued"),
    ("parts.csv", "", "opening"): ("560", "600"),
    ("parts.csv", "", "faces"): ("all", "none"),
    ("parts.csv", "", "finish"): ("Zqwxfinishkeya", "Zqwxfinishkeyb"),
    ("parts.csv", "", "country"): ("GB", "FR"),
    ("parts.csv", "", "per"): ("m3", "board_foot"),
    ("parts.csv", "", "client"): ("yes", "no"),
    ("prices.csv", "", "material"): ("European oak", "black cherry"),
    ("prices.csv", "", "per"): ("m3", "board_foot"),
    ("prices.csv", "", "date"): ("2026-02-01", "2024-02-01"),
}  # fmt: skip
"""Words that the program looks up, and another for each; the others are made by how a key reads."""


def _places(file: str, heading: str, *names: str) -> set[Place]:
    return {Place(file, heading, name) for name in names}


@dataclass(frozen=True)
class Base:
    """A job to turn single keys in: what it leaves out, since it hides others, and what it says otherwise. What is round
    has a diameter, what is not has sides; what is sawn out of a board takes its stock from there. `chosen`: it has a
    photos.toml, which hides what job.toml says of photos.
    """

    without: frozenset[Place] = frozenset()
    means: Values = field(default_factory=dict)
    shape: str = "square"
    chosen: bool = False

    def __post_init__(self) -> None:
        hidden = {
            "square": ("dia", "working"),
            "round": ("width", "thickness", "opening", "stock", "working"),
            "sawn": ("dia", "stock", "wall"),
        }
        sides = _places("parts.csv", "", *hidden[self.shape])
        chosen = set() if self.chosen else {place for place in EVERY if place.file == CHOICES}
        object.__setattr__(self, "without", self.without | sides | chosen)


BASES = {
    "whole": Base(frozenset(_places("job.toml", "", "delivery"))),
    "lean": Base(
        frozenset(
            _places("job.toml", "", "title", "page", "guarantee", "climate", "made_at", "units", "joints", "delivered")
            | _places("job.toml", "[hanging.wall]", "sg")
            | _places("job.toml", "[[finish]]", "product", "later_spread", "food_safe", "light_use_days", "full_cure_days", "refresh_months")
            | _places("parts.csv", "", "price", "per")
        ),
        {
            ("job.toml", "", "tags"): ("brass", "knife block"),
            ("job.toml", "", "doors"): ("0", "2"),
            ("parts.csv", "", "length"): ("1284 between shoulders", "1572 between shoulders"),
        },
    ),
    "workshop": Base(
        frozenset(_places("job.toml", "", "made_at", "delivery") | _places("shop.toml", "[made_at]", "moisture"))
    ),
    "round": Base(frozenset(_places("job.toml", "", "delivery") | _places("parts.csv", "", "mass")), shape="round"),
    "sawn": Base(frozenset(_places("job.toml", "", "delivery")), shape="sawn"),
    "laminated": Base(
        frozenset(_places("job.toml", "", "delivery")),
        {("parts.csv", "", "working"): ("Zqwxlayers", "Zqwxlayers"), ("parts.csv", "", "thickness"): ("18", "19")},
        shape="sawn",
    ),
    "chosen": Base(frozenset(_places("job.toml", "", "delivery", "photos") | _places("job.toml", "[photos]", *(key.name for key in keys.PHOTOS.keys)) | _places(CHOICES, "", "instead_of")), chosen=True),
    "chosen over": Base(frozenset(_places("job.toml", "", "delivery")), chosen=True),
    "abroad": Base(means={("parts.csv", "", "material"): ("cocobolo", "European oak")}),
    "odd": Base(
        frozenset(_places("job.toml", "", "delivery") | _places("job.toml", "[made_at]", "moisture") | _places("parts.csv", "", "price", "per", "mass")),
        {
            ("job.toml", "", "tags"): ("panelled doors", "slats"),
            ("job.toml", "", "piece"): ("cabinet", "bench"),
            ("job.toml", "", "joinery"): ("dovetails", "loose tenons"),
            ("job.toml", "", "woods"): ("Honduras mahogany", "European oak"),
            ("job.toml", "", "doors"): ("0", "2"),
            ("job.toml", "[[finish]]", "voc"): ("1 g/l", "400 g/l"),
            ("parts.csv", "", "material"): ("Honduras mahogany", "European oak"),
            ("parts.csv", "", "country"): ("BR", "HN"),
            ("parts.csv", "", "opening"): ("449.1", "500"),
            ("parts.csv", "", "note"): ("lacquered", "unlacquered"),
            ("prices.csv", "", "material"): ("Honduras mahogany", "European oak"),
            ("shop.toml", "", "country"): ("GB", "US"),
        },
    ),
}  # fmt: skip


def value(place: Place, turned: bool, base: Base = BASES["whole"]) -> str:
    """The value of a key as a maker writes it, without quotes: the one, or the other."""
    where = (place.file, place.heading, place.name)
    if means := base.means.get(where, MEANS.get(where)):
        return means[turned]
    return _plain(place, EVERY[place], turned)


def _plain(place: Place, key: Key, turned: bool) -> str:
    word = CANARY + re.sub(r"\W", "", f"{place.heading}{place.name}") + ("b" if turned else "a")
    match key.reads:
        case "text" | "lines" | "texts":
            return word
        case "address":
            return f"https://{word.lower()}.example/"
        case "pieces":
            return "1-5" if turned else "1-4"
        case "flag":
            return "true" if (key.example == "false") == turned else "false"
        case "choice" | "choices":
            return key.choices[turned]
        case "date" | "dates":
            first = date.fromisoformat(re.search(r"\d{4}-\d\d-\d\d", key.example)[0])
            return (first + timedelta(40 if turned else 0)).isoformat()
        case "loads":
            return f"{38 if turned else 29} kg {word}"
        case "sums":
            return f"width: {word} {38 if turned else 29}"
        case "boards" | "stock":
            return key.example.strip('[]"')
        case _:
            return _measured(key, turned)


def _measured(key: Key, turned: bool) -> str:
    """The number of an example made another, within what is believable; its unit stays."""
    number, unit = re.fullmatch(r'"?([\d.]+)\s*([^"]*)"?', key.example).groups()
    changed = float(number) * (1.31 if turned else 1.07)
    if "." not in number:
        changed = round(changed) + (2 if turned and float(number) < 20 else 0)
    known = believable(key.within.split("; ")[-1])
    if known.unit in ("each", "pct", "months", "d", "1"):
        changed = min(max(changed, float(known.least)), float(known.most))
    return f"{changed:.6g} {unit}".strip()


_BARE = ("number", "percent", "count", "amount", "angle")


def _toml(key: Key, plain: str) -> str:
    match key.reads:
        case "date" | "flag":
            return plain
        case "dates":
            return f"[{plain}]"
        case "texts" | "choices" | "boards" | "loads" | "sums":
            return f'["{plain}"]'
        case "solvent":
            return f'"{plain}"'
        case _ if key.reads in _BARE:
            return plain
        case _:
            return f'"{plain}"'


# -- files -------------------------------------------------------------------------------------------

Turned = frozenset[Place]


@dataclass(frozen=True)
class Job:
    """What is written: a base with some of its keys turned."""

    base: Base
    turned: Turned

    def lines(self, file: str, table: Table) -> list[str]:
        places = (
            (key, Place(file, table.heading, key.name)) for key in table.keys if key.reads not in HOLDS_OTHERS
        )
        return [
            f"{key.name} = {_toml(key, value(place, place in self.turned, self.base))}"
            for key, place in places
            if place not in self.base.without
        ]

    def row(self, file: str, columns: Mapping[str, Key], **own: str) -> str:
        places = {name: Place(file, "", name) for name in columns}
        cells = (
            "" if place in self.base.without else own.get(name, value(place, place in self.turned, self.base))
            for name, place in places.items()
        )
        return ",".join(f'"{cell}"' for cell in cells)


_OTHER_FINISH = ["[[finish]]", f'key = "{CANARY}finishother"', 'family = "soap"']
_OTHER_FINISH += ["[[finish]]", f'key = "{CANARY}finishthird"', 'family = "dye-stain"']
_BARE_ROW = dict.fromkeys(
    ("wall", "working", "stock", "cut", "fit", "opening", "finish", "origin", "country", "mass"), ""
)


def job_toml(job: Job) -> str:
    lines = job.lines("job.toml", keys.JOB)
    for table in keys.JOB_TABLES[1:]:
        name = re.search(r"\w+", table.heading)[0]
        if Place("job.toml", "", name) not in job.base.without:
            lines += [table.heading, *job.lines("job.toml", table)]
    for kind, table in WORKED.items():
        lines += ["[[worked]]", f'kind = "{kind}"', *job.lines("job.toml", table)[1:]]
    return "\n".join([*lines, *_OTHER_FINISH, ""])


def photos_toml(job: Job) -> str:
    """What is chosen of one of the pictures."""
    return "\n".join([*job.lines(CHOICES, CHOSEN), PHOTO.heading, *job.lines(CHOICES, PHOTO), ""])


def shop_toml(job: Job) -> str:
    lines = []
    for table in shop_keys.SHOP_TABLES:
        lines += [table.heading, *job.lines("shop.toml", table)]
    return "\n".join([*lines, ""])


def parts_csv(job: Job) -> str:
    """Wood, hardware and glass that have every column between them, and a wood that is hidden from the client."""
    hidden = {"part": f"{CANARY}hidden", "material": "black walnut", "client": "no", "kind": "wood"}
    rows = (
        job.row("parts.csv", PARTS),
        job.row("parts.csv", PARTS, **_BARE_ROW | {"part": "Pull", "kind": "hardware", "material": "brass pull", "mass": value(Place("parts.csv", "", "mass"), Place("parts.csv", "", "mass") in job.turned), "faces": "none", "per": "each", "client": "yes"}),
        job.row("parts.csv", PARTS, **_BARE_ROW | {"part": "Pane", "kind": "glass", "material": "float glass", "faces": "none", "per": "each", "client": "yes"}),
        job.row("parts.csv", PARTS, **_BARE_ROW | {"part": "Rail", "kind": "wood", "material": "European ash", "width": "30", "finish": f"{CANARY}finishother", "client": "yes", "faces": "all"}),
        job.row("parts.csv", PARTS, **_BARE_ROW | hidden),
    )  # fmt: skip
    return "\n".join((",".join(PARTS), *rows, ""))


def prices_csv(job: Job) -> str:
    product = value(Place("job.toml", "[[finish]]", "product"), False, job.base)
    rows = (
        job.row("prices.csv", PRICES),
        job.row("prices.csv", PRICES, date="2025-02-01", price="31"),
        job.row("prices.csv", PRICES, material=product, per="l", date="2026-02-01"),
    )
    return "\n".join((",".join(PRICES), *rows, ""))


FOLDER = f"2026-014-{CANARY}folder"


def lay(place: Path, base: Base = BASES["whole"], turned: Turned = frozenset()) -> Path:
    """A job folder with a shop of its own, every key of it written; its pictures are laid once."""
    folder = place / FOLDER
    (folder / "photos").mkdir(parents=True, exist_ok=True)
    also = frozenset(other for place in turned for other in LINKED.get(place, ()))
    job = Job(base, turned | also)
    (folder / "job.toml").write_text(job_toml(job))
    (folder / "shop.toml").write_text(shop_toml(job))
    (folder / CHOICES).unlink(missing_ok=True)
    if base.chosen:
        (folder / CHOICES).write_text(photos_toml(job))
    (folder / "parts.csv").write_text(parts_csv(job))
    (folder / "prices.csv").write_text(prices_csv(job))
    (folder / "notes.md").write_text(f"## 2026-03-02 {CANARY}entry\n\nHours: turning 3\n")
    for number, name in enumerate(("lead", "second", "third")):
        path = folder / "photos" / f"{CANARY}{name}.jpg"
        if not path.exists():
            Image.new("RGB", (60, 40), (number * 60, 90, 40)).save(path)
    return folder


# -- the fields of what is read ----------------------------------------------------------------------

_TABLES = (
    (keys.JOB, model.Job, {"finish": "finishes", "worked": "workings", "photos": "photos", "delivery": "deliveries"}),
    (keys.DELIVERY, model.Delivery, {}),
    (keys.PHOTOS, model.Job, {}),
    (keys.OVERALL, model.Size, {}),
    (keys.CLIMATE, shop_model.Climate, {}),
    (keys.MADE_AT, shop_model.MadeAt, {}),
    (keys.FINISH, model.Finish, {}),
    (keys.HANGING, holding_model.Hanging, {}),
    (keys.FASTENER, holding_model.Fastener, {}),
    (keys.WALL, holding_model.Wall, {}),
    (shop_keys.SHOP, shop_model.Shop, {}),
    (shop_keys.ALLOWANCES, shop_model.Allowances, {}),
    (shop_keys.CARD, shop_model.CardFormat, {}),
    (shop_keys.ESTIMATE, shop_model.Quoting, {}),
    (shop_keys.PAYMENT, shop_model.Payment, {}),
    (Table("parts.csv", "", tuple(PARTS.values())), model.Part, {"part": "name", "mass": "mass_kg", "client": "for_client"}),
    (Table("prices.csv", "", tuple(PRICES.values())), shop_model.Price, {"date": "day"}),
)  # fmt: skip
EFFECT = Leaves("effect", "effect")

OWN: dict[type, dict[str, Leaves]] = {
    model.Job: {
        "drawings": STAYS,
        "folder": STAYS, "lead_of_job_toml": STAYS, "aside": STAYS, "videos": STAYS, "parts": BOTH, "entries": PAGE, "quoted": STAYS, "shop": BOTH, "problems": STAYS,
    },
    model.Part: {"row": STAYS, "key": BOTH, "name_assumed": STAYS, "stated": BOTH, "finish_assumed": STAYS, "country_code": PAGE},
    model.Stock: {"written": STAYS, "thickness_m": Leaves("no", "effect"), "layers": Leaves("no", "effect")},
    holding_model.PlaceLoad: {"kg": PAGE, "place": PAGE},
    model.Board: {"thickness_m": STAYS, "width_m": STAYS, "length_m": STAYS},
    model.Working: {"kind": STAYS, "title": STAYS, "inputs": STAYS, "written": STAYS, "note": STAYS},
    log_model.Hours: {"stage": STAYS, "hours": STAYS},
    log_model.Passage: {"markdown": PAGE, "line": STAYS},
    log_model.Picture: {
        "name": STAYS, "caption": PAGE, "for_client": Leaves("effect", "no"), "line": STAYS, "reference": STAYS,
    },
    log_model.LogEntry: {
        "day": PAGE, "title": STAYS, "body": STAYS, "for_client": PAGE, "hours": STAYS, "pictures": PAGE, "file": STAYS,
        "line": STAYS, "marks": STAYS,
    },
    log_model.Mark: {"key": STAYS, "text": STAYS, "line": STAYS, "pictures": STAYS},
    adds_model.PartSize: {"part": STAYS, "dimension": STAYS},
    adds_model.Term: {"times": STAYS, "written": STAYS, "size": STAYS, "m": STAYS, "label": STAYS},
    adds_model.Add: {"words": STAYS, "size": STAYS, "terms": STAYS},
    photo_model.Video: dict.fromkeys(("name", "size", "taken", "timed", "day_from", "seconds", "frame", "facts"), STAYS),
    photo_model.VideoFacts: dict.fromkeys(photo_model.VideoFacts._fields, STAYS),
    photo_model.PhotoHeader: {"width": PAGE, "height": PAGE, "taken": PAGE},
    photo_model.Photo: {
        "name": STAYS, "path": STAYS, "width": PAGE, "height": PAGE, "taken": PAGE, "digest": PAGE, "caption": PAGE,
        "also": STAYS, "timed": STAYS, "day_from": STAYS, "turn": Leaves("effect", "no"), "content": STAYS, "header": STAYS,
        "of_video": STAYS,
    },
    shop_model.Shop: {"country_code": EFFECT, "prices": Leaves("no", "effect")},
    shop_model.CardFormat: {"booklet": Leaves("effect", "no")},
    shop_model.Price: {"row": STAYS},
    photo_model.DrawingFile: dict.fromkeys(("name", "path", "kind", "caption", "photo", "content"), STAYS),
    shop_model.CardFormat: {"booklet": Leaves("effect", "no")},
}  # fmt: skip
"""Fields that are no key and no column: what was made of one, or is read elsewhere (notes, photos, estimate.json)."""


def fields_decided() -> dict[type, dict[str, Leaves]]:
    """What may leave of each field of each record of a job and a shop."""
    found = {record: dict(own) for record, own in OWN.items()}
    for table, record, elsewhere in _TABLES:
        for key in table.keys:
            found.setdefault(record, {})[elsewhere.get(key.name, key.target)] = key.leaves
    return found
