"""What makers write is read as it is meant, or asked about: tests/data/second_spellings.csv, a case a row, by another hand.

Each case is a whole small job, so that what one reader takes does not depend on how the test calls it.
"""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

from buildbook.job import read_job
from buildbook.job.model import Job
from tests.conftest import ROOT

TEXT = (ROOT / "tests" / "data" / "second_spellings.csv").read_text("utf-8")
CASES = [
    (row["where"], row["shop"], row["written"], row["comes_to"])
    for row in csv.DictReader((line for line in TEXT.splitlines() if not line.startswith("#")), delimiter=";")
]
SHOPS = {
    "mm": 'name = "Shop"\nunits = "mm"\n',
    "in": 'name = "Shop"\nunits = "in"\n',
    "de": 'name = "Werkstatt"\nunits = "mm"\nlanguage = "de"\ncountry = "DE"\nstages = ["Zuschnitt", "Verbindungen"]\n',
}
PARTS = ("Part", "Qty", "Kind", "Material", "Length", "Width", "Thickness", "Stock", "Cut", "Faces", "Finish", "Mass (kg)", "Country", "Price", "Per", "Client", "Held", "Edge")  # fmt: skip
HINGE = {"Part": "Hinge", "Kind": "hardware", "Material": "brass butt hinge", "Qty": "2"}
BOARD = {"Part": "Board", "Kind": "wood", "Material": "European oak", "Length": "710 mm", "Width": "80 mm", "Thickness": "20 mm", "Cut": "flat", "Qty": "1"}  # fmt: skip
PANE = {"Part": "Pane", "Kind": "glass", "Material": "float glass", "Length": "500 mm", "Width": "300 mm", "Thickness": "4 mm", "Qty": "1"}  # fmt: skip
BOTTLE = {"Part": "Glue", "Kind": "supply", "Material": "hide glue", "Qty": "1"}
FINISH = '[[finish]]\nkey = "body"\nfamily = "hardwax-oil"\ncoats = [2026-03-01]\n[[finish]]\nkey = "other"\nfamily = "shellac"\ncoats = [2026-03-01]\n'


class Case:
    """One case: a job with what is written in its place, and what was told of it."""

    def __init__(self, folder: Path, shop: str) -> None:
        self.folder, self.shop = folder, shop

    def read(self, toml: str = "", parts: dict[str, str] | None = None, notes: str = "") -> Job:
        (self.folder / "shop.toml").write_text(SHOPS[self.shop], "utf-8")
        job = self.folder / "job"
        job.mkdir()
        head = 'number = "1"\ntitle = "Chest"\npiece = "chest"\n' + (
            "" if "begun" in toml else "begun = 2026-01-01\n"
        )
        (job / "job.toml").write_text(head + toml, "utf-8")
        if parts is not None:
            with (job / "parts.csv").open("w", encoding="utf-8", newline="") as file:
                out = csv.writer(file, delimiter=";" if self.shop == "de" else ",")
                out.writerow(PARTS)
                out.writerow([parts.get(name, "") for name in PARTS])
        if notes:
            (job / "notes.md").write_text(notes, "utf-8")
        return read_job(job)

    def part(self, row: dict[str, str], toml: str = "", **cells: str) -> tuple[Job, str]:
        job = self.read(toml, {**row, **{name.replace("_", " "): cell for name, cell in cells.items()}})
        return job, "?" if errors(job, "parts.csv") else ""


def errors(job: Job, file: str) -> list[str]:
    return [str(one) for one in job.problems if one.severity == "error" and one.file.startswith(file)]


def quoted(written: str) -> str:
    return '"' + written.replace("\\", "\\\\").replace('"', '\\"') + '"'


def qty(case: Case, written: str) -> str:
    job, asked = case.part(HINGE, Qty=written)
    return asked or str(job.parts[0].qty)


def _priced(case: Case, row: dict[str, str], written: str) -> str:
    job, asked = case.part(row, Price=written)
    part = job.parts[0]
    return asked or (f"{part.price} {part.per}" if part.price is not None else "-")


def price(case: Case, written: str) -> str:
    return _priced(case, HINGE, written)


def timber(case: Case, written: str) -> str:
    return _priced(case, BOARD, written)


def pane(case: Case, written: str) -> str:
    return _priced(case, PANE, written)


def bottle(case: Case, written: str) -> str:
    return _priced(case, BOTTLE, written)


def turned(case: Case, written: str) -> str:
    job, asked = case.part({**BOARD, "Thickness": ""}, Width=written)
    part = job.parts[0]
    if asked or not part.width or not part.thickness:
        return "?"
    return f"{part.width.m * 1000:g} x {part.thickness.m * 1000:g}{' round' if part.round else ''}"


def width(case: Case, written: str) -> str:
    job, asked = case.part(BOARD, Width=written)
    return asked or f"{job.parts[0].width.m * 1000:g}"


def stock(case: Case, written: str) -> str:
    job, asked = case.part(BOARD, Stock=written)
    return asked or f"{job.parts[0].stock.thickness_m * 1000:g}"


def mass(case: Case, written: str) -> str:
    job, asked = case.part(HINGE, **{"Mass (kg)": written})
    return asked or f"{round(job.parts[0].mass_kg, 3):g}"


def faces(case: Case, written: str) -> str:
    job, asked = case.part(BOARD, Faces=written)
    return asked or job.parts[0].faces


def finish(case: Case, written: str) -> str:
    job, asked = case.part({**BOARD, "Faces": ""}, FINISH, Finish=written)
    told = [one for one in job.problems if one.severity == "error"]
    return asked or ("?" if told else job.parts[0].finish or "-")


def client(case: Case, written: str) -> str:
    job, asked = case.part(BOARD, Client=written)
    return asked or ("yes" if job.parts[0].for_client else "no")


def country(case: Case, written: str) -> str:
    job, asked = case.part(BOARD, Country=written)
    return asked or job.parts[0].country_code or "?"


def _toml(case: Case, toml: str, shown: Callable[[Job], str]) -> str:
    job = case.read(toml)
    return "?" if errors(job, "job.toml") else shown(job)


def units(case: Case, written: str) -> str:
    return _toml(case, f"units = {quoted(written)}\n", lambda job: job.units)


def stands(case: Case, written: str) -> str:
    return _toml(case, f"stands = {quoted(written)}\n", lambda job: job.stands)


def contents(case: Case, written: str) -> str:
    return _toml(case, f"contents = {quoted(written)}\n", lambda job: f"{round(job.contents_kg, 3):g}")


def overall(case: Case, written: str) -> str:
    return _toml(
        case, f"overall = {{ width = {quoted(written)} }}\n", lambda job: f"{job.overall.width.m * 1000:g}"
    )


HANGING = (
    '[hanging]\nmethod = "cleat"\nfastener = {{ kind = "wood screw", diameter = {}, length = "70 mm", in_wall = "45 mm", count = 6 }}\n'
    'wall = {{ kind = "softwood studs", sg = 0.42 }}\npull_height = "600 mm"\n'
)


def screw(case: Case, written: str) -> str:
    toml = 'stands = "wall"\n' + HANGING.format(quoted(written))
    return _toml(case, toml, lambda job: f"{round(job.hanging.fastener.diameter_m * 1000, 3):g}")


def asked(case: Case, written: str) -> str:
    return _toml(case, f"price = {written}\n", lambda job: str(job.price))


def moisture(case: Case, written: str) -> str:
    return _toml(case, f"made_at = {{ moisture = {written} }}\n", lambda job: f"{job.made_at.moisture_pct:g}")


def temperature(case: Case, written: str) -> str:
    toml = f"made_at = {{ rh = 45, temperature = {quoted(written)} }}\n"
    return _toml(case, toml, lambda job: f"{round(job.made_at.temperature_c, 6):g}")


def spread(case: Case, written: str) -> str:
    toml = f'[[finish]]\nkey = "body"\nfamily = "hardwax-oil"\ncoats = [2026-03-01]\nspread = {quoted(written)}\n'
    return _toml(case, toml, lambda job: f"{round(job.finishes[0].spread_m2_per_l, 3):g}")


def begun(case: Case, written: str) -> str:
    return _toml(case, f"begun = {written}\n", lambda job: str(job.begun))


def hours(case: Case, written: str) -> str:
    job = case.read(notes=f"## 2026-02-03 Work\n\n{written}\n\nMore words.\n")
    if errors(job, "notes.md"):
        return "?"
    booked = ", ".join(f"{one.stage}={one.hours:g}" for entry in job.entries for one in entry.hours)
    told = any(one.line == 3 and "hours" in one.message.casefold() for one in job.problems)
    return booked or ("~" if told else "-")


def day(case: Case, written: str) -> str:
    """A heading between two whose year is plain."""
    job = case.read(
        notes=f"## 2026-09-10 First\n\nOne.\n\n## {written}\n\nTwo.\n\n## 2026-09-20 Last\n\nThree.\n"
    )
    if errors(job, "notes.md"):
        return "?"
    found = [entry for entry in job.entries if "Two." in entry.body]
    return f"{found[0].day} {found[0].title}".strip() if "One." not in found[0].body else "-"


def mark(case: Case, written: str) -> str:
    job = case.read(notes=f"## 2026-02-03 Work\n\nWords.\n{written}\n")
    return ", ".join(one.key for entry in job.entries for one in entry.marks) or "-"


READERS = {one.__name__: one for one in (
    qty, price, timber, pane, bottle, turned, width, stock, mass, faces, finish, client, country, units, stands, contents,
    overall, screw, asked, moisture, temperature, spread, begun, hours, day, mark,
)}  # fmt: skip


@pytest.mark.parametrize(("where", "shop", "written", "comes_to"), CASES)
def test_it_is_read_as_it_is_meant(
    tmp_path: Path, where: str, shop: str, written: str, comes_to: str
) -> None:
    assert READERS[where](Case(tmp_path, shop), written) == comes_to
