"""The printed card: two sides of the right size, all of it legible and inside the margin, whatever the maker wrote."""

from dataclasses import replace
from datetime import date

import pytest
import segno
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from buildbook.pages.client.card import THINGS, card_of
from buildbook.pages.client.piece import Due, Material, Short
from buildbook.render.html.theme import load_theme
from buildbook.render.print.card import ENOUGH_THINGS, SIZES_MM, TYPE_PT, arrangements, care_card
from tests.conftest import SAMPLE
from tests.render.printed import (
    MM_PT,
    characters,
    code_modules,
    fonts,
    ink,
    metadata,
    photo,
    reader,
    size_mm,
    tags,
    words,
)  # fmt: skip

THEME = load_theme("oilstone")
PIECE, _, _, _ = pages_of(read_job(SAMPLE))
FINGERPRINT = "7F3K-9QWM-2XAB-V"
CARD = card_of(PIECE, FINGERPRINT)
WIDE, TALL = photo(), photo(756, 1008)
MARGIN_PT = 4 * MM_PT
LONG = (
    "A long, low sideboard of quarter-sawn oak with book-matched doors and three drawers dovetailed by hand "
    * 3
)


def long_piece():
    """Everything a maker could write, at length."""
    return replace(
        PIECE,
        title=LONG,
        number="2026-007, the third of three of the second series",
        day_one=PIECE.day_one * 3,
        materials=tuple(Material(f"{LONG[:40]} {n}", "Quercus robur", "", "", "") for n in range(20)),
        finishes=tuple(replace(f, title=LONG) for f in PIECE.finishes * 3),
        due=tuple(Due(f"look-{n}", date(2027, 1, 1 + n), LONG, "", 6) for n in range(12)),
        contact=replace(
            PIECE.contact, address=(LONG,) * 3, name=LONG, maker=LONG, email="a" * 80 + "@example.org"
        ),
    )


def shown_inside_the_margin(pdf):
    """Every sign at least 4 mm inside the trimmed card and no smaller than 8 pt; nothing else near the edge."""
    boxes = [page.trimbox for page in reader(pdf).pages]
    for page, sign, size, (left, bottom, right, top) in characters(pdf):
        box = boxes[page]
        assert size >= TYPE_PT[-1] - 0.01, (sign, size)
        assert left >= float(box.left) + MARGIN_PT, sign
        assert right <= float(box.right) - MARGIN_PT, sign
        assert bottom >= float(box.bottom) + MARGIN_PT, sign
        assert top <= float(box.top) - MARGIN_PT, sign
    return True


@pytest.mark.parametrize("size", SIZES_MM)
@pytest.mark.parametrize("picture", [WIDE, TALL, None], ids=["wide", "tall", "none"])
@pytest.mark.parametrize(
    "piece", [PIECE, long_piece(), replace(PIECE, number="", page_address="", due=(), care=())]
)
def test_a_card_is_two_sides_of_its_size_with_everything_inside_the_margin(size, picture, piece):
    card = care_card(card_of(piece, FINGERPRINT), THEME, size=size, picture=picture)
    pages = reader(card.pdf).pages
    assert len(pages) == 2
    expected = {"A6": (105.0, 148.0), "4x6": (101.6, 152.4)}[size]  # ISO 216; 4 in and 6 in of 25.4 mm
    for page in pages:
        assert size_mm(page.mediabox) == size_mm(page.trimbox) == expected
    assert shown_inside_the_margin(card.pdf)
    for page in range(2):
        for left, bottom, right, top in ink(card.pdf, page):
            assert min(left, bottom) >= MARGIN_PT
            assert right <= expected[0] * MM_PT - MARGIN_PT
            assert top <= expected[1] * MM_PT - MARGIN_PT


@pytest.mark.parametrize("size", SIZES_MM)
def test_a_print_shop_gets_bleed_marks_and_a_trim_box(size):
    card = care_card(CARD, THEME, size=size, bleed=True, picture=WIDE)
    for page in reader(card.pdf).pages:
        assert size_mm(page.trimbox) == SIZES_MM[size]
        assert size_mm(page.mediabox) == tuple(
            round(side + 18, 2) for side in SIZES_MM[size]
        )  # 3 bleed, 6 marks
    assert shown_inside_the_margin(card.pdf)
    trim = reader(card.pdf).pages[0].trimbox
    near = [float(trim.left) - 3 * MM_PT, float(trim.right) + 3 * MM_PT]
    marks = [box for box in ink(card.pdf, 0) if box[2] <= near[0] + 0.1 or box[0] >= near[1] - 0.1]
    assert len(marks) >= 4  # the level ones, two a side; none reaches into the bleed


def stands_in_order(parts, text):
    at = [text.index(" ".join(part.split())) for part in parts]
    return at == sorted(at)


def test_the_back_says_what_matters_in_order():
    text = words(care_card(CARD, THEME, picture=WIDE).pdf, 1)
    expected = [
        "Before you use it", *(caution.text for caution in CARD.cautions),
        "Living with it", *(thing.text for thing in CARD.things),
        "Dates to remember", *(row.value for row in CARD.dates),
        "Questions", "01632 960143", "tenterhook.example/pieces/2026-007", FINGERPRINT,
    ]  # fmt: skip
    assert stands_in_order(expected, text)
    assert "https" not in text  # an address as a person types it


def test_the_front_says_what_it_is_of_what_and_whose_and_how_to_reach_them():
    text = words(care_card(CARD, THEME, picture=WIDE).pdf, 0)
    expected = [
        "Sideboard with a slate inset", "Oona Farrier", "Tenterhook Furniture", "European oak",
        *(finish.value for finish in CARD.finishes), "QX1 0ZZ", "01632 960143", "hello@tenterhook.example", "2026-007",
    ]  # fmt: skip
    assert stands_in_order(expected, text)
    assert text.count("2026-007") == 1


def test_six_things_are_chosen_and_no_caution_is_said_twice():
    assert len(CARD.things) == THINGS
    assert not {t.key for t in CARD.things} & {c.key for c in CARD.cautions}
    assert {"tip-over", "magnets-children", "glass-shelf-load", "loaded-weight"} <= {
        c.key for c in CARD.cautions
    }
    assert CARD.things[-1].key == "cure-before-use"
    assert CARD.dates[0].label == "17\xa0April 2027"  # when the finish is hard is among the things
    assert "then each year" in {row.note for row in CARD.dates}


def test_an_instruction_ends_at_a_sentence():
    groups = (*PIECE.everyday, *PIECE.care, *PIECE.moving)
    every = {item.text for group in groups for item in group.items} | {c.text for c in PIECE.cautions}
    for thing in CARD.things[:-1]:
        assert any(text.startswith(thing.text) for text in every)
        assert thing.text.endswith(".")


def test_type_shrinks_before_the_picture_gives_way_and_that_before_anything_is_left_out():
    ways = arrangements(CARD)
    assert [way.type_pt for way in ways[: len(TYPE_PT)]] == list(TYPE_PT)
    assert min(TYPE_PT) >= 8
    gave_way = next(n for n, way in enumerate(ways) if way.tight)
    dropped = next(n for n, way in enumerate(ways) if way.lines < ways[0].lines)
    assert len(TYPE_PT) == gave_way < dropped
    cautions = [way.cautions for way in ways]
    first_cut = cautions.index(cautions[0] - 1)
    assert ways[first_cut - 1].things == ways[first_cut - 1].dates == 0
    assert ways[-1].cautions == 0


def test_the_last_thing_is_told_where_there_is_room_and_not_missed_where_there_is_none():
    ways = arrangements(CARD)
    first = next(way for way in ways if way.lines < ways[0].lines)
    assert (first.things, first.dates) == (ENOUGH_THINGS, ways[0].dates)
    long = replace(CARD, things=tuple(replace(t, text=t.text + " And once more." * 5) for t in CARD.things))
    made = care_card(long, THEME, picture=WIDE)
    assert (
        sum(words(made.pdf, 1).count(t.text.split(" And once")[0][:30]) for t in long.things) == ENOUGH_THINGS
    )
    assert made.problems == ()
    assert "The rest is on the page." in words(made.pdf, 1)


def test_what_has_no_room_is_named_and_the_card_says_where_it_is():
    card = care_card(card_of(long_piece(), FINGERPRINT), THEME, picture=WIDE)
    assert "The rest is on the page." in words(card.pdf, 1)
    assert [p.severity for p in card.problems] == ["warning"]
    assert "has no room for" in card.problems[0].message
    assert all(p.file == "care-card.pdf" for p in card.problems)
    roomy = care_card(replace(CARD, shortened=0), THEME, picture=WIDE)
    assert roomy.problems == ()
    assert "The rest" not in words(roomy.pdf)


def test_the_code_on_the_card_is_that_of_the_page():
    drawn = code_modules(care_card(CARD, THEME, picture=WIDE).pdf, 1)
    expected = segno.make_qr(PIECE.page_address, error="m")
    assert drawn == [[int(module) for module in row] for row in expected.matrix]


def test_without_an_address_there_is_no_code():
    with_code, without = (
        care_card(c, THEME).pdf for c in (CARD, card_of(replace(PIECE, page_address=""), FINGERPRINT))
    )
    assert [name for name, _ in tags(with_code)].count("Figure") == 1
    assert [name for name, _ in tags(without)].count("Figure") == 0


def test_the_card_can_be_kept_and_read_aloud():
    pdf = care_card(CARD, THEME, picture=WIDE).pdf
    xmp = metadata(pdf)
    assert "<pdfaid:part>2</pdfaid:part>" in xmp
    assert "<pdfaid:conformance>A</pdfaid:conformance>" in xmp
    assert "<pdfuaid:part>1</pdfuaid:part>" in xmp
    assert reader(pdf).trailer["/Root"]["/Lang"] == "en"
    structure = tags(pdf)
    assert [name for name, _ in structure if name.startswith("H")] == ["H1", "H2", "H2", "H2"]
    assert all(alt for name, alt in structure if name == "Figure")
    assert reader(pdf).metadata.creation_date.date() == PIECE.dated
    embedded = {name: {"/FontFile", "/FontFile2", "/FontFile3"} & set(d) for name, d in fonts(pdf)}
    assert embedded
    assert all(embedded.values()), embedded


def test_the_same_card_gives_the_same_bytes_and_names_no_machine():
    one, other = (care_card(CARD, THEME, picture=WIDE, bleed=True).pdf for _ in range(2))
    assert one == other
    assert b"/tmp" not in one


def test_letters_of_other_languages_are_printed_and_signs_without_a_letterform_are_named():
    piece = replace(PIECE, title="Geschirrschränkchen aus Nußbaum", number="№ 7, 2 ㎡",
                    contact=replace(PIECE.contact, maker="Jörg Müßiggänger 漢 😀"))  # fmt: skip
    card = care_card(card_of(piece), THEME, picture=WIDE)
    text = words(card.pdf)
    assert "Geschirrschränkchen aus Nußbaum" in text
    assert "№ 7, 2 m2" in text
    assert "Jörg Müßiggänger □ □" in text
    assert len(card.problems) == 1
    assert "“漢”" in card.problems[0].message
    assert "grinning face" in card.problems[0].message


def test_text_is_never_markup():
    card = care_card(card_of(replace(PIECE, title='#read("/etc/passwd") $x$ *b* @a <b> \\')), THEME)
    assert '#read("/etc/passwd") $x$ *b* @a <b> \\' in words(card.pdf, 0)


TEXTS = st.one_of(
    st.text(st.characters(codec="utf-8"), max_size=200),
    st.text("Wm i.,-/@漢\u202f\n", max_size=600),
    st.integers(0, 500).map(lambda n: "W" * n),
)


@settings(max_examples=30, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    texts=st.lists(TEXTS, min_size=9, max_size=9), many=st.integers(0, 30),
    size=st.sampled_from(list(SIZES_MM)), shape=st.sampled_from([(300, 200), (200, 300), (300, 1000), (1000, 250), None]),
)  # fmt: skip
def test_nothing_a_maker_writes_runs_over_or_becomes_too_small(texts, many, size, shape):
    picture = photo(*shape) if shape else None
    piece = replace(
        PIECE,
        title=texts[0],
        number=texts[1],
        contact=replace(PIECE.contact, maker=texts[2], name=texts[3], address=(texts[4],), email=texts[5]),
        day_one=tuple(Short(texts[6], f"c{n}", "warning", "Warning") for n in range(many)),
        materials=tuple(Material(f"{texts[7]}{n}", "", "", "", "") for n in range(many)),
        finishes=tuple(replace(f, title=texts[8]) for f in PIECE.finishes),
        page_address="https://example.org/" + "a" * (many * 7),
    )
    card = care_card(card_of(piece, FINGERPRINT), THEME, size=size, picture=picture)
    assert len(reader(card.pdf).pages) == 2
    assert shown_inside_the_margin(card.pdf)


def test_strokes_and_spaces_that_do_not_break_still_end_a_line():
    """Found by the test above: a list of `/0 0` joined by narrow spaces was one word to the typesetter."""
    piece = replace(PIECE, materials=tuple(Material(f"/0\u202f{n}", "", "", "", "") for n in range(17)))
    card = care_card(card_of(piece, FINGERPRINT), THEME, size="A6", picture=photo(300, 200))
    assert shown_inside_the_margin(card.pdf)
