"""The pages across jobs in a bound book: figures done again from what lies beside them, records kept, bytes the same."""

import json
import re
import shutil
from fractions import Fraction
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote

import pytest

from buildbook.book.bind import bind
from buildbook.pages.past.across import PAGES
from tests.conftest import every_file
from tests.make_shelf import made_jobs, write_shelf

SHELF = Path(__file__).resolve().parents[2] / "shelf"
BOARD_FOOT_M3 = 0.3048**2 * 0.0254


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    """The ten jobs bound once, by a shop that works in inches."""
    place = tmp_path_factory.mktemp("across")
    shelf = Path(shutil.copytree(SHELF, place / "shelf", ignore=shutil.ignore_patterns("__pycache__")))
    shop = shelf / "shop.toml"
    shop.write_text(re.sub(r"(?m)^units.*$", 'units = "in"', shop.read_text("utf-8")), "utf-8")
    result = bind(shelf, place / "book")
    assert result.ok, [str(p) for p in result.problems]
    return place / "book"


@pytest.fixture(scope="module")
def summaries(book):
    """What binding wrote of each job, with its year."""
    out = {}
    for path in sorted(book.glob("jobs/*/summary.json")):
        entry = json.loads((path.parent / "record.json").read_text("utf-8"))["entry"]
        out[path.parent.name] = (entry["year"], json.loads(path.read_text("utf-8")))
    assert len(out) == 10
    return out


class _Tables(HTMLParser):
    """The tables of a page as rows of text with plain blanks, by the heading above them."""

    def __init__(self):
        super().__init__()
        self.tables, self.heading, self.links = {}, "", []
        self._tags, self._cell = [], None

    def handle_starttag(self, tag, attrs):
        self._tags.append(tag)
        if tag in ("h2", "h3"):
            self.heading = ""
        elif tag == "tr":
            self.tables.setdefault(self.heading, []).append([])
        elif tag in ("td", "th"):
            self._cell = ""
        elif tag == "a":
            self.links.append(dict(attrs)["href"])

    def handle_data(self, data):
        if self._cell is not None:
            self._cell += data
        elif self._tags and self._tags[-1] in ("h2", "h3"):
            self.heading += data

    def handle_endtag(self, tag):
        if tag in ("td", "th"):
            self.tables[self.heading][-1].append(" ".join(self._cell.split()))
            self._cell = None
        while self._tags and self._tags.pop() != tag:
            pass


def tables_of(path):
    parser = _Tables()
    parser.feed(path.read_text("utf-8"))
    return parser


def figure(text):
    """The number that a cell begins with, about or not."""
    return float(re.search(r"-?[\d.]+", text.replace(" ", "").replace(",", ""))[0])


def by_year(rows):
    head = rows[0][1:]
    return {
        (row[0], year): cell for row in rows[1:] for year, cell in zip(head, row[1:], strict=True) if cell
    }


# -- figures done again ----------------------------------------------------------------------------


def test_board_feet_by_wood_and_year_are_those_of_the_summaries(book, summaries):
    sums = {}
    for year, facts in summaries.values():
        for wood in facts["timber"]["species"]:
            feet = wood["bought_bf"] if wood["bought_bf"] is not None else wood["buy_bf"]
            for key in ((wood["name"], year), (wood["name"], "Total"), ("Total", year), ("Total", "Total")):
                sums[key] = sums.get(key, 0.0) + feet
    told = by_year(tables_of(book / "years.html").tables["Timber by wood"])
    assert told.keys() == sums.keys()
    for key, feet in sums.items():
        assert figure(told[key]) == pytest.approx(feet, abs=0.5 if feet >= 10 else 0.05), key


LINE = re.compile(r"(?m)^\s*(?:[-*] )?\**Hours:?\**:? *(.+)$")
ITEM = re.compile(r"([a-z]+)\s+(?:(\d+):(\d\d)|(\d+) min|(\d+ \d+/\d+|\d+/\d+|[\d.]+))(?: ?h)?\s*$")


def hours_of_notes():
    """Hours by stage and year from the lines of the notes, read here by another reading than the program's."""
    sums = {}
    for folder in sorted(path.parent for path in SHELF.glob("*/job.toml")):
        delivered = re.search(r"(?m)^delivered *= *(\d{4})", (folder / "job.toml").read_text("utf-8"))
        notes = [*folder.glob("notes.md"), *sorted(folder.glob("notes/*.md"))]
        text = "\n".join(note.read_text("utf-8") for note in notes)
        year = delivered[1] if delivered else max(re.findall(r"(?m)^#+ (\d{4})-\d\d-\d\d", text))
        for line in LINE.findall(text):
            for item in re.split(r"[,;]| and ", line):
                stage, hours, minutes, alone, number = ITEM.match(item.strip()).groups()
                if hours:
                    booked = Fraction(hours) + Fraction(minutes) / 60
                elif alone:
                    booked = Fraction(alone) / 60
                else:
                    booked = sum(Fraction(part) for part in number.split())
                sums[stage, year] = sums.get((stage, year), 0) + booked
    return sums


def test_hours_by_stage_and_year_are_those_of_the_notes(book):
    sums = hours_of_notes()
    told = by_year(tables_of(book / "years.html").tables["Hours by stage"])
    assert {key for key in told if "Total" not in key} == set(sums)
    for key, hours in sums.items():
        assert figure(told[key]) == pytest.approx(float(hours), abs=0.5 if hours >= 10 else 0.051), key
    assert figure(told["Total", "Total"]) == pytest.approx(float(sum(sums.values())), abs=0.5)


def test_the_yield_is_net_over_bought_where_there_is_a_tally_and_only_there(book, summaries):
    shares = {}
    for year, facts in summaries.values():
        for wood in facts["timber"]["species"]:
            if wood["bought_m3"]:
                shares[wood["name"], year] = wood["net_m3"] / wood["bought_m3"]
    told = by_year(tables_of(book / "years.html").tables["Yield"])
    assert {key for key in told if "Total" not in key} == set(shares)
    assert len(shares) == 2
    for key, share in shares.items():
        assert figure(told[key]) == pytest.approx(share * 100, abs=0.5)


def test_materials_by_year_are_those_of_the_summaries(book, summaries):
    sums = {}
    for year, facts in summaries.values():
        assert facts["cost"]["materials"]["currency"] == "EUR"
        sums[year] = sums.get(year, 0.0) + facts["cost"]["materials"]["amount"]
    told = by_year(tables_of(book / "years.html").tables["Materials, EUR"])
    assert {year: figure(cell) for (_, year), cell in told.items() if year != "Total"} == pytest.approx(
        sums, abs=0.5
    )


def test_each_wood_has_its_jobs_with_net_volume_and_cost(book, summaries):
    told = tables_of(book / "woods.html").tables
    for _, facts in summaries.values():
        for wood in facts["timber"]["species"]:
            net = f"{wood['net_m3'] / BOARD_FOOT_M3:.1f} bd ft"
            rows = [row for row in told[wood["name"]] if net in row]
            assert rows, (facts["job"], wood["name"])
            if wood["cost"]:
                assert any(f"€{wood['cost']['amount']:,.2f}".replace(",", " ") in row for row in rows)


# -- the questions they are for ---------------------------------------------------------------------


def test_which_oil_on_the_ash_table_and_how_did_that_hinge_do(book):
    oil = tables_of(book / "finishes.html").tables["Clear matt hardwax oil"]
    (row,) = (row for row in oil if row[0] == "Extending dining table")
    assert row[3:8] == ["3", "3 to 4 days", "100.0 ft² (9.29 m²)", "43 US fl oz (1.27 l)", "€63.00 / l"]
    hinge = tables_of(book / "hardware.html").tables["Brass butt hinge, drawn, unlacquered"]
    assert any("Hinges back to Hallow & Pin, less the carriage." in cell for row in hinge for cell in row)


def test_a_date_leads_to_its_day_in_the_log_and_every_link_leads_somewhere(book):
    anchors = {}
    days = 0
    for page in PAGES:
        for href in tables_of(book / f"{page}.html").links:
            file, _, anchor = href.partition("#")
            target = book / (unquote(file) or f"{page}.html")
            if target not in anchors:
                anchors[target] = set(re.findall(r'id="([^"]+)"', target.read_text("utf-8")))
            assert not anchor or anchor in anchors[target], (page, href)
            days += anchor.startswith("day-")
    assert days > 100


# -- what becomes of records -----------------------------------------------------------------------


@pytest.fixture
def small(tmp_path):
    """A function that binds a shelf of a few made jobs; their folders."""
    write_shelf(tmp_path / "shelf", made_jobs(4, seed=9, words=(40, 80)))
    folders = sorted(path.parent for path in (tmp_path / "shelf").glob("*/job.toml"))
    return tmp_path / "shelf", tmp_path / "book", folders


def top(book):
    return {f"{page}.html": (book / f"{page}.html").read_bytes() for page in PAGES}


def test_one_job_bound_alone_gives_the_pages_that_the_whole_shelf_gives(small):
    shelf, book, folders = small
    assert bind(shelf, book).ok
    whole = top(book)
    assert bind(folders[1], book).ok
    assert top(book) == whole
    again = book.parent / "again"
    for folder in reversed(folders):
        assert bind(folder, again).ok
    assert top(again) == whole


def test_a_job_that_fails_keeps_its_old_rows_marked_as_in_the_list(small):
    shelf, book, folders = small
    bind(shelf, book)
    title = json.loads((book / "jobs" / folders[0].name / "record.json").read_text("utf-8"))["entry"]["title"]
    (folders[0] / "job.toml").write_text("title = \n")
    assert not bind(shelf, book).ok
    words = "Not bound again: its last good pages stand"
    for page in PAGES[:2]:
        text = (book / f"{page}.html").read_text("utf-8")
        assert title in text
        assert words in text
    assert f"Not bound again, so that these figures are those of before: {title}." in (
        book / "years.html"
    ).read_text("utf-8")


def test_a_record_of_another_edition_is_passed_over_and_said(small):
    shelf, book, folders = small
    bind(shelf, book)
    record = book / "jobs" / folders[0].name / "record.json"
    record.write_text(record.read_text("utf-8").replace('"schema":1', '"schema":0'))
    bind(folders[1], book)
    assert "One job of this book was bound before these pages were made" in (book / "woods.html").read_text(
        "utf-8"
    )


def test_a_page_that_is_not_ours_is_left_alone_and_said(small):
    shelf, book, _ = small
    book.mkdir()
    (book / "woods.html").write_text("mine")
    result = bind(shelf, book)
    assert not result.ok
    assert (book / "woods.html").read_text() == "mine"
    assert "woods.html" in str(result.problems[0])


def test_what_a_maker_writes_is_escaped(make_job, tmp_path):
    parts = 'part,qty,kind,material,supplier,note\n<b>Hinge</b>,1,hardware,"<i>hinge</i> & ""co""",<u>shop</u>,<s>bad</s>\n'
    job = make_job(
        "a & b's job",
        **{
            "job.toml": 'title = "<script>alert(1)</script>"\ndelivered = 2026-01-01\njoinery = ["<em>tenon</em>"]\n',
            "parts.csv": parts,
            "notes.md": "## 2026-01-01 Day\n\nThe tenon is `<b>` tight.\n\nJig: <b>strip</b>; marked <u>PINS</u>.\n",
        },
    )
    assert bind(job, tmp_path / "book").ok
    for page in PAGES:
        text = (tmp_path / "book" / f"{page}.html").read_text("utf-8")
        assert "alert(1)" in text or page in ("woods", "finishes", "years")
        assert not re.search(
            r"<(script|b|i|u|s|em)>", text.partition("</style>")[2].replace("<i>hinge</i>", "")
        )
        for href in tables_of(tmp_path / "book" / f"{page}.html").links:
            file = unquote(href.partition("#")[0])
            assert not file or (tmp_path / "book" / file).exists()


def test_the_same_shelf_gives_the_same_bytes(small):
    shelf, book, _ = small
    bind(shelf, book)
    first = every_file(book)
    bind(shelf, book.parent / "other")
    assert every_file(book.parent / "other") == first


def test_nothing_of_them_is_in_a_handover(book):
    for name, content in every_file(book / "handover").items():
        assert "record.json" not in name
        assert b"woods.html" not in content
