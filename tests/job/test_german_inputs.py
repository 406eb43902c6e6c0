"""What a German shop types without thinking, read as it is meant: tests/data/german_inputs.csv, a case a row."""

import csv

import pytest

from buildbook.job import read_job
from buildbook.job.table.headings import PARTS_HEADINGS, PRICES_HEADINGS
from buildbook.render.html.prose import prose
from tests.conftest import ROOT

TEXT = (ROOT / "tests" / "data" / "german_inputs.csv").read_text("utf-8")
CASES = [
    (row["what"], row["written"], row["comes_to"])
    for row in csv.DictReader((line for line in TEXT.splitlines() if not line.startswith("#")), delimiter=";")
]
SHOP = 'name = "Werkstatt"\nlanguage = "de"\ncountry = "DE"\nstages = ["Zuschnitt", "Verbindungen"]\n'
JOB = 'title = "Tisch"\npiece = "Tisch"\nbegun = 2026-01-01\n'
PARTS = "Teil;Material;Art;Länge;Breite;Dicke;Schnitt;Flächen;Preis;Je;Kunde\n"


@pytest.fixture
def read(tmp_path):
    def read_(job=JOB, parts="", notes=""):
        (tmp_path / "shop.toml").write_text(SHOP, "utf-8")
        folder = tmp_path / "tisch"
        folder.mkdir()
        (folder / "job.toml").write_text(job, "utf-8")
        if parts:
            (folder / "parts.csv").write_text(PARTS + parts, "utf-8")
        if notes:
            (folder / "notes.md").write_text(notes, "utf-8")
        return read_job(folder)

    return read_


def errors(job, file):
    return [str(problem) for problem in job.problems if problem.severity == "error" and problem.file == file]


def heading(read, written):
    found = PARTS_HEADINGS.find(written)
    return found.column if found else "-"


def prices(read, written):
    found = PRICES_HEADINGS.find(written)
    return found.column if found else "-"


def hours(read, written):
    job = read(notes=f"## 2026-02-03 Arbeit\n\n{written}\n")
    assert errors(job, "notes.md") == []
    return ", ".join(f"{booked.stage}={booked.hours:g}" for entry in job.entries for booked in entry.hours)


def day(read, written):
    job = read(notes=f"## {written}\n\nEtwas getan.\n")
    if errors(job, "notes.md"):
        return "?"
    (entry,) = job.entries
    dated = entry.title != "Vor dem ersten Datum"
    return f"{entry.day} {entry.title}".strip() if dated else "-"


def mark(read, written):
    shown = str(prose(written, {}, str))
    return next((kind for kind in ("setting", "mistake", "fix", "next-time") if f"mark {kind}" in shown), "-")


def client(read, written):
    job = read(notes=f"## 2026-02-03 Arbeit\n\n### {written}\n\nEin Satz.\n")
    return "for the client" if job.entries[0].for_client else "-"


def toml(read, written):
    job = read(job=f'{JOB}overall = {{ width = "{written}" }}\n')
    if errors(job, "job.toml"):
        return "?"
    return f"{job.overall.width.m * 1000:g}"


def mass(read, written):
    job = read(job=f'{JOB}contents = "{written}"\n')
    return f"{job.contents_kg:g}"


def part(read, **cells):
    row = {"Teil": "Ding", "Material": "Eiche", "Länge": "900", "Breite": "80", "Dicke": "20", **cells}
    return read(parts=";".join(row.get(name, "") for name in PARTS.strip().split(";")) + "\n")


def kind(read, written):
    return part(read, Teil="Ding", Material=written).parts[0].kind


def cut(read, written):
    job = part(read, Schnitt=written)
    asked = any(problem.field == "cut" for problem in job.problems)
    return f"{job.parts[0].cut}?" if asked else job.parts[0].cut


def faces(read, written):
    return part(read, Flächen=written).parts[0].faces


def per(read, written):
    return part(read, Preis="12,50", Je=written).parts[0].per


def yes(read, written):
    return "yes" if part(read, Kunde=written).parts[0].for_client else "no"


def near(read, written):
    job = read(job=f'{JOB}near = ["{written}"]\n')
    return ", ".join(job.near) or "?"


def stands(read, written):
    return read(job=f'{JOB}stands = "{written}"\n').stands or "?"


READERS = {
    reader.__name__: reader
    for reader in (
        heading,
        prices,
        hours,
        day,
        mark,
        client,
        toml,
        mass,
        kind,
        cut,
        faces,
        per,
        yes,
        near,
        stands,
    )
}


@pytest.mark.parametrize(("what", "written", "comes_to"), CASES)
def test_it_is_read_as_it_is_meant(what, written, comes_to, read):
    assert READERS[what](read, written) == comes_to


def test_a_german_shop_that_names_no_stages_has_german_ones(tmp_path):
    (tmp_path / "shop.toml").write_text('name = "Werkstatt"\nlanguage = "de-AT"\n', "utf-8")
    (tmp_path / "tisch").mkdir()
    stages = read_job(tmp_path / "tisch").shop.stages
    assert {"Zuschnitt", "Verbindungen", "Oberfläche"} <= set(stages)


def test_an_english_shop_keeps_its_point(tmp_path):
    (tmp_path / "shop.toml").write_text('name = "Shop"\nlanguage = "en"\n', "utf-8")
    (tmp_path / "table").mkdir()
    (tmp_path / "table" / "job.toml").write_text('title = "T"\noverall = { width = "88,5 cm" }\n', "utf-8")
    assert any("has a comma" in str(problem) for problem in read_job(tmp_path / "table").problems)
