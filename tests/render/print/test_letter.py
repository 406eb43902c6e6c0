"""The letter on paper: tagged, on the paper of the shop, the same bytes each time; and all of it in the page, too."""

import dataclasses
import html
import re
from dataclasses import replace

import pytest

from buildbook.job import read_job
from buildbook.pages.letter.letter import Caution, letter_of
from buildbook.render.html.theme import load_theme, theme_names
from buildbook.render.print.letter import letter_pdf
from tests.estimates import GERMAN, enquiry, estimate_of, german_shop, inch_shop, materials_only
from tests.render.printed import MM_PT, characters, fonts, metadata, reader, size_mm, tags, words

THEME = load_theme("oilstone")
LETTERS = {
    "press": letter_of(estimate_of(enquiry("linen-press"))),
    "bench": letter_of(materials_only(estimate_of(enquiry("low-bench")))),
    "inches": letter_of(estimate_of(enquiry("side-table-in", inch_shop()), 1895, 1540, 2210)),
    "german": letter_of(estimate_of(replace(read_job(GERMAN), shop=german_shop()), 5230, 4600, 6100)),
}
A4_MM, LETTER_MM = (210.0, 297.0), (215.9, 279.4)  # ISO 216; ANSI/ASME Y14.1
NOT_SHOWN = {"language", "voice", "sheet", "key", "of", "wood_colours", "country"}
"""Fields for the renderer, not for a reader; the country of the shop stands in its address, if the shop wants it."""


@pytest.fixture(scope="module")
def printed():
    return {name: letter_pdf(letter, THEME).pdf for name, letter in LETTERS.items()}


def texts(value, name=""):
    """Every text of a letter that its reader is meant to read."""
    if name in NOT_SHOWN:
        return
    if dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            yield from texts(getattr(value, field.name), field.name)
    elif isinstance(value, tuple):
        for one in value:
            yield from texts(one, name)
    elif isinstance(value, str) and value:
        yield value


def bare(text):
    """Letters and figures alone: fractions and spaces are set in more than one way."""
    return re.sub(r"[\W_]+", "", text)


@pytest.mark.parametrize("name", LETTERS)
def test_the_print_says_all_that_the_letter_says(name, printed):
    shown = bare(words(printed[name]))
    foot = bare(LETTERS[name].title) + "2"  # the foot of the second sheet may stand inside a sentence
    missing = [
        text
        for text in texts(LETTERS[name])
        if bare(text) not in shown and bare(text) not in shown.replace(foot, "")
    ]
    assert missing == []


@pytest.mark.parametrize("theme", theme_names())
@pytest.mark.parametrize("name", LETTERS)
def test_the_page_says_all_that_the_letter_says(name, theme):
    page = load_theme(theme).letter_page(LETTERS[name])
    shown = bare(html.unescape(re.sub(r"<style>.*?</style>|<[^>]+>", "", page, flags=re.DOTALL)))
    assert [text for text in texts(LETTERS[name]) if bare(text) not in shown] == []
    assert "<script" not in page
    assert not re.search(r"(src|href)=[\"'](?!mailto:|tel:|https://halfrood\.example\")", page)


@pytest.mark.parametrize(
    ("name", "size", "sheets"),
    [("press", A4_MM, 2), ("bench", A4_MM, 1), ("inches", LETTER_MM, 1), ("german", A4_MM, 2)],
)
def test_it_is_on_the_paper_of_the_shop(name, size, sheets, printed):
    pages = reader(printed[name]).pages
    assert {size_mm(page.mediabox) for page in pages} == {size}
    assert len(pages) == sheets


def test_it_can_be_kept_and_read_aloud(printed):
    pdf = printed["press"]
    root, xmp = reader(pdf).trailer["/Root"], metadata(pdf)
    assert "<pdfaid:part>2</pdfaid:part>" in xmp
    assert "<pdfaid:conformance>A</pdfaid:conformance>" in xmp
    assert "<pdfuaid:part>1</pdfuaid:part>" in xmp
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"]["/Marked"]
    info = reader(pdf).metadata
    assert info.title == "Estimate: Linen press in ash, with glazed doors"
    assert info.author == "Ciarda Penhollow, Half Rood Furniture"
    assert info.creation_date.date() == LETTERS["press"].dated
    embedded = {name: {"/FontFile", "/FontFile2", "/FontFile3"} & set(d) for name, d in fonts(pdf)}
    assert embedded
    assert all(embedded.values()), embedded
    assert min(size for _, _, size, _ in characters(pdf)) >= 5  # figures of fractions; else 8
    assert reader(printed["german"]).trailer["/Root"]["/Lang"] == "de"


def test_its_structure_is_that_of_a_letter(printed):
    names = [name for name, _ in tags(printed["press"])]
    assert {"Title", "H1", "P", "L", "LI", "Lbl", "LBody", "Link"} <= set(names)
    assert (
        "Table" not in names
    )  # payments are a list, each with its share and amount; nothing there has a heading
    assert names.count("Title") == 1
    assert names.count("H1") == 8  # made of, included, not included, cost, payments, when, changes, cautions


def test_the_same_letter_gives_the_same_bytes(printed):
    assert letter_pdf(LETTERS["press"], THEME).pdf == printed["press"]


def test_the_likeliest_stands_over_its_place_between_the_ends(printed):
    """At the same share of the line as of the range, with the width of the figure itself taken off."""
    signs = [(sign, box) for page, sign, _, box in characters(printed["press"]) if page == 0]
    text = "".join(sign for sign, _ in signs)
    left = signs[text.index("from€5,980")][1][0]
    right = signs[text.index("to€8,240") + len("to€8,24")][1][2]
    start, end = text.index("€6,890"), text.index("€6,890") + len("€6,89")
    middle = (signs[start][1][0] + signs[end][1][2]) / 2
    width = signs[end][1][2] - signs[start][1][0]
    at = LETTERS["press"].price.at
    assert middle == pytest.approx(left + at * (right - left - width) + width / 2, abs=3)


def test_what_the_maker_writes_is_data_and_never_markup():
    wild = "#read(\"x\") $x^2$ <script>alert(1)</script> *b* @label [c] \\ & 'd'"
    letter = replace(
        LETTERS["press"],
        title=wild,
        description=wild,
        included=(wild,),
        cautions=(Caution("cites", wild, wild),),
    )
    printed = letter_pdf(letter, THEME)
    assert bare(words(printed.pdf)).count(bare(wild)) >= 5  # once more in the foot of the second sheet
    page = THEME.letter_page(letter)
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in page


def test_a_long_letter_goes_on_over_sheets_and_loses_nothing():
    letter = LETTERS["press"]
    many = tuple(f"something else that is included, number {count}" for count in range(120))
    printed = letter_pdf(replace(letter, included=many, to=("A name " * 30,)), THEME)
    assert len(reader(printed.pdf).pages) >= 4
    shown = bare(words(printed.pdf))
    assert [text for text in many if bare(text) not in shown] == []
    wide, high = (side * MM_PT for side in A4_MM)
    assert all(
        0 < box[0] < box[2] < wide and 0 < box[1] < box[3] < high for _, _, _, box in characters(printed.pdf)
    )


def test_a_shop_without_a_name_or_address_still_writes_a_letter():
    job = enquiry("low-bench")
    shop = replace(job.shop, name="", maker="", address="", email="", phone="", web="")
    letter = letter_of(estimate_of(replace(job, shop=shop)))
    assert "Hall bench" in words(letter_pdf(letter, THEME).pdf)
    assert "Hall bench" in THEME.letter_page(letter)


@pytest.mark.parametrize("sign", ["山", "\ue000", "\U0010ffff", "\x9f"])
def test_a_client_whose_name_the_fonts_lack_gets_a_letter(sign):
    letter = replace(LETTERS["press"], to=(f"{sign} Client", "A Road"))
    printed = letter_pdf(letter, THEME)
    assert "□ Client" in words(printed.pdf)
    assert printed.problems
