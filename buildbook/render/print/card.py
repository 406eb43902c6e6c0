"""The printed care card: a `CareCard` in, a PDF of two sides out.

The template measures; this module says what it may choose from: arrangements from the roomiest to the
barest, of which the first that fits is set. The front shows the piece, what it is made of and how to reach its
maker; the back what to know. Type goes from 10 pt down to 8 pt, then the picture gives room, then lines are left
out from the least weighty on, and the card says where the rest is. Nothing is clipped.

A print shop's copy has 3 mm of bleed and marks to cut by. The typesetter writes the TrimBox; the marks lie in
a margin outside the bleed, so the MediaBox is larger than both. It writes no BleedBox, and adding one would
take a second PDF library at run time for a box that the marks and the TrimBox make needless.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from typing import Any

from buildbook.pages.client.card import CardCopy, CardItem, CareCard
from buildbook.problems import Problem, listed
from buildbook.render.colour import accent
from buildbook.render.html.theme import Theme
from buildbook.render.print.typeset import LeftOut, Printed, Typeset, TypesetError, typeset, unshown_problem
from buildbook.render.sparing import sparing
from buildbook.words import Words

FILE = "care-card.pdf"
SIZES_MM: dict[str, tuple[float, float]] = {
    "A6": (105.0, 148.0),  # ISO 216
    "4x6": (101.6, 152.4),  # 4 × 6 in
}
TYPE_PT = (10.0, 9.5, 9.0, 8.5, 8.0)
ENOUGH_THINGS = 5  # one more is told where there is room for it, and not missed where there is none
_PAPER = "#ffffff"  # a card is printed on white stock, whatever the page's ground is
_CARD_QR, _QR_BORDER = "page.svg", 4  # ISO/IEC 18004 asks for a quiet zone of four modules


@dataclass(frozen=True)
class Arrangement:
    """One way to fill the card: how large the type, how much of each list; `tight`: the picture gives way to words."""

    type_pt: float
    tight: bool
    cautions: int
    things: int
    dates: int
    made: int
    contact: int

    @property
    def lines(self) -> int:
        return self.cautions + self.things + self.dates + self.made + self.contact


def arrangements(card: CareCard) -> tuple[Arrangement, ...]:
    """What the template may choose from, best first. Pure.

    Left out last are cautions, and of them the first: they stand in the order of their weight.
    """
    made = len(card.finishes) + bool(card.materials)
    full = Arrangement(
        TYPE_PT[0],
        False,
        len(card.cautions),
        len(card.things),
        max(len(copy.dates) for copy in _copies(card)),
        made,
        len(card.contact),
    )
    ways = [replace(full, type_pt=size) for size in TYPE_PT]
    ways.append(replace(ways[-1], tight=True))
    return tuple(dict.fromkeys([*ways, *_fewer(ways[-1])]))


def _copies(card: CareCard) -> tuple[CardCopy, ...]:
    """The cards to print: one a piece, or one for all."""
    return card.copies or (CardCopy(card.number, "", card.finishes, card.dates),)


def _fewer(way: Arrangement) -> Iterator[Arrangement]:
    """One line less each time: a thing beyond those that are enough, dates, lesser things, finishes, ways to reach the
    maker, at last cautions.
    """
    for name, least in (
        ("things", ENOUGH_THINGS),
        ("dates", 1),
        ("things", 3),
        ("made", 1),
        ("dates", 0),
        ("things", 0),
        ("contact", 1),
        ("made", 0),
    ):
        while getattr(way, name) > least:
            way = replace(way, **{name: getattr(way, name) - 1})
            yield way
    while way.cautions:
        way = replace(way, cautions=way.cautions - 1)
        yield way


def care_card(
    card: CareCard, theme: Theme, *, size: str = "A6", bleed: bool = False, picture: bytes | None = None
) -> Printed:
    """The card as PDF/A-2a and PDF/UA-1, trimmed to `size`.

    `picture` is a JPEG of our own, upright and without metadata, since it is put in byte for byte. With
    `bleed` the page is larger by the picture's bleed and the marks to cut by; its TrimBox is the card.
    Raises `TypesetError` when the theme's template is at fault.
    """
    ways = arrangements(card)
    files = {"picture.jpg": picture} if picture else {}
    if card.address:
        files[_CARD_QR] = _qr(card.address)
    width_mm, height_mm = SIZES_MM[size]
    data = {
        "page": {"width_mm": width_mm, "height_mm": height_mm, "bleed": bleed},
        "picture": {"file": "picture.jpg", "alt": card.picture_alt or card.title} if picture else None,
        "qr": {"file": _CARD_QR, "modules": _qr_modules(card.address)} if card.address else None,
        "ways": [{**asdict(way), "rest": way.lines < ways[0].lines or card.shortened > 0} for way in ways],
        **_texts(card),
    }

    def set_(parts: Sequence[str]) -> Typeset:
        some = data if parts else data | {"picture": None}
        return typeset(theme.file("card.typ"), some, files, card.dated, theme.look)

    made, bad = sparing(set_, ["picture"] if picture else [])
    if not isinstance(made.report, dict) or not made.report.get("fits"):
        raise TypesetError(f"card.typ: the barest arrangement does not fit on {size}")
    left_out = tuple(LeftOut(None, why) for why in bad.values())
    return Printed(made.pdf, tuple(_problems(ways[0], ways[made.report["way"]], made.unshown)), left_out)


def _texts(card: CareCard) -> dict[str, Any]:
    words = Words(card.language)
    colours = accent(card.wood_colours[1], _PAPER)
    copies = _copies(card)
    told = {(copy.finishes, copy.dates, copy.delivered): place for place, copy in enumerate(copies)}
    return {
        "language": card.language,
        "file_title": words.text("card.title_of_file", title=card.title),
        "words": dict(words.section("card")),
        "accent": {"text": {"colour": colours.text}, "line": {"colour": colours.line}},
        "title": card.title,
        "copies": [_copy(copy, card, words) for copy in copies],
        "measured": list(told.values()),
        "maker": list(card.maker),
        "cautions": [_thing(t) for t in card.cautions],
        "things": [_thing(t) for t in card.things],
        "contact": [{"text": way.text, "to": way.to} for way in card.contact],
        "ask": {"text": card.ask.text, "to": card.ask.to} if card.ask else None,
        "address": card.address,
        "page_address": {"text": card.address_said, "to": card.address} if card.address_said else None,
        "fingerprint": card.fingerprint,
    }


def _copy(copy: CardCopy, card: CareCard, words: Words) -> dict[str, Any]:
    """What one card says that another of the set may not."""
    made = [{"label": words.text("card.materials"), "text": card.materials}] if card.materials else []
    made += [{"label": f.label, "text": f.value, "note": f.note} for f in copy.finishes]
    return {
        "number": copy.number,
        "delivered": copy.delivered,
        "made": made,
        "dates": [{"day": d.label, "what": d.value, "again": d.note} for d in copy.dates],
    }


def _thing(thing: CardItem) -> dict[str, str]:
    return {"caution": thing.caution, "title": thing.title, "text": thing.text}


def _qr(address: str) -> bytes:
    """The address as an SVG of square modules, with its quiet zone."""
    import segno

    out = io.BytesIO()
    segno.make_qr(address, error="m").save(out, kind="svg", omitsize=True, border=_QR_BORDER, xmldecl=False)
    return out.getvalue()


def _qr_modules(address: str) -> float:
    """Modules a side, the quiet zone included: the template sizes the code by them."""
    import segno

    return segno.make_qr(address, error="m").symbol_size(border=_QR_BORDER)[0]


_CALLED = {
    "cautions": "cautions",
    "things": "things to know",
    "dates": "dates",
    "made": "lines on wood and finish",
    "contact": "lines of the address",
}


def _problems(full: Arrangement, way: Arrangement, unshown: tuple[str, ...]) -> Iterator[Problem]:
    """What the card had to leave out, and the signs it could not show."""
    every, shown = asdict(replace(full, things=min(full.things, max(way.things, ENOUGH_THINGS)))), asdict(way)
    missing = [
        f"{every[n] - shown[n]} of {every[n]} {called}"
        for n, called in _CALLED.items()
        if shown[n] < every[n]
    ]
    if missing:
        yield Problem(
            "warning",
            FILE,
            f"has no room for {listed(missing)}; it says that the rest is on the page.",
            "Shorter titles and product names make room.",
        )
    yield from unshown_problem(FILE, unshown)


__all__ = ["ENOUGH_THINGS", "FILE", "SIZES_MM", "TYPE_PT", "Arrangement", "arrangements", "care_card"]
