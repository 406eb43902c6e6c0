"""Every print is checked by a program that had no part in making it: PDF/UA-1 and what WCAG asks of a document.

Both themes, the sample and the ten jobs, the card in each of its formats, letters in two languages; and a piece whose
every text holds addresses.
"""

import hashlib
import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from outloud import check

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.job import find_jobs, read_job
from buildbook.pages.client.card import card_of
from buildbook.pages.client.piece import Advice, Contact, Line, Picture, Told
from buildbook.pages.reach import dialled
from buildbook.render.copies import copies_of
from buildbook.render.html.theme import load_theme, theme_names
from buildbook.render.print.booklet import care_booklet
from buildbook.render.print.card import SIZES_MM, care_card
from buildbook.render.print.full_size import full_size_pdf
from buildbook.render.print.letter import letter_pdf
from buildbook.render.print.wall import wall_pdf
from tests.conftest import SAMPLE
from tests.estimates import SHELF
from tests.render.print.test_letter import LETTERS
from tests.render.printed import photo, reader, tags

FINGERPRINT = "7F3K-9QWM-2XAB-V"
TEMPLATES = ("booklet.typ", "card.typ", "letter.typ", "wall.typ", "templates.typ")
HEARD_TWICE = "FIG-011"  # an alternative text that is the caption again; the checker calls it a remark
OF_THE_CHECKER = {"ORD-001"}
"""It counts what stands in a link as out of order, since it lists a paragraph's own words before those in its links."""


@pytest.fixture(scope="module")
def books(tmp_path_factory):
    place = tmp_path_factory.mktemp("prints")
    for folder in (SAMPLE, SHELF):
        assert bind(folder, place / folder.name).ok
    return place


def pieces(book, folder):
    """Each piece of a folder with its pictures as the prints show them."""
    for path in find_jobs(folder):
        piece, log, _, _ = pages_of(read_job(path))
        photos = book / folder.name / "handover" / path.name / "photos"
        yield (
            path.name,
            piece,
            log,
            {
                p.digest: (photos / copies_of(p.digest, p.width, p.height)[-1].name).read_bytes()
                for p in piece.pictures()
            },
        )


def differing():
    """The themes whose prints are not those of another."""
    by_templates = {}
    for name in theme_names():
        theme = load_theme(name)
        by_templates.setdefault(tuple(theme.file(file).read_bytes() for file in TEMPLATES), (name, theme))
    return list(by_templates.values())


class Checker:
    """Tells what is amiss with a print, each different one once."""

    def __init__(self, place):
        self.place, self.done, self.found = place, set(), []

    def look_at(self, name, pdf):
        digest = hashlib.sha256(pdf).hexdigest()
        if digest in self.done:
            return
        self.done.add(digest)
        file = self.place / f"{len(self.done)}.pdf"
        file.write_bytes(pdf)
        result = check(str(file))
        assert not result.error
        assert [run.rule for run in result.runs if run.status == "crashed"] == []
        self.found += [
            f"{name}: {f.severity} {f.rule}, page {f.page}: {f.message} ({f.evidence})"
            for f in result.sorted_findings()
            if (f.severity != "info" and f.rule not in OF_THE_CHECKER) or f.rule == HEARD_TWICE
        ]


@pytest.fixture
def checker(tmp_path):
    return Checker(tmp_path)


def test_no_print_of_any_job_in_any_theme_has_a_fault(books, checker):
    for name, theme in differing():
        for folder in (SAMPLE, SHELF):
            for job, piece, log, pictures in pieces(books, folder):
                booklet = care_booklet(piece, theme, pictures=pictures, fingerprint=FINGERPRINT)
                checker.look_at(f"{job}, booklet, {name}", booklet.pdf)
                checker.look_at(f"{job}, wall sheet, {name}", wall_pdf(log.wall, theme).pdf)
                if log.full_size:
                    sheets = full_size_pdf(log.full_size, theme, {})
                    checker.look_at(f"{job}, in full size, {name}", sheets.pdf)
                lead = pictures[piece.lead.digest] if piece.lead else None
                for size in SIZES_MM:
                    for bleed in (False, True):
                        card = care_card(
                            card_of(piece, FINGERPRINT), theme, size=size, bleed=bleed, picture=lead
                        )
                        checker.look_at(f"{job}, card {size}{', bleed' if bleed else ''}, {name}", card.pdf)
        for key, letter in LETTERS.items():
            checker.look_at(f"{key}, letter, {name}", letter_pdf(letter, theme).pdf)
    assert len(checker.done) >= 11 * 6 + len(LETTERS)
    assert checker.found == []


def test_the_checker_finds_a_table_without_headings_and_a_picture_without_words(tmp_path, checker):
    """So that the test above cannot pass for a checker that looks at nothing."""
    import typst

    (tmp_path / "picture.jpg").write_bytes(photo(80, 60))
    (tmp_path / "main.typ").write_text(
        '#set document(title: "t")\n#set text(lang: "en")\n= Head\n#table(columns: 2, [a], [b], [c], [d])\n'
        '#("See https://example.org/a for more.")\n'
        '#figure(image("picture.jpg", alt: "the same words"), caption: [the same words], numbering: none, supplement: none)'
    )
    pdf = typst.compile(str(tmp_path / "main.typ"), format="pdf", pdf_standards=["ua-1"])
    checker.look_at("bad", pdf)
    assert {re.search(r"[A-Z]{3}-\d+", line)[0] for line in checker.found} >= {
        "TBL-001",
        "LNK-010",
        HEARD_TWICE,
    }


# -- links -------------------------------------------------------------------------------------------

WEB, MAIL = "https://care.example/oil?kind=hard&no=2", "bench.work@care.example"
SAID = f"Ask {MAIL}, or see {WEB}. (Also http://a.example/.)"
CONTACT = Contact(
    "Shop", "Maker", ("1 Lane",), MAIL, "+49 (0)30 23125-000", "https://shop.example", "Germany"
)


@pytest.fixture(scope="module")
def spoken():
    """A piece whose texts speak of addresses, some in links already."""
    piece, _, _, _ = pages_of(read_job(SAMPLE))
    advice = Advice("k", SAID, SAID, SAID, "warning", "Warning", "")
    markdown = (
        f"{SAID}\n\n- {SAID}\n- [shown {WEB}](https://real.example/) and <{WEB}>\n\n# {SAID}\n\n> {WEB}"
    )
    return replace(
        piece,
        introduction=SAID,
        contact=CONTACT,
        information=(Line("Use", SAID, SAID),),
        mending=(advice,),
        story=(Told("9 March 2026", markdown),),
        page_address="https://pages.example/2026/",
    )


def targets(pdf):
    links = (a.get_object() for page in reader(pdf).pages for a in page.get("/Annots", ()))
    return {str(link["/A"]["/URI"]) for link in links if "/URI" in link.get("/A", {})}


def test_every_address_in_a_print_leads_there(spoken, checker):
    theme = load_theme("oilstone")
    booklet = care_booklet(spoken, theme, pictures={}).pdf
    everywhere = {WEB, f"mailto:{MAIL}", "http://a.example/", "tel:+493023125000", "https://shop.example"}
    assert targets(booklet) == {*everywhere, "https://real.example/", "https://pages.example/2026/"}
    card_model = replace(card_of(spoken, FINGERPRINT), materials=f"oak, see {WEB}")
    card = care_card(card_model, theme).pdf
    assert {WEB, f"mailto:{MAIL}", "tel:+493023125000", "https://shop.example"} <= targets(card)
    letter = replace(LETTERS["bench"], contact=CONTACT, description=SAID, included=(SAID,))
    printed = letter_pdf(letter, theme).pdf
    assert targets(printed) == everywhere
    for name, pdf in (("booklet", booklet), ("card", card), ("letter", printed)):
        checker.look_at(name, pdf)
    assert checker.found == []


@pytest.mark.parametrize(
    ("phone", "link"),
    [
        ("+353 20 913 0142", "tel:+353209130142"),
        ("01632 960143", "tel:01632960143"),
        ("030/23125-000", "tel:03023125000"),
        ("+49 (0)30 23125", "tel:+493023125"),
        ("(01632) 960143", "tel:01632960143"),
        ("01632 960143 / 960144", ""),
        ("01632 960143 ext 5", ""),
        ("ask for Ned", ""),
        ("12", ""),
        ("", ""),
    ],
)
def test_a_telephone_number_is_dialled_only_where_it_is_one(phone, link):
    assert dialled(phone) == link


# -- alternative texts -------------------------------------------------------------------------------


class Figures(HTMLParser):
    """The alternative text and the caption of every figure of a page."""

    def __init__(self, page):
        super().__init__()
        self.found, self._in, self._alt, self._caption = [], False, None, ""
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        if tag == "figure":
            self._alt, self._caption = None, ""
        elif tag == "img":
            self._alt = dict(attrs).get("alt")
        self._in = tag == "figcaption" or (self._in and tag in ("b", "br", "sup", "sub"))

    def handle_endtag(self, tag):
        if tag == "figcaption":
            self._in = False
        elif tag == "figure" and self._alt is not None:
            self.found.append((self._alt.strip(), " ".join(self._caption.split())))

    def handle_data(self, data):
        if self._in:
            self._caption += data


@pytest.mark.parametrize("theme", theme_names())
def test_a_picture_on_a_page_says_what_it_is_and_not_its_caption_again(books, theme):
    captioned = 0
    for folder in (SAMPLE, SHELF):
        for path in find_jobs(folder):
            piece, log, _, _ = pages_of(read_job(path))
            for page in (load_theme(theme).client_page(piece), load_theme(theme).log_page(log, "")):
                for alt, caption in Figures(page).found:
                    assert alt
                    assert alt.casefold() != caption.casefold()
                    captioned += bool(caption)
    assert captioned > 40


def test_in_a_print_a_picture_without_its_caption_beside_it_is_described_by_it(spoken):
    lead = Picture("lead", 400, 300, "Photograph: Sideboard", "The sideboard from the front")
    piece = replace(spoken, lead=lead, gallery=(lead,), story=(), year=None)
    booklet = care_booklet(piece, load_theme("oilstone"), pictures={"lead": photo(400, 300)}).pdf
    assert [alt for name, alt in tags(booklet) if name == "Figure"] == [lead.caption, lead.alt]
    card = care_card(card_of(piece), load_theme("oilstone"), picture=photo(400, 300)).pdf
    assert next(alt for name, alt in tags(card) if name == "Figure") == lead.caption
