"""What the tables of keys and columns say of what leaves is the truth, of every one of them.

no: nothing that a client gets is another, to the last byte, whatever is written there. effect: something is, and the
value is nowhere to be read. yes: it can be read there. Of a figure this is told by turning it: what is read must turn
with it.
"""

import dataclasses
import html
import io
import re
from dataclasses import replace
from datetime import date

import pypdf
import pytest

from buildbook.book.bind import bind
from buildbook.book.bind_job import pages_of
from buildbook.estimate.past import past_job
from buildbook.estimate.reckon import reckon
from buildbook.job import (
    adds_model,
    find_jobs,
    holding_model,
    log_model,
    model,
    photo_model,
    read_job,
    read_shop,
    shop_model,
)
from buildbook.job.toml.key import Key
from buildbook.pages.letter.letter import letter_of
from buildbook.render.html.theme import load_theme
from buildbook.render.print.letter import letter_pdf
from buildbook.words import Words
from tests.conftest import ROOT, every_file
from tests.leaving import (
    BASES,
    CANARY,
    DECIDED,
    EVERY,
    FOLDER,
    Place,
    fields_decided,
    lay,
    value,
)
from tests.test_boundary import opened

ASKED = date(2026, 5, 1)
NOT_ORDERED = frozenset((Place("job.toml", "", "begun"), Place("job.toml", "", "delivered")))
NONE = frozenset()


def staying(what: str) -> frozenset[Place]:
    return frozenset(place for place, key in DECIDED.items() if getattr(key.leaves, what) == "no")


def saying(what: str, how: str) -> list[Place]:
    return [place for place, key in DECIDED.items() if getattr(key.leaves, what) == how]


RECORDS = [
    record
    for module in (model, holding_model, log_model, adds_model, photo_model, shop_model)
    for record in vars(module).values()
    if isinstance(record, type)
    and record.__module__ == module.__name__
    and (dataclasses.is_dataclass(record) or hasattr(record, "_fields"))
]


@pytest.mark.parametrize("record", RECORDS, ids=lambda record: record.__name__)
def test_every_field_of_a_record_is_decided(record):
    """By its key or column, or among those that are none."""
    names = getattr(record, "_fields", None) or [field.name for field in dataclasses.fields(record)]
    assert sorted(fields_decided()[record]) == sorted(names)


def test_every_key_and_column_is_decided():
    """There is no default to be forgotten; a table that holds others leaves as the most of its keys does."""
    with pytest.raises(TypeError):
        Key("name", "text", '"x"', "Meaning.")
    for place, key in EVERY.items():
        assert {key.leaves.page, key.leaves.letter} <= {"no", "effect", "yes"}, place


# -- what leaves -----------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    return tmp_path_factory.mktemp("leaves")


@pytest.fixture(scope="module")
def past():
    shelf = ROOT / "tests" / "shelf"
    shop, _ = read_shop(shelf)
    return [read_job(path, shop, pictures=False) for path in find_jobs(shelf)]


@pytest.fixture(scope="module")
def page(place):
    """What a handover is made of, of a base with some keys turned; each made once."""
    made = {}

    def of(base, turned=NONE):
        if (base, turned) not in made:
            job = read_job(lay(place, BASES[base], turned))
            made[base, turned] = (pages_of(job)[0], job.shop.card, job.shop.theme)
        return made[base, turned]

    return of


@pytest.fixture(scope="module")
def letter(place, past):
    """What a letter is made of: the wish with its parts, and of its woods and sizes alone."""
    made = {}

    def of(base, turned=NONE):
        if (base, turned) not in made:
            made[base, turned] = tuple(_letter(base, turned, alone) for alone in (False, True))
        return made[base, turned]

    def _letter(base, turned, alone):
        wish = replace(BASES[base], without=BASES[base].without | NOT_ORDERED)
        folder = lay(place, wish, turned)
        (folder / "notes.md").write_text("")
        if alone:
            (folder / "parts.csv").unlink()
        job = read_job(folder, pictures=False)
        shop = replace(job.shop, stages=(*job.shop.stages, "milling", "joinery"))
        known = [past_job(replace(one, shop=shop)) for one in past]
        return letter_of(reckon(job, known, ASKED)), job.shop.theme

    return of


WHAT = ("page", "letter")


@pytest.fixture(scope="module")
def made(page, letter):
    return {"page": page, "letter": letter}


@pytest.mark.parametrize("what", WHAT)
@pytest.mark.parametrize("base", BASES)
def test_what_stays_changes_nothing(base, what, made):
    """All that stays is turned at once; what it changed is named one by one."""
    plain = made[what](base)
    if made[what](base, staying(what)) == plain:
        return
    assert [str(p) for p in staying(what) if made[what](base, frozenset((p,))) != plain] == []


@pytest.mark.parametrize("what", WHAT)
@pytest.mark.parametrize("how", ["effect", "yes"])
def test_what_leaves_changes_something(what, how, made):
    idle = [
        str(place)
        for place in saying(what, how)
        if all(made[what](base, frozenset((place,))) == made[what](base) for base in BASES)
    ]
    assert not idle, idle


# -- what can be read ------------------------------------------------------------------------------

SHOWN_AS = {
    "GB": ("United Kingdom", '"name": "GB"'),
    "US": ("United States",),
    "FR": ("France",),
    "EUR": ("€",),
    "CHF": ("CHF",),
    "1-4": ("1–4",),
    "1-5": ("1–5",),
}
"""How words of the world are shown."""

BARE = re.compile(r"<(script|style|svg)\b.*?</\1>|<[^>]*>", re.DOTALL)


PAGE_NUMBERS = re.compile(r"\s\d+\s*\Z|(?:\.\s*){3,}\d+")
"""At the foot of a page, and in a list of contents: they say nothing of a job."""


def readable(files):
    """The words of some files as a reader has them: without marks, links and blanks between."""
    out = []
    for name, content in files.items():
        if name.endswith(".pdf"):
            pages = pypdf.PdfReader(io.BytesIO(content)).pages
            out += [PAGE_NUMBERS.sub("", page.extract_text()) for page in pages]
        elif name.endswith(".html"):
            text = content.decode()
            out += [html.unescape(BARE.sub(" ", text)), *re.findall(r'(?:href|lang|alt)="([^"]*)"', text)]
        elif name.endswith((".ics", ".jsonld")):
            out.append(content.decode().replace("\r\n ", "").replace("\\", ""))
    return "".join(" ".join(out).split()).casefold()


def forms(key, written):
    """How a value may stand on a page."""
    if key.reads in ("date", "dates"):
        day = date.fromisoformat(written[:10])
        shown = [day.isoformat()]
        for words in (Words("en"), Words("en-US")):  # a shop in the United States writes as one does there
            shown += [words.date(day), words.date(day)[:-5].rstrip(","), words.month(day)]
    elif match := re.fullmatch(r"([\d.]+)( \S+)?", written):
        number = float(match[1])
        shown = [f"{number:g}", f"{number:,g}"]
    else:
        shown = SHOWN_AS.get(written, (written, written.replace("-", " ")))
    return {"".join(form.split()).casefold() for form in shown}


def stands_in(text, key, written):
    """Whether a value is there; a figure not as a piece of a longer one."""
    return any(
        re.search(
            rf"(?<!\d)(?<!\d[.,]){re.escape(form)}(?![\d]|[.,]\d)" if form[0].isdigit() else re.escape(form),
            text,
        )
        for form in forms(key, written)
    )


@pytest.fixture(scope="module")
def read_of(tmp_path_factory, place, past):
    """Every byte that leaves, of some bases: as they are, and with what can be read turned."""
    made = {}

    def of(what, base, turned):
        if (what, base, turned) not in made:
            made[what, base, turned] = (_handed if what == "page" else _sent)(base, turned)
        return made[what, base, turned]

    def _handed(base, turned):
        folder = lay(place, BASES[base], turned)
        book = tmp_path_factory.mktemp("book")
        bound = bind(folder, book)
        assert bound.ok, [str(problem) for problem in bound.jobs[0].problems]
        return every_file(book / "handover" / FOLDER)

    def _sent(base, turned):
        wish = replace(BASES[base], without=BASES[base].without | NOT_ORDERED)
        job = read_job(lay(place, wish, turned), pictures=False)
        shop = replace(job.shop, stages=(*job.shop.stages, "milling", "joinery"))
        sent = letter_of(reckon(job, [past_job(replace(one, shop=shop)) for one in past], ASKED))
        theme = load_theme(job.shop.theme)
        return {"index.html": theme.letter_page(sent).encode(), "letter.pdf": letter_pdf(sent, theme).pdf}

    return of


READ = ("whole", "lean", "chosen")


@pytest.mark.parametrize("what", WHAT)
def test_what_can_be_read_is_there(what, read_of):
    """Each value stands in one of the jobs, and goes away when it is turned."""
    turned = frozenset(saying(what, "yes"))
    unread = set(turned)
    for base in READ:
        texts = [readable(read_of(what, base, some)) for some in (NONE, turned)]
        for place in turned - BASES[base].without:
            first, second = (value(place, way, BASES[base]) for way in (False, True))
            key = EVERY[place]
            there = stands_in(texts[0], key, first) and stands_in(texts[1], key, second)
            gone = not stands_in(texts[1], key, first) or not stands_in(texts[0], key, second)
            if there and gone:
                unread.discard(place)
    assert not unread, sorted(map(str, unread))


@pytest.mark.parametrize("what", WHAT)
@pytest.mark.parametrize("base", READ)
def test_what_stays_is_in_no_byte(what, base, read_of):
    """Words that stay, or that only have an effect; the folder's name, the pictures' names, a hidden row."""
    hidden = [
        value(p, False, BASES[base])
        for how in ("no", "effect")
        for p in saying(what, how)
        if p not in BASES[base].without
    ]
    needles = {word for word in hidden if CANARY.lower() in word.lower()} | {
        FOLDER,
        f"{CANARY}hidden",
        f"{CANARY}entry",
        f"{CANARY}folder",
    }
    found = []
    for name, content in read_of(what, base, NONE).items():
        inside = opened(content, name).lower()
        found += [
            f"{needle} in {name}"
            for needle in needles
            if needle.lower() in name.lower()
            or any(needle.lower().encode(code) in inside for code in ("utf-8", "utf-16-le", "utf-16-be"))
        ]
    assert not found, found
