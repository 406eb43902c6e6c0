"""The printed booklet: the whole care-and-provenance page as an A5 document to be kept and to be read aloud.

In: a `ClientPiece`, the pictures by their digest, the fingerprint of the handover. Out: a PDF. All that the
page says is in it, under the page's headings and in their order, what is folded there open; the maker's passages come
as data, never as markup.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any
from urllib.parse import unquote

from buildbook.care import Happening
from buildbook.pages.client.card import again, still_to_come, title_of
from buildbook.pages.client.piece import Advice, ClientPiece, Line, Picture, Told
from buildbook.pages.drawn.year import YearOfSeasons
from buildbook.pages.phrases import Phrases
from buildbook.pages.reach import is_web, ways
from buildbook.quantity import Style
from buildbook.render.colour import accent
from buildbook.render.html.theme import Theme
from buildbook.render.print.drawn import drawn
from buildbook.render.print.passage import Block, TooDeep, blocks
from buildbook.render.print.typeset import LeftOut, Printed, Typeset, typeset, unshown_problem
from buildbook.render.sparing import sparing
from buildbook.words import Words

FILE = "care-booklet.pdf"
_PAPER = "#ffffff"
_YEAR = "year.svg"
SIZES_MM = {"A5": (148, 210), "half-letter": (139.7, 215.9)}
"""ISO 216; half of ANSI/ASME Y14.1 size A."""


def care_booklet(
    piece: ClientPiece,
    theme: Theme,
    *,
    pictures: Mapping[str, bytes],
    fingerprint: str = "",
    size: str = "A5",
) -> Printed:
    """The booklet as PDF/A-2a and PDF/UA-1, A5 or half-letter.

    `pictures` maps a picture's digest to a JPEG of our own, upright and without metadata, since it is put in
    byte for byte; a picture that is not among them is left out. A passage or a picture that cannot be set is left
    out, and told. Raises `TypesetError` when the theme's template is at fault.
    """
    shelf = _Shelf(pictures)
    quotes = Words(piece.language).text("figures.quotes")
    width_mm, height_mm = SIZES_MM[size]
    data = _data(piece, fingerprint, shelf) | {"page": {"width_mm": width_mm, "height_mm": height_mm}}
    if piece.year:
        accented = accent(piece.wood_colours[1], _PAPER).line
        shelf.files[_YEAR] = drawn(piece.year, "year", theme.look.tokens, accented)
    story: list[tuple[int, dict[str, Any]]] = []
    left_out = []
    for place, told in enumerate(piece.story):
        try:
            story.append(
                (
                    place,
                    {"day": told.day, "blocks": _told(told, shelf, data["title"], quotes)},
                )
            )
        except TooDeep as error:
            left_out.append(LeftOut(place, str(error)))
    plates = [(None, plate) for plate in (data["lead"], *data["gallery"]) if plate]

    def set_(parts: Sequence[tuple[int | None, dict[str, Any]]]) -> Typeset:
        kept = {id(part) for _, part in parts}
        some = {
            "lead": data["lead"] if id(data["lead"]) in kept else None,
            "gallery": [plate for plate in data["gallery"] if id(plate) in kept],
            "story": [told for _, told in story if id(told) in kept],
        }
        return typeset(theme.file("booklet.typ"), data | some, shelf.files, piece.dated, theme.look)

    parts = [*story, *plates]
    made, bad = sparing(set_, parts)
    left_out += [LeftOut(parts[place][0], why) for place, why in bad.items()]
    return Printed(made.pdf, tuple(unshown_problem(FILE, made.unshown)), tuple(left_out))


class _Shelf:
    """The pictures that the booklet shows, under names that tell nothing."""

    def __init__(self, pictures: Mapping[str, bytes]) -> None:
        self._pictures = pictures
        self._names: dict[str, str] = {}
        self.files: dict[str, bytes] = {}

    def block(self, picture: Picture | None, fallback: str) -> Block | None:
        if picture is None or picture.digest not in self._pictures:
            return None
        name = self._names.setdefault(picture.digest, f"picture-{len(self._names) + 1}.jpg")
        self.files[name] = self._pictures[picture.digest]
        return {
            "kind": "picture",
            "file": name,
            "alt": picture.alt.strip() or fallback,
            "caption": picture.caption.strip(),
            "tall": picture.height > picture.width,
        }


def _data(piece: ClientPiece, fingerprint: str, shelf: _Shelf) -> dict[str, Any]:
    phrases = Phrases(Words(piece.language), Style())
    contact = piece.contact
    colours = accent(piece.wood_colours[1], _PAPER)
    title = title_of(piece, phrases)
    lead = shelf.block(piece.lead, title)
    return {
        "language": piece.language,
        "file_title": phrases("booklet.title_of_file", title=title),
        "words": {
            name: dict(phrases.words.section(name))
            for name in ("client", "booklet", "contact", "due", "care_times")
        },
        "accent": {"text": {"colour": colours.text}, "line": {"colour": colours.line}},
        "title": title,
        "introduction": piece.introduction or piece.for_what,
        "set_said": piece.set_said,
        "lead": lead | {"alt": piece.lead.alone or title} if piece.lead and lead else None,
        "label": _lines(line for line in piece.label if line.value != piece.title),  # stands large above
        "phone": {
            "label": phrases("contact.phone"),
            "text": contact.phone,
            "note": "",
            "to": piece.phone_link,
        }
        if contact.phone
        else None,
        "ask": {name: phrases(f"client.ask.{ask}") for name, ask in piece.asked.items()},
        "happens": [_happening(happening, phrases) for happening in piece.happens],
        "loads": list(piece.loads),
        "dangers": _advice(piece.dangers),
        "care": [{"heading": g.heading, "items": _advice(g.items)} for g in (*piece.everyday, *piece.care)],
        "seasons": {
            "sentences": list(piece.seasons.sentences),
            "year": _year(piece.year) if piece.year else None,
            "items": _advice(piece.seasons.advice),
            "moving": [m.sentence for m in piece.seasons.moving],
            "dial": piece.dial.sentence if piece.dial else "",
        },
        "moving": _moving(piece, phrases),
        "another": _stated(phrases, "guarantee", piece.guarantee) + _advice(piece.another),
        "passing": _advice(piece.passing),
        "finishes": [
            {
                "title": f.title.strip() or phrases("kinds.finish"),
                "where": f.where,
                "said": list(f.said),
                "lines": _lines(f.lines),
            }
            for f in piece.finishes
        ],
        "due": [
            {"day": phrases.date(due.day), "what": due.title, "again": again(due, phrases)}
            for due in still_to_come(piece)
        ],
        "mending": _advice(piece.mending),
        "materials": [
            {
                "name": m.name.strip() or phrases("client.columns.wood"),
                "botanical": m.botanical,
                "lines": _lines(
                    (
                        Line(phrases("client.columns.origin"), m.origin),
                        Line(phrases("client.columns.colour"), m.colour),
                    )
                ),
            }
            for m in piece.materials
            if m.origin or m.colour
        ],
        "others": piece.others,
        "used": [
            {
                "label": m.name,
                "text": m.used_for,
                "note": ". ".join(
                    part
                    for part in (m.note, m.grew_in and f"{phrases('client.columns.grew_in')} {m.grew_in}")
                    if part
                ),
            }
            for m in piece.materials
            if m.used_for or m.note or m.grew_in
        ],
        "figures": _lines(piece.figures),
        "hardware": [[f.name, str(f.qty), f.ask_for] for f in piece.hardware],
        "panes": _lines(piece.panes),
        "spares": {
            "fittings": piece.spares.fittings,
            "panes": piece.spares.panes,
            "how": piece.spares.how,
        }
        if piece.spares
        else None,
        "gloss": _lines(piece.gloss),
        "gallery": [block for picture in piece.gallery if (block := shelf.block(picture, title))],
        "record": _lines(piece.record),
        "information": _lines(piece.information),
        "timber": [[t.botanical, t.name, t.grew_in, t.volume] for t in piece.timber_statement],
        "cautions": _advice(piece.cautions),
        "maker": [line for line in (contact.maker, contact.name) if line],
        "address": list(contact.address),
        "reach": [
            {"label": phrases(f"contact.{way.kind}"), "text": way.text, "note": "", "to": way.to}
            for way in ways(contact)
        ],
        "page_address": {
            "text": piece.page_address,
            "to": piece.page_address if is_web(piece.page_address) else "",
        },
        "number": phrases("client.number", number=piece.number_said) if piece.number_said else "",
        "dated": phrases("client.dated", day=phrases.date(piece.dated)) if piece.dated else "",
        "colophon": phrases("client.colophon", maker=contact.maker or contact.name or phrases("label.maker")),
        "fingerprint": fingerprint,
    }


def _year(year: YearOfSeasons) -> dict[str, str]:
    """The year’s curve. Its caption says the picture in words: whoever listens is told besides only what it is."""
    return {"file": _YEAR, "alt": year.title, "said": year.sentence}


def _moving(piece: ClientPiece, phrases: Phrases) -> list[dict[str, Any]]:
    """Moving it, then changing it: what its maker says of this piece first."""
    groups = {group.key: group.items for group in piece.moving}
    own = {
        "moving": _stated(phrases, "comes_apart", "", piece.comes_apart),
        "changing": _stated(phrases, "may_drill", piece.may_drill),
    }
    told = [
        {"heading": phrases(f"care_times.{key}"), "items": stated + _advice(groups.get(key, ()))}
        for key, stated in own.items()
    ]
    return [group for group in told if group["items"]]


def _stated(phrases: Phrases, name: str, text: str, steps: Sequence[str] = ()) -> list[dict[str, Any]]:
    """What the maker says in words of his own, as an instruction is shown."""
    if not text and not steps:
        return []
    title = phrases(f"client.stated.{name}")
    return [{"caution": "", "title": title, "text": text, "why": "", "steps": list(steps)}]


def _happening(happening: Happening, phrases: Phrases) -> dict[str, Any]:
    return {
        "title": happening.title,
        "aid": [
            {
                "of": " · ".join(aid.of) + (f": {', '.join(aid.named)}" if aid.named else ""),
                "lines": _lines(
                    Line(phrases(f"happens.line.{part}"), said)
                    for part, said in (("first", aid.first), ("never", aid.never), ("call", aid.call))
                ),
            }
            for aid in happening.aid
        ],
    }


def _lines(lines: Iterable[Line]) -> list[dict[str, str]]:
    return [{"label": line.label, "text": line.value, "note": line.note} for line in lines if line.value]


def _caution(severity: str, word: str) -> str:
    """The word before an instruction; a plain note bears none."""
    return "" if severity == "note" else word


def _advice(items: Iterable[Advice]) -> list[dict[str, Any]]:
    return [
        {
            "caution": _caution(a.severity, a.severity_word),
            "title": a.title,
            "text": a.text,
            "why": a.why,
            "steps": [],
        }
        for a in items
    ]


def _told(told: Told, shelf: _Shelf, fallback: str, quotes: str) -> list[Block]:
    by_name = {unquote(name): picture for name, picture in told.pictures}
    return blocks(told.markdown, lambda name: shelf.block(by_name.get(name), fallback), quotes)


__all__ = ["FILE", "care_booklet"]
