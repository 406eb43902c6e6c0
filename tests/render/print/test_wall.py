"""The wall sheet on paper: what hangs there and what never may, how large it is set, and what happens to too much."""

import random
import re

import pytest

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from buildbook.render.html.theme import load_theme
from buildbook.render.print.wall import wall_pdf
from tests.conftest import ROOT, SAMPLE
from tests.render.printed import characters, reader, size_mm, words

A4_MM, LETTER_MM = (210.0, 297.0), (215.9, 279.4)  # ISO 216; ANSI/ASME Y14.1
JOBS = {
    "sample": SAMPLE,
    "dresser": ROOT / "tests/shelf/2024-003-kitchen-dresser",
    "inches": ROOT / "tests/shelf/2024-015-hall-table",
    "german": ROOT / "tests/jobs/holzapfel/doppelbett",
}
SAID = (
    "the",
    "tenon",
    "is",
    "cut",
    "tight",
    "so",
    "that",
    "it",
    "pulls",
    "up",
    "at",
    "the",
    "last",
    "and",
    "closes",
)
KINDS = ("Joint", "At", "Gap", "Setting", "Glue", "Taper", "Jig", "Template", "Edge")


def job(place, parts=0, lines=0, *, long=12, shop='country = "GB"\nlanguage = "en"\nunits = "mm"\n'):
    """A job of so many parts, each with a name and sizes of its own, and so many marked lines."""
    chance, folder = random.Random(parts), place / "job"
    folder.mkdir()
    (folder / "shop.toml").write_text(f'name = "Bench"\nmaker = "A. Maker"\n{shop}', encoding="utf-8")
    (folder / "job.toml").write_text(
        'title = "Cabinet"\nnumber = "2026-31"\nbegun = 2026-03-01\nclient = "Mrs Quintessence"\nprice = 8642\n'
        "[[finish]]\nkey = 'body'\nproduct = 'Oil of the mill'\nfamily = 'hardwax-oil'\nsheen = 'satin'\n"
        "batch = 'OM-77'\ncoats = [2026-03-20, 2026-03-22]\n",
        encoding="utf-8",
    )
    rows = ["Part,Qty,Kind,Material,Length (mm),Width (mm),Thickness (mm),Stock,Price,Per,Note,Finish"]
    for row in range(parts):
        note = " ".join(chance.choices(SAID, k=chance.randrange(0, 9)))
        material = ("European oak", "ash", "black walnut")[row % 3]
        rows.append(
            f"Piece {row}x,{1 + row % 4},wood,{material},{700 + row},{40 + row % 200},22,27 mm,4711,m3,{note},body"
        )
    if parts:
        (folder / "parts.csv").write_text("\n".join(rows), encoding="utf-8")
    notes = ["## 2026-03-02 Joints", "Hours: joinery 7.75", "", "Board: 3, the splayed one", ""]
    for line in range(lines):
        text = " ".join(chance.choices(SAID, k=long))
        notes += [f"{KINDS[line % len(KINDS)]}: L{line} {10 + line} x 8, {text}", ""]
    (folder / "notes.md").write_text("\n".join(notes), encoding="utf-8")
    return read_job(folder)


def printed(of):
    return wall_pdf(pages_of(of)[1].wall, load_theme(of.shop.theme)).pdf


def bare(text):
    return re.sub(r"[\W_]+", "", text)


@pytest.mark.parametrize("name", JOBS)
def test_each_part_and_each_marked_line_of_a_job_hangs_on_one_or_two_sheets(name):
    of = read_job(JOBS[name])
    pdf = printed(of)
    pages = reader(pdf).pages
    assert len(pages) <= 2
    assert size_mm(pages[0].mediabox) == (LETTER_MM if of.shop.letter_paper else A4_MM)
    shown = bare(words(pdf))
    for part in of.parts:
        if part.kind in ("wood", "panel", "glass", "stone", "upholstery"):
            assert bare(part.name) in shown
            assert bare(part.note) in shown
    for entry in of.entries:
        for mark in entry.marks:
            if mark.key in ("joint", "at", "gap", "taper", "setting", "glue", "jig", "template"):
                assert all(bare(word) in shown for word in mark.text.split())
    for finish in of.finishes:
        assert bare(finish.product) in shown
        assert bare(finish.batch) in shown


def test_rows_say_what_parts_csv_says():
    """Read off the sheet as a maker would: the figures behind the name of a part."""
    text = words(printed(read_job(SAMPLE)))
    assert "4 Leg" in text
    assert "250 45 45 52 mm" in text
    assert "1540 1527 430 20 27 mm" in text
    assert "Quillby 40 clear satin hardwax oil: 3 coats" in text
    assert "2026-007 Sideboard with a slate inset 1 of 2" in text
    assert "2026-007 Sideboard with a slate inset 2 of 2" in text


def test_no_price_no_client_and_no_hours_hang_in_the_shop(tmp_path):
    text = words(printed(job(tmp_path, 6, 6)))
    for never in ("Quintessence", "8642", "8 642", "4711", "7.75", "Hours", "€"):
        assert never not in text
    for name in JOBS:
        of = read_job(JOBS[name])
        shown = bare(words(printed(of)))
        assert not of.client or bare(of.client) not in shown
        assert of.price is None or bare(f"{of.price:.0f}") not in shown


def test_it_is_set_in_eleven_points_and_its_figures_larger():
    sizes = {}
    for _, _, size, _ in characters(printed(read_job(SAMPLE))):
        sizes[round(size, 1)] = sizes.get(round(size, 1), 0) + 1
    assert max(sizes, key=sizes.get) == 11.0
    assert sizes[12.8] > 100


def test_a_hundred_and_twenty_parts_are_on_two_sheets_none_missing(tmp_path):
    text = words(printed(job(tmp_path, 120, 9)))
    assert [row for row in range(120) if f"Piece {row}x" not in text] == []
    assert "Notes of the parts are in the log." in text
    assert [line for line in range(9) if f"L{line} " not in text] == []


@pytest.mark.parametrize(("parts", "lines", "long"), [(90, 150, 20), (900, 40, 12), (3, 3, 3000)])
def test_what_finds_no_room_is_counted(tmp_path, parts, lines, long):
    pdf = printed(job(tmp_path, parts, lines, long=long))
    text = words(pdf)
    assert len(reader(pdf).pages) <= 2
    more = sum(int(count) for count in re.findall(r"(\d+) more in the log", text)) + text.count(
        "One more in the log"
    )
    rows = len(set(re.findall(r"Piece (\d+)x", text)))
    there = len(set(re.findall(r"\bL(\d+) ", text)))
    assert rows + there + more == parts + lines
    assert there >= 1
    if long > 1000:
        assert "A line that ends in … goes on in the log." in text
    low = max(page.mediabox.height for page in reader(pdf).pages)
    assert all(box[1] > 0 and box[3] < low for _, _, _, box in characters(pdf))


@pytest.mark.parametrize("parts", [40, 61, 75, 97, 120])
def test_nothing_lies_over_anything_else(tmp_path, parts):
    """Columns made as high as each other end above what follows them: no two signs share their middle."""
    signs = list(characters(printed(job(tmp_path, parts, 27))))
    seen = {}
    for page, sign, _, (left, bottom, right, top) in signs:
        middle = (page, round((left + right) / 2), round((bottom + top) / 2))
        other = seen.setdefault(middle, (sign, left, right))
        assert other[1:] == (left, right) or right - left < 2, (
            middle,
            sign,
            other,
        )  # letters joined in one sign


def test_it_is_beside_the_log_and_made_again_only_where_it_changes(tmp_path, monkeypatch):
    made = job(tmp_path, 3, 2)
    shelf, book = tmp_path / "job", tmp_path / "book"
    assert bind(shelf, book).ok
    sheet = book / "jobs/job/wall.pdf"
    first = sheet.read_bytes()
    assert first == printed(made)
    assert '<a href="wall.pdf">Wall sheet</a>' in (book / "jobs/job/index.html").read_text("utf-8")
    assert not list((book / "handover").rglob("wall.pdf"))

    monkeypatch.setattr("buildbook.book.log_prints.wall_pdf", lambda *_: pytest.fail("made again"))
    with (shelf / "notes.md").open("a", encoding="utf-8") as file:
        file.write("\nA day in the yard.\n")
    assert bind(shelf, book).ok
    assert sheet.read_bytes() == first
    monkeypatch.undo()

    with (shelf / "notes.md").open("a", encoding="utf-8") as file:
        file.write("\nGap: door 1.75\n")
    assert bind(shelf, book).ok
    assert "1.75" in words(sheet.read_bytes())

    (shelf / "parts.csv").unlink()
    toml = (shelf / "job.toml").read_text("utf-8")
    (shelf / "job.toml").write_text(toml.partition("[[finish]]")[0], encoding="utf-8")
    (shelf / "notes.md").write_text("## 2026-03-02 Looked at boards\nNothing yet.\n", encoding="utf-8")
    assert bind(shelf, book).ok
    assert not sheet.exists()
    assert "wall.pdf" not in (book / "jobs/job/index.html").read_text("utf-8")
