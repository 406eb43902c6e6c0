"""The letter of an estimate on paper: a `ClientLetter` in, a PDF out, A4 or US Letter by the shop's units.

It is set with air. Where setting it closer saves a sheet, it is set closer: a last sheet with nothing but a signature
is no letter. Type stays as large as is read with ease; nothing is left out.
"""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from buildbook.pages.letter.letter import ClientLetter
from buildbook.pages.reach import ways
from buildbook.render.colour import accent
from buildbook.render.html.theme import Theme
from buildbook.render.print.typeset import Printed, typeset, unshown_problem
from buildbook.words import Words

FILE = "letter.pdf"
_PAPER = "#ffffff"


def letter_pdf(letter: ClientLetter, theme: Theme) -> Printed:
    """The letter as PDF/A-2a and PDF/UA-1. Raises `TypesetError` when the theme's template is at fault."""
    data = _data(letter)
    made, close = (
        typeset(theme.file("letter.typ"), {**data, "close": closer}, {}, letter.dated, theme.look)
        for closer in (False, True)
    )
    if close.report["sheets"] < made.report["sheets"]:
        made = close
    return Printed(made.pdf, tuple(unshown_problem(FILE, made.unshown)))


def _data(letter: ClientLetter) -> dict[str, Any]:
    words = Words(letter.language, letter.voice)
    contact = letter.contact
    colours = accent(letter.wood_colours[1], _PAPER)
    return {
        "language": letter.language,
        "page": {"file": letter.sheet},
        "file_title": words.text("letter.page_title", title=letter.title),
        "words": {key: words.text(f"letter.{key}") for key in _WORDS},
        "accent": {"text": {"colour": colours.text}, "line": {"colour": colours.line}},
        "shop": contact.name or contact.maker,
        "maker": contact.maker if contact.name else "",
        "signed": contact.maker or contact.name,
        "address": list(contact.address),
        "reach": [
            {"label": words.text(f"contact.{way.kind}"), "text": way.text, "to": way.to}
            for way in ways(contact)
        ],
        "made_of": [asdict(row) for row in letter.made_of],
        "price": asdict(letter.price),
        "cautions": [{"title": c.title, "text": c.text} for c in letter.cautions],
        **{
            key: list(value) if isinstance(value := getattr(letter, key), tuple) else value
            for key in _AS_IT_IS
        },
    }


_WORDS = (
    "heading", "made_of", "included", "excluded", "cost", "low", "high", "payments", "when", "changes_heading",
    "cautions", "regards",
)  # fmt: skip
_AS_IT_IS = (
    "day", "number", "title", "to", "salutation", "opening", "description", "included", "excluded", "when",
    "holds", "changes", "binding", "closing",
)  # fmt: skip

__all__ = ["FILE", "letter_pdf"]
