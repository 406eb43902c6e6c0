"""What makers write without thinking comes to what they mean, or is asked about in words that help:
tests/data/natural_spellings.csv, a spelling a row, each in a whole small job of its own.
"""

import csv
from datetime import date
from pathlib import Path

import pytest

from buildbook.job import read_job
from tests.conftest import ROOT

LIST = ROOT / "tests" / "data" / "natural_spellings.csv"
LINES = (line for line in LIST.read_text("utf-8").splitlines() if not line.startswith("#"))
CASES = list(csv.DictReader(LINES, delimiter="|", quoting=csv.QUOTE_NONE))
SHOPS = {
    "en mm": ("GB", "GBP"),
    "en in": ("US", "USD"),
    "en-US in": ("US", "USD"),
    "de mm": ("DE", "EUR"),
    "de in": ("DE", "EUR"),
}
STAGES = {"en": '["milling", "joinery", "finishing"]', "de": '["Zuschnitt", "Verbindungen", "Oberfläche"]'}
MATERIALS = {"wood": "oak", "panel": "birch plywood", "glass": "float glass", "hardware": "brass hinge"}
SIZED = ("wood", "panel", "glass")
HEAD = "part,qty,kind,material,length,width,thickness,stock,faces,finish,country,mass,price,per,client"
OWN_UNITS = {"mm": ("900", "80", "20"), "in": ("36", "3", "3/4")}


def small_job(folder: Path, case: dict[str, str]):
    """A job that says what the case says where the case says it, and nothing that is wrong beside."""
    where, kind = [*case["where"].split(" "), ""][:2]
    file, key = where.split(".", 1)
    written, units, language = case["written"], case["units"], case["language"]
    (folder / "job").mkdir(parents=True)
    (folder / "shop.toml").write_text(_shop(case, file, key), "utf-8")
    (folder / "job" / "job.toml").write_text(_job(file, key, written, units), "utf-8")
    if file == "parts":
        (folder / "job" / "parts.csv").write_text(_parts(key, kind, written, units, language), "utf-8")
    if file == "prices":
        row = {"material": "oak", "price": "12", "per": "each", key: written}
        if key == "price":
            row["per"] = ""
        head = ["material", "price", "per", "date"]
        (folder / "prices.csv").write_text(_table([head, [row.get(c, "") for c in head]], language), "utf-8")
    (folder / "job" / "notes.md").write_text(_notes(key if file == "notes" else "", written), "utf-8")
    return read_job(folder / "job")


def _shop(case, file, key):
    country, currency = SHOPS[f"{case['language']} {case['units']}"]
    if "CHF" in case["written"] or "Fr." in case["written"]:
        currency = "CHF"
    language = case["language"]
    said = {
        "name": '"Shop"',
        "language": f'"{language}"',
        "country": f'"{country}"',
        "currency": f'"{currency}"',
    }
    said["stages"] = STAGES[language[:2]]
    if file == "shop":
        said[key] = case["written"]
        if key == "currency" and language == "en":
            del said["country"]
    return "".join(f"{name} = {value}\n" for name, value in said.items())


def _job(file, key, written, units):
    said = {
        "title": '"Table"',
        "piece": '"table"',
        "begun": "2026-02-01" if key == "coats" else "2026-08-01",
        "units": f'"{units}"',
    }
    tables = '[[finish]]\nkey = "body"\nfamily = "hardwax-oil"\n'
    tables += {
        "spread": f"spread = {written}\n",
        "coats": f"coats = {written}\n",
        "cure": f"full_cure_days = {written}\n",
    }.get(key, "")
    if file == "job":
        if key in (
            "units",
            "stands",
            "contents",
            "begun",
            "price",
            "food",
            "goes_to",
            "near",
            "tags",
            "loads",
        ):
            said[key] = written
        elif key == "overall":
            said["overall"] = f"{{ width = {written} }}"
        elif key == "moisture":
            said["made_at"] = f"{{ moisture = {written} }}"
        elif key == "temperature":
            said["climate"] = f"{{ rh_low = 30, rh_high = 60, temperature = {written} }}"
        elif key == "fastener":
            tables += (
                f'[hanging]\nmethod = "cleat"\n[hanging.fastener]\nkind = "screw"\ndiameter = {written}\n'
                'length = "70 mm"\nin_wall = "40 mm"\ncount = 4\n'
            )
    return "".join(f"{name} = {value}\n" for name, value in said.items()) + tables


def _parts(key, kind, written, units, language):
    length, width, thickness = OWN_UNITS[units]
    sized = kind in SIZED
    row = {"part": "Thing", "qty": "2", "kind": kind, "material": MATERIALS.get(kind, "wood glue")}
    if sized:
        row |= {"length": length, "width": width, "thickness": thickness}
    row |= {"finish": "body" if kind == "wood" else "", key: written}
    if key == "width" and any(sign in written.lower() for sign in ("dia", "ø", "d ", "durchm")):
        row["thickness"] = ""
    if key == "per":
        row["price"] = "12"
    head = [name for name in HEAD.split(",") if sized or name not in ("width", "thickness")]
    return _table([head, [row.get(name, "") for name in head]], language)


def _table(rows, language):
    separator = "," if language.startswith("en") else ";"

    def cell(text):
        return '"' + text.replace('"', '""') + '"' if any(sign in text for sign in (separator, '"')) else text

    return "".join(separator.join(map(cell, row)) + "\n" for row in rows)


def _notes(key, written):
    if key == "day":
        return f"## 2026-09-01 Begun\n\nFirst.\n\n## {written}\n\nThen.\n"
    return f"## 2026-09-01 Begun\n\nFirst.\n\n{written if key else ''}\n"


# -- what it came to ----------------------------------------------------------------------------------


def figure(value):
    return f"{float(value):.6g}"


def came_to(job, case):
    file, key = case["where"].split(" ")[0].split(".", 1)
    return {"parts": _of_part, "job": _of_job, "shop": _of_shop, "prices": _of_price, "notes": _of_note}[
        file
    ](job, key)


def _of_part(job, key):
    (part,) = job.parts
    if key in ("length", "width", "thickness"):
        if part.kind == "hardware":
            across = f" ø{figure(part.width.m * 1000)}" if part.round else ""
            return f"{figure(part.length.m * 1000)}{across}" if part.length else ""
        return f"{'ø' if part.round else ''}{figure(getattr(part, key).m * 1000)}"
    if key == "stock":
        return figure(part.stock.thickness_m * 1000)
    if key == "price":
        return f"{figure(part.price)} {part.per}"
    if key == "finish":
        return "none" if not part.finish and part.faces == "none" else part.finish
    if key == "client":
        return "yes" if part.for_client else "no"
    if key == "country":
        return part.country_code
    if key == "mass":
        return figure(part.mass_kg)
    return str(getattr(part, key))


def _of_job(job, key):
    (finish,) = job.finishes
    get = {
        "overall": lambda: figure(job.overall.width.m * 1000),
        "contents": lambda: figure(job.contents_kg),
        "moisture": lambda: figure(job.made_at.moisture_pct),
        "temperature": lambda: figure(job.climate.temperature_c),
        "spread": lambda: figure(finish.spread_m2_per_l),
        "coats": lambda: " ".join(map(date.isoformat, finish.coats)),
        "cure": lambda: figure(finish.full_cure_days),
        "fastener": lambda: f"ø{figure(job.hanging.fastener.diameter_m * 1000)}",
        "goes_to": lambda: job.goes_to_code,
        "near": lambda: " ".join(job.near),
        "tags": lambda: " ".join(job.tags),
        "loads": lambda: " ".join(f"{figure(load.kg)} {load.place}" for load in job.loads),
    }
    if key in get:
        return get[key]()
    return figure(job.price) if key == "price" else str(getattr(job, key))


def _of_shop(job, key):
    return figure(job.shop.hour_rate) if key == "hour_rate" else str(getattr(job.shop, key))


def _of_price(job, key):
    (price,) = job.shop.prices
    return price.day.isoformat() if key == "date" else f"{figure(price.price)} {price.per}"


def _of_note(job, key):
    entry = job.entries[-1]
    if key == "day":
        return f"{entry.day} {entry.title}".strip()
    if key == "mark":
        return " ".join(mark.key for mark in entry.marks) or "-"
    return " ".join(f"{booked.stage}={figure(booked.hours)}" for booked in entry.hours) or "-"


def at(job, case):
    """The problems that stand where the case is written."""
    where = case["where"].split(" ")[0]
    file = {
        "parts": "parts.csv",
        "job": "job.toml",
        "shop": "shop.toml",
        "prices": "prices.csv",
        "notes": "notes.md",
    }
    fields = {"cure": "full_cure_days", "fastener": "diameter", "overall": "width"}
    key = where.split(".")[1]
    name = fields.get(key, key)
    return [
        problem
        for problem in job.problems
        if problem.file == file[where.split(".")[0]]
        and (problem.severity == "error" or problem.file == "notes.md" or name in problem.field)
        and not (problem.severity == "warning" and key == "stands" and "[hanging]" in problem.message)
    ]


@pytest.mark.parametrize(
    "case", CASES, ids=[f"{c['where']} {c['language']} {c['units']} {c['written']}" for c in CASES]
)
def test_it_comes_to_what_is_meant_or_is_asked_about(case, tmp_path):
    job = small_job(tmp_path, case)
    told = at(job, case)
    said = "\n".join(map(str, told))
    kind, _, words = case["comes_to"].partition(" ")
    if kind == "?":
        assert any(problem.severity == "error" for problem in told), "nobody asks"
        assert words in said
        assert len(told) == 1, said
    elif kind == "!":
        assert told, "nobody points at it"
        assert all(problem.severity == "warning" for problem in told), said
        assert words in said
    else:
        assert not told, said
        assert came_to(job, case) == case["comes_to"]


def test_the_list_holds_both_unit_systems_and_both_languages():
    assert len(CASES) >= 200
    assert {(case["language"][:2], case["units"]) for case in CASES} >= {
        ("en", "mm"),
        ("en", "in"),
        ("de", "mm"),
    }
