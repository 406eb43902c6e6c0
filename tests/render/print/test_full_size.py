"""Templates in full size, read back from the PDF: lengths on paper, and sheets laid together by their marks."""

import itertools
import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageDraw
from pypdfium2 import PdfDocument

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from buildbook.render.html.theme import load_theme
from buildbook.render.print.full_size import full_size_pdf
from buildbook.render.print.tiles import tiling
from tests.conftest import SAMPLE
from tests.render.printed import MM_PT, characters, lines, reader, size_mm, tags, words

A4_MM, LETTER_MM = (210.0, 297.0), (215.9, 279.4)  # ISO 216; ANSI/ASME Y14.1
METRIC = 'country = "GB"\nlanguage = "en"\nunits = "mm"\ncurrency = "GBP"\n'
GERMAN = 'country = "DE"\nlanguage = "de"\nunits = "mm"\ncurrency = "EUR"\n'
INCHES = 'country = "US"\nlanguage = "en"\nunits = "in"\ncurrency = "USD"\n'
PARTS = "Part,Qty,Kind,Material,Length (mm),Width (mm),Thickness (mm)\nLeg,4,wood,ash,720,45,45\nTop,1,wood,ash,1200,400,22\n"
TAPER = "Taper: Leg 45 mm to 25 mm, from 110 mm below the top to the foot, one face"
PAPER = "Template: scroll, 10 mm squares, 30 across ![squares](photos/squares.png)"
DOTS_MM = ((5, 5), (295, 5), (5, 395), (295, 395), (143, 201))
"""Where there are dots on the squared paper, by its squares of ten."""


@pytest.fixture
def job(tmp_path):
    def made(*notes, shop=METRIC):
        folder = tmp_path / "table"
        (folder / "photos").mkdir(parents=True, exist_ok=True)
        (folder / "shop.toml").write_text(f'name = "Bench"\n{shop}', encoding="utf-8")
        (folder / "job.toml").write_text(
            'title = "Hall table"\nnumber = "2026-11"\nbegun = 2026-03-01\n', encoding="utf-8"
        )
        (folder / "parts.csv").write_text(PARTS, encoding="utf-8")
        (folder / "notes.md").write_text("## 2026-03-02 Legs\n\n" + "\n\n".join(notes), encoding="utf-8")
        paper = Image.new("RGB", (1500, 2000), "white")  # 30 x 40 squares of 50 pixels
        draw = ImageDraw.Draw(paper)
        for x, y in DOTS_MM:
            draw.ellipse((x * 5 - 8, y * 5 - 8, x * 5 + 8, y * 5 + 8), fill="black")
        paper.save(folder / "photos/squares.png")
        return folder

    return made


def printed(folder):
    of = read_job(folder)
    full = pages_of(of)[1].full_size
    pictures = {}
    for photo in of.photos:
        place = folder / "copy.jpg"
        Image.open(photo.path).convert("RGB").save(place, quality=92)
        pictures[photo.digest] = place.read_bytes()
        place.unlink()
    return full_size_pdf(full, load_theme("plain"), pictures).pdf


def bars(pdf, page):
    """The lengths of level lines with an upright line at each of their ends, in millimetres."""
    found = lines(pdf, page)
    upright = {
        (round(a[0], 2), round(max(a[1], b[1]), 2))
        for a, b in (p for p in found if len(p) == 2)
        if abs(a[0] - b[0]) < 0.01
    }
    level = [p for p in found if len(p) == 2 and abs(p[0][1] - p[1][1]) < 0.01]
    return [
        math.dist(*p) for p in level
        if all((round(x, 2), round(y, 2)) in upright for x, y in p)
    ]  # fmt: skip


def outline(pdf, page):
    """The closed path with slanting sides of a page, in millimetres."""
    return max(
        (p for p in lines(pdf, page) if len(p) >= 5 and p[0] == p[-1]),
        key=lambda p: max(y for _, y in p) - min(y for _, y in p),
    )


def crosses(pdf, page):
    """The middles of the round marks of a page."""
    rings = [p for p in lines(pdf, page) if len(p) > 8 and max(x for x, _ in p) - min(x for x, _ in p) < 4]
    return sorted(
        (
            round((min(x for x, _ in p) + max(x for x, _ in p)) / 2, 3),
            round((min(y for _, y in p) + max(y for _, y in p)) / 2, 3),
        )
        for p in rings
    )


@pytest.mark.parametrize("shop", [METRIC, GERMAN, INCHES])
def test_every_sheet_has_a_bar_of_exactly_100_mm_and_says_so(job, shop):
    pdf = printed(job(TAPER, PAPER, shop=shop))
    for number, page in enumerate(reader(pdf).pages):
        assert size_mm(page.mediabox) == (LETTER_MM if shop == INCHES else A4_MM)
        found = bars(pdf, number)
        assert found[0] * MM_PT == pytest.approx(283.4646, abs=0.01)
        assert (found[1:] == [pytest.approx(101.6, abs=0.005)]) is (shop == INCHES)
        said = words(pdf, number)
        assert "100 mm" in said.replace("\u202f", " ")
        assert ("jedes Maß am Stück" if shop == GERMAN else "Check every figure on the piece") in said


def test_a_taper_has_on_paper_the_corners_that_its_figures_say(job):
    """720 long, 45 wide, from 110 below the top to 25 at the foot, drawn on paper from the maker's line."""
    pdf = printed(job(TAPER))
    points = outline(pdf, 0)
    left, top = min(x for x, _ in points), min(y for _, y in points)
    corners = {(round(x - left, 2), round(y - top, 2)) for x, y in points}
    assert corners == {(0, 0), (45, 0), (45, 110), (25, 720), (0, 720)}


@pytest.mark.parametrize("shop", [METRIC, INCHES])
def test_a_corner_is_at_the_same_place_on_each_sheet_once_cross_lies_on_cross(job, shop):
    pdf = printed(job(TAPER, shop=shop))
    count = len(reader(pdf).pages)
    assert count >= 3
    for one, other in itertools.pairwise(range(count)):
        below = [c for c in crosses(pdf, one) if c[1] > 140]
        above = [c for c in crosses(pdf, other) if c[1] < 140]
        assert len(below) == len(above) == 2
        moved = [(b[0] - a[0], b[1] - a[1]) for b, a in zip(below, above, strict=True)]
        assert moved[0] == pytest.approx(moved[1], abs=0.002)
        for (x, y), (u, v) in zip(outline(pdf, one), outline(pdf, other), strict=True):
            assert (x, y) == pytest.approx((u + moved[0][0], v + moved[0][1]), abs=0.005)


def test_squared_paper_laid_together_is_as_large_as_its_squares_say(job):
    """Printed at 254 dots an inch (ten a millimetre), sheets pasted cross on cross: the dots stand where the squares put
    them. Nothing of the program that made the sheets is asked.
    """
    pdf = printed(job(PAPER))
    document = PdfDocument(pdf)
    table = Image.new("L", (9000, 9000), 255)
    marks = {page: crosses(pdf, page) for page in range(len(document))}
    names = [re.search(r"\b([A-Z])(\d) sheet \d of 4", words(pdf, page)).groups() for page in marks]
    assert names == [("A", "1"), ("A", "2"), ("B", "1"), ("B", "2")]
    placed = {0: (2000, 2000)}
    for one, other, across in ((0, 1, True), (0, 2, False), (1, 3, False)):
        shift = _shift(marks[one], marks[other], across)
        placed[other] = tuple(at + round(by * 10) for at, by in zip(placed[one], shift, strict=True))
    for page, at in placed.items():
        sheet = document[page].render(scale=254 / 72).to_pil().convert("L")
        inner = sheet.crop((85, 85, sheet.width - 85, sheet.height - 340))
        for x, y in _dots(inner):
            ImageDraw.Draw(table).point((at[0] + 85 + x, at[1] + 85 + y), fill=0)
    found = _merged([(x, y) for y in range(1500, 9000, 1) for x in _row(table, y)])
    assert len(found) == len(DOTS_MM)
    apart = sorted(math.dist(a, b) / 10 for a, b in itertools.combinations(found, 2))
    assert apart == pytest.approx(
        sorted(math.dist(a, b) for a, b in itertools.combinations(DOTS_MM, 2)), abs=0.4
    )


def _row(table, y):
    row = table.crop((0, y, table.width, y + 1)).tobytes()
    return [match.start() for match in re.finditer(b"\\x00", row)]


def _shift(ours, theirs, across):
    """How far the sheet to the right of ours, or below it, lies off ours: two of its crosses on two of ours."""
    side = 0 if across else 1
    last = [c for c in ours if c[side] == max(one[side] for one in ours)]
    first = [c for c in theirs if c[side] == min(one[side] for one in theirs)]
    assert len(last) == len(first) == 2
    assert (last[1][0] - last[0][0], last[1][1] - last[0][1]) == pytest.approx(
        (first[1][0] - first[0][0], first[1][1] - first[0][1]), abs=0.01
    )
    return last[0][0] - first[0][0], last[0][1] - first[0][1]


def _dots(picture):
    """The middles of round black dots of some 3 mm."""
    dark = picture.point(lambda value: 255 if value < 90 else 0)
    small = dark.resize((dark.width // 5, dark.height // 5), Image.Resampling.BOX).point(
        lambda v: 255 if v > 250 else 0
    )
    found = _merged(
        [(i % small.width * 5 + 2, i // small.width * 5 + 2) for i, v in enumerate(small.tobytes()) if v]
    )
    return [(round(x), round(y)) for x, y in found]


def _merged(points):
    groups = []
    for point in points:
        near = next(
            (
                group
                for group in groups
                if math.dist(group[-1], point) < 40 or math.dist(group[0], point) < 40
            ),
            None,
        )
        (near.append(point) if near else groups.append([point]))
    return [(sum(x for x, _ in g) / len(g), sum(y for _, y in g) / len(g)) for g in groups]


@given(
    st.floats(1, 2500), st.floats(1, 2500), st.sampled_from([(194.0, 256.0), (199.9, 238.4)]), st.just(12.0)
)
def test_sheets_cover_all_and_each_mark_is_on_the_two_that_it_joins(width, height, area, overlap):
    laid = tiling(width, height, area, overlap)
    shown = (height, width) if laid.turned else (width, height)
    assert len({tile.name for tile in laid.tiles}) == laid.columns * laid.rows
    for side, of in ((0, "x"), (1, "y")):
        starts = sorted({getattr(tile, of) for tile in laid.tiles})
        assert starts[0] <= 1e-9
        assert starts[-1] + area[side] >= shown[side] - 1e-9
        assert all(b - a == pytest.approx(area[side] - overlap) for a, b in itertools.pairwise(starts))
    for x, y in laid.crosses:
        on = [
            t
            for t in laid.tiles
            if t.x - 1e-9 <= x <= t.x + area[0] + 1e-9 and t.y - 1e-9 <= y <= t.y + area[1] + 1e-9
        ]
        assert len(on) == 2
    assert len(laid.tiles) <= max(1, math.ceil((width - overlap) / (area[0] - overlap))) * max(
        1, math.ceil((height - overlap) / (area[1] - overlap))
    )


def test_the_sample_has_its_leg_on_one_sheet_with_what_it_is_in_words():
    pdf = printed(SAMPLE)
    assert len(reader(pdf).pages) == 1
    assert [alt for name, alt in tags(pdf) if name == "Figure"] == ["Outline of Leg in full size"]


def test_it_lies_beside_the_log_and_goes_with_its_lines(job, tmp_path, monkeypatch):
    folder, book = job(TAPER, PAPER), tmp_path / "book"
    assert bind(folder, book).ok
    sheet, page = book / "jobs/table/templates.pdf", book / "jobs/table/index.html"
    first = sheet.read_bytes()
    assert '<a href="templates.pdf">Templates in full size</a>' in page.read_text("utf-8")
    assert not list((book / "handover").rglob("templates.pdf"))

    monkeypatch.setattr("buildbook.book.log_prints.full_size_pdf", lambda *_: pytest.fail("made again"))
    (folder / "notes.md").write_text(
        (folder / "notes.md").read_text("utf-8") + "\n\nA walk.\n", encoding="utf-8"
    )
    assert bind(folder, book).ok
    assert sheet.read_bytes() == first
    monkeypatch.undo()

    paper = Image.open(folder / "photos/squares.png").transpose(Image.Transpose.FLIP_LEFT_RIGHT)
    ImageDraw.Draw(paper).rectangle((700, 700, 900, 900), fill="red")
    paper.save(folder / "photos/squares.png")
    assert bind(folder, book).ok
    assert sheet.read_bytes() != first

    (folder / "notes.md").write_text("## 2026-03-02 Legs\n\nNothing marked.\n", encoding="utf-8")
    assert bind(folder, book).ok
    assert not sheet.exists()
    assert "templates.pdf" not in page.read_text("utf-8")


def test_sheets_with_pictures_and_marks_have_no_fault_for_whoever_hears_them(job, tmp_path):
    from outloud import check

    place = tmp_path / "sheets.pdf"
    place.write_bytes(printed(job(TAPER, PAPER, "Template: apron, bow 600 mm long, rise 40 mm", shop=INCHES)))
    assert [
        f"{f.rule} {f.page} {f.message} {f.evidence}"
        for f in check(str(place)).sorted_findings()
        if f.severity != "info"
    ] == []


def test_long_names_push_no_warning_off_the_sheet(job):
    folder = job(TAPER)
    toml = folder / "job.toml"
    toml.write_text(
        toml.read_text("utf-8").replace("Hall table", "Hall table of very many words " * 9), encoding="utf-8"
    )
    pdf = printed(folder)
    low = [box[1] for page, sign, _, box in characters(pdf)]
    assert min(low) > 8
    for number in range(len(reader(pdf).pages)):
        assert "Check every figure on the piece before you cut." in words(pdf, number)
