"""Words of the trade that the page uses, each with a short explanation: whoever inherits a piece need not know what a
stile is.

In: the page as it is. Out: lines, by the alphabet. Which words give a term away, and what is said of it, is in the
words file of the language, for each language has its own.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.pages.client.piece import Advice, ClientPiece
from buildbook.pages.phrases import Phrases
from buildbook.pages.shared import Line
from buildbook.signs import holds


def gloss(piece: ClientPiece, phrases: Phrases) -> tuple[Line, ...]:
    """The terms that occur on a page, each with what it means."""
    texts = tuple(_texts(piece))
    used = (
        Line(phrases(f"gloss.{key}.term"), phrases(f"gloss.{key}.said"))
        for key in phrases.words.section("gloss")
        if holds(phrases(f"gloss.{key}.words").split("; "), *texts)
    )
    return tuple(sorted(used, key=lambda line: line.label.casefold()))


def _texts(piece: ClientPiece) -> Iterator[str]:
    """What a reader of the page reads."""
    yield from (piece.introduction, piece.for_what, piece.may_drill, *piece.comes_apart, *piece.loads)
    for line in (*piece.label, *piece.record, *piece.information, *piece.panes):
        yield from (line.label, line.value, line.note)
    for material in piece.materials:
        yield from (material.name, material.used_for, material.origin, material.note)
    for finish in piece.finishes:
        yield from (finish.title, finish.where, *finish.said)
    for fitting in piece.hardware:
        yield from (fitting.name, fitting.ask_for)
    yield from piece.seasons.sentences
    yield from (moving.sentence for moving in piece.seasons.moving)
    for item in _advice(piece):
        yield from (item.title, item.text)
    yield from (told.markdown for told in piece.story)


def _advice(piece: ClientPiece) -> Iterator[Advice]:
    for group in (*piece.everyday, *piece.care, *piece.moving):
        yield from group.items
    yield from (*piece.dangers, *piece.seasons.advice, *piece.mending, *piece.another, *piece.passing)
    yield from piece.cautions
