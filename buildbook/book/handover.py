"""What lies in a handover beside the pictures: the page, the prints, the dates, the record for programs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

from buildbook.book.disk.write import Staging, sha256
from buildbook.book.prints import WantedPrint, content_of, copy_within, lay_prints, made_from
from buildbook.book.redo.made import KeptPrint
from buildbook.book.sealed import seal
from buildbook.book.sealed.names import BOOKLET, CALENDAR, CARD, PAGE, RECORD
from buildbook.job.model import Job
from buildbook.job.shop_model import CardFormat
from buildbook.pages.client.card import card_of
from buildbook.pages.client.piece import ClientPiece
from buildbook.problems import Problem
from buildbook.render.beside.calendar import care_calendar
from buildbook.render.beside.jsonld import piece_jsonld
from buildbook.render.html.theme import Theme
from buildbook.render.print.booklet import care_booklet
from buildbook.render.print.card import care_card
from buildbook.render.print.typeset import LeftOut, Printed

BESIDE = ((CARD, "card"), (BOOKLET, "booklet"), (CALENDAR, "calendar"))
"""What the page offers to its reader; the record for programs needs no link."""

_CARD_EDGE_PX = 2016  # 300 dots an inch on A6 take 1800 along the long edge
_BOOKLET_EDGE_PX = 1008  # on A5, as much as paper shows, and a file that is still easy to mail


Place = tuple[str, int]
"""A file of notes and a line in it."""


class LaidHandover(NamedTuple):
    """What came of a handover: its fingerprints, what went amiss, and what each print was made from."""

    sealed: seal.Fingerprints
    problems: tuple[Problem, ...]
    prints: dict[str, KeptPrint]


def lay_handover(
    piece: ClientPiece,
    theme: Theme,
    folder: Staging,
    card: CardFormat,
    told_in: Sequence[Place] = (),
    before: Mapping[str, KeptPrint] = MappingProxyType({}),
    made_with: str = "",
) -> LaidHandover:
    """Write every file but the pictures, which are there already.

    `told_in`: where the notes hold each passage of the story. `before`: what the prints of the last edition were made
    from; one that would be made from the same is kept. `made_with`: a digest of program and theme.

    The record's is made of the page as it is before its own is in it; the prints come after and show it, and the
    whole is made of all of them.
    """
    folder.write(CALENDAR, care_calendar(piece))
    folder.write(RECORD, piece_jsonld(piece))
    page = theme.client_page(piece, fingerprint=seal.BLANK, files=BESIDE).encode()
    fingerprint = seal.fingerprint(folder.digests | {PAGE: sha256(page)})
    folder.write(PAGE, page.replace(seal.BLANK.encode(), fingerprint.encode()))
    prints = lay_prints(_prints(piece, theme, folder, card, fingerprint, made_with), theme, folder, before)
    problems = [
        problem
        for name, kept in prints.items()
        for problem in (*kept.problems, *(_left_out(name, part, told_in) for part in kept.left_out))
    ]
    sealed = seal.Fingerprints(fingerprint, seal.whole(folder.digests))
    return LaidHandover(sealed, tuple(problems), prints)


def passages_in(job: Job) -> tuple[Place, ...]:
    """Where the notes of a job hold each passage for the client, in the order of the story."""
    return tuple((entry.file, passage.line) for entry in job.entries for passage in entry.for_client)


def _left_out(name: str, part: LeftOut, told_in: Sequence[Place]) -> Problem:
    """What a print had to do without, told where the maker can put it right."""
    if part.passage is None:
        said = f"One of its pictures cannot be set in print, and is left out there: {part.why}."
        return Problem("warning", name, said, "Save the photo anew from a program for pictures.")
    file, line = told_in[part.passage] if part.passage < len(told_in) else (name, None)
    said = f"A passage for the client cannot be set in print, and {name} does without it: {part.why}."
    return Problem("warning", file, said, "Write it plainer; the page shows it all the same.", line=line)


def _prints(
    piece: ClientPiece, theme: Theme, folder: Staging, card: CardFormat, fingerprint: str, made_with: str
) -> Iterator[WantedPrint]:
    """The card and the booklet."""
    model, lead = card_of(piece, fingerprint), piece.lead and copy_within(piece.lead, folder, _CARD_EDGE_PX)
    pictures = {p.digest: copy_within(p, folder, _BOOKLET_EDGE_PX) for p in piece.pictures()}

    def print_card() -> Printed:
        picture = content_of(folder, lead) if lead else None
        return care_card(model, theme, size=card.size, bleed=card.bleed, picture=picture)

    def print_booklet() -> Printed:
        content = {digest: content_of(folder, name) for digest, name in pictures.items()}
        return care_booklet(piece, theme, pictures=content, fingerprint=fingerprint, size=card.booklet)

    digests = folder.digests
    of_card = (made_with, model, card, digests[lead] if lead else "")
    yield WantedPrint(CARD, made_from(of_card), print_card)
    shown = {digest: digests[name] for digest, name in pictures.items()}
    yield WantedPrint(BOOKLET, made_from((made_with, piece, card.booklet, fingerprint, shown)), print_booklet)
