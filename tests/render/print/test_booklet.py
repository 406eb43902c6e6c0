"""The booklet: the whole page on A5, tagged, to be kept; the maker's text is data; nothing private is in it."""

import html
import itertools
import re
from dataclasses import replace

import pytest

from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from buildbook.pages.client.card import card_of
from buildbook.pages.client.piece import FinishStory, Material, Picture, Told
from buildbook.render.copies import copies_of
from buildbook.render.html.theme import load_theme
from buildbook.render.photo import encode
from buildbook.render.print.booklet import care_booklet
from buildbook.render.print.card import care_card
from buildbook.render.print.passage import blocks
from buildbook.render.print.typeset import NO_DAY, TypesetError, typeset
from tests.conftest import SAMPLE
from tests.render.printed import characters, fonts, metadata, photo, reader, size_mm, tags, words
from tests.test_boundary import CANARY, NUMBER, canary_job, opened  # noqa: F401  canary_job is a fixture

THEME = load_theme("oilstone")
PIECE, _, _, _ = pages_of(read_job(SAMPLE))
FINGERPRINT = "7F3K-9QWM-2XAB-V"
LEAD = Picture("lead", 4000, 3000, "The sideboard from the front")
TOLD = Picture("told", 3000, 4000, "A board, sawn through and opened", "Walnut, sawn through")
PICTURES = {"lead": photo(), "told": photo(756, 1008)}
PASSAGE = """From **one** board, *sawn* and `opened`: [more](https://example.org/a?b=1&c=2) and [a file](../secret/x.pdf).

![what it shows](photos/a%20b.jpg) ![not of this page](photos/private.jpg)

##### A heading of his own

1. first with #read(x) and $x^2$
2. second

- outer
  - inner

> said

| Part | Size |
|------|-----:|
| Top  | 19 mm |

```
#let code = 1
```

---

<script>alert(1)</script> *b* @label \\
"""
SHOWN = replace(
    PIECE, lead=LEAD, story=(Told("9 February 2026", PASSAGE, (("photos/a b.jpg", TOLD),)),), gallery=(TOLD,)
)


@pytest.fixture(scope="module")
def booklet():
    return care_booklet(SHOWN, THEME, pictures=PICTURES, fingerprint=FINGERPRINT)


def test_every_page_is_a5_and_bears_its_number(booklet):
    pages = reader(booklet.pdf).pages
    assert {size_mm(page.mediabox) for page in pages} == {(148.0, 210.0)}  # ISO 216
    for number, page in enumerate(pages[1:], 2):
        assert page.extract_text().rstrip().endswith(str(number))


def test_it_can_be_kept_and_read_aloud(booklet):
    root, xmp = reader(booklet.pdf).trailer["/Root"], metadata(booklet.pdf)
    assert "<pdfaid:part>2</pdfaid:part>" in xmp
    assert "<pdfaid:conformance>A</pdfaid:conformance>" in xmp
    assert "<pdfuaid:part>1</pdfuaid:part>" in xmp
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"]["/Marked"]
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    info = reader(booklet.pdf).metadata
    assert info.title == "Sideboard with a slate inset: care and provenance"
    assert info.author == "Oona Farrier, Tenterhook Furniture"
    assert info.creation_date.date() == PIECE.dated
    embedded = {name: {"/FontFile", "/FontFile2", "/FontFile3"} & set(d) for name, d in fonts(booklet.pdf)}
    assert embedded
    assert all(embedded.values()), embedded
    assert min(size for _, _, size, _ in characters(booklet.pdf)) >= 7.5


def test_its_structure_is_that_of_the_page(booklet):
    structure = tags(booklet.pdf)
    names = [name for name, _ in structure]
    assert {"Title", "H1", "H2", "H3", "P", "L", "LI", "LBody", "Table", "TH", "TD", "Figure", "Caption", "BlockQuote",
            "Link", "TOC"} <= set(names)  # fmt: skip
    assert names.count("THead") == names.count("Table") == 4  # dates, fittings, the passage's own, timber
    levels = [int(name[1]) for name in names if name[0] == "H" and name[1:].isdigit()]
    assert all(after - before <= 1 for before, after in itertools.pairwise(levels))
    alts = [alt for name, alt in structure if name == "Figure"]
    assert alts == [LEAD.alt, TOLD.alt, TOLD.alt, PIECE.year.title]


def test_bookmarks_lead_to_every_section_in_the_order_of_the_page(booklet):
    outline = [entry.title for entry in reader(booklet.pdf).outline if not isinstance(entry, list)]
    assert outline == [*headings(SHOWN, "h2")[1:], "Fingerprint"]  # but for the list of questions


def test_what_stands_in_a_section_stands_in_its_order_too_and_what_is_folded_there_is_open(booklet):
    text, at = unspaced(words(booklet.pdf)), 0
    for title in headings(SHOWN, "h3"):
        found = text.find(unspaced(title), at)
        assert found >= 0, title
        at = found


def headings(piece, level):
    """The headings of the page of one level, in their order, without marks of severity and botanical names."""
    page = re.sub(r"<(span|i)\b[^>]*>.*?</\1>", "", THEME.client_page(piece))
    return [
        html.unescape(found).strip()
        for found in re.findall(rf"<{level}[^>]*>(.*?)</{level}>", page, re.DOTALL)
    ]


def unspaced(text):
    return "".join(text.split())


def test_all_that_the_page_says_is_in_it(booklet):
    text = words(booklet.pdf)
    told = [
        *(said for h in SHOWN.happens for a in h.aid for said in (a.first, a.never, a.call)),
        *(a.text for a in SHOWN.dangers),
        *(a.text for g in (*SHOWN.everyday, *SHOWN.care, *SHOWN.moving) for a in g.items), *SHOWN.seasons.sentences,
        *(line.value for f in SHOWN.finishes for line in f.lines), *(a.text for a in SHOWN.mending),
        *(m.origin for m in SHOWN.materials), *(line.value for line in SHOWN.record), *(f.ask_for for f in SHOWN.hardware),
        *(line.value for line in SHOWN.information), *(t.botanical for t in SHOWN.timber_statement),
        *SHOWN.loads, *(a.text for a in SHOWN.seasons.advice), *(m.sentence for m in SHOWN.seasons.moving),
        SHOWN.year.sentence, *(line.value for line in SHOWN.gloss), *(m.used_for for m in SHOWN.materials),
        *(a.text for a in (*SHOWN.another, *SHOWN.passing)),
        *(a.text for a in SHOWN.cautions), *SHOWN.contact.address, FINGERPRINT, "Walnut, sawn through",
    ]  # fmt: skip
    whole = unspaced(text)
    for page in reader(booklet.pdf).pages[1:]:  # the foot of a page may stand inside a sentence
        whole = whole.replace(unspaced(page.extract_text().splitlines()[-1]), "", 1)
    missing = [said for said in told if unspaced(said) not in whole]
    assert missing == []


def test_a_passage_is_data_and_never_markup(booklet):
    text = words(booklet.pdf)
    assert "first with #read(x) and $x^2$" in text
    assert "#let code = 1" in text
    assert "<script>alert(1)</script> b @label" in text
    assert b"https://example.org/a?b=1&c=2" in opened(booklet.pdf)
    assert b"secret" not in opened(booklet.pdf)
    assert "secret" not in text


def test_a_passage_becomes_blocks():
    made = blocks(
        PASSAGE, lambda name: {"kind": "picture", "file": name} if name == "photos/a b.jpg" else None
    )
    assert [block["kind"] for block in made] == [
        "paragraph", "picture", "heading", "list", "list", "quote", "table", "code", "rule", "paragraph",
    ]  # fmt: skip
    assert made[1]["file"] == "photos/a b.jpg"
    assert [run["kind"] for run in made[0]["runs"] if run["kind"] != "text"] == [
        "strong",
        "emph",
        "code",
        "link",
    ]
    assert "secret" not in str(made)
    assert made[3]["ordered"] is True
    assert made[6]["rows"] == [[[{"kind": "text", "text": "Top"}], [{"kind": "text", "text": "19 mm"}]]]
    assert blocks("", lambda name: None) == blocks("![gone](x.jpg)", lambda name: None) == []


def test_the_same_piece_gives_the_same_bytes(booklet):
    assert care_booklet(SHOWN, THEME, pictures=PICTURES, fingerprint=FINGERPRINT).pdf == booklet.pdf


def test_a_piece_without_a_day_bears_a_fixed_one():
    pdf = care_booklet(replace(SHOWN, dated=None), THEME, pictures=PICTURES).pdf
    assert reader(pdf).metadata.creation_date.date() == NO_DAY


@pytest.mark.parametrize(
    "bare",
    [
        {"lead": None, "gallery": (), "story": ()},
        {"dangers": (), "everyday": (), "care": (), "moving": (), "mending": (), "cautions": (), "due": ()},
        {
            "materials": (),
            "timber_statement": (),
            "hardware": (),
            "record": (),
            "information": (),
            "figures": (),
        },
        {"number": "", "page_address": "", "introduction": "", "label": (), "finishes": ()},
        {
            "title": " ",
            "kind": "",
            "finishes": (FinishStory(" ", "", ()),),
            "materials": (Material("", "", "", "", ""),),
        },
        {"title": "漢字 " * 40 + "W" * 300, "introduction": "so long " * 900},
    ],
)
def test_a_piece_with_little_to_say_or_too_much_has_a_booklet(bare):
    made = care_booklet(replace(SHOWN, **bare), THEME, pictures=PICTURES)
    width = float(reader(made.pdf).pages[0].mediabox.width)
    for _, sign, _, (left, _, right, _) in characters(made.pdf):
        assert 0 <= left <= right <= width, sign


def test_a_sign_without_a_letterform_is_named_and_shown_as_a_box():
    made = care_booklet(replace(SHOWN, introduction="Made with 愛 and \x07 and ½"), THEME, pictures=PICTURES)
    assert "Made with □ and □ and ½" in words(made.pdf, 0)
    assert ["“愛”" in p.message and "U+0007" in p.message for p in made.problems] == [True]


def test_a_template_at_fault_is_named_with_its_line(tmp_path):
    template = tmp_path / "card.typ"
    template.write_text("#let a = 1\n#nothing\n")
    with pytest.raises(TypesetError, match=r"^card\.typ, line 2: unknown variable: nothing$"):
        typeset(template, {}, {}, None)


def test_a_template_reaches_nothing_outside_its_folder(tmp_path):
    (tmp_path / "secret.txt").write_text("secret")
    template = tmp_path / "card.typ"
    for path in ("../secret.txt", str(tmp_path / "secret.txt"), "secret.txt"):
        template.write_text(f'#read("{path}")')
        with pytest.raises(TypesetError):
            typeset(template, {}, {}, None)


def test_nothing_private_is_printed(canary_job):  # noqa: F811
    """The job of the boundary test, whose every private field and every picture's metadata holds a canary."""
    job = read_job(canary_job)
    piece, _, _, _ = pages_of(job)
    pictures = {}
    for photo_ in job.photos:
        files = dict(encode(photo_.path, copies_of(photo_.digest, photo_.width, photo_.height)))
        pictures[photo_.digest] = next(iter(files.values()))
    booklet = care_booklet(piece, THEME, pictures=pictures, fingerprint=FINGERPRINT)
    card = care_card(card_of(piece, FINGERPRINT), THEME, picture=pictures[piece.lead.digest])
    assert "What the client reads." in words(booklet.pdf)
    for printed in (booklet, card):
        said = words(printed.pdf) + str(printed.problems) + str(tags(printed.pdf)) + metadata(printed.pdf)
        for needle in (CANARY, NUMBER):
            assert needle.lower() not in said.lower()
            for coded in (needle.encode(), needle.encode("utf-16-be"), needle.encode("utf-16-le")):
                assert coded not in opened(printed.pdf)
    assert (
        len([name for name, _ in tags(booklet.pdf) if name == "Figure"]) == 4
    )  # lead, told, second, the year's curve; not the private one
