"""What lies in a handover beside the pictures: the page, the prints, the dates, the record for programs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from buildbook.book import seal
from buildbook.book.disk.write import Staging, sha256
from buildbook.book.names import BOOKLET, CALENDAR, CARD, PAGE, RECORD
from buildbook.job.model import Job
from buildbook.job.shop_model import CardFormat
from buildbook.pages.client.card import card_of
from buildbook.pages.client.piece import ClientPiece
from buildbook.pages.shared import Picture
from buildbook.problems import Problem
from buildbook.render.beside.calendar import care_calendar
from buildbook.render.beside.jsonld import piece_jsonld
from buildbook.render.html.theme import Theme, ThemeError
from buildbook.render.photo import copies_of
from buildbook.render.print.booklet import care_booklet
from buildbook.render.print.card import care_card
from buildbook.render.print.typeset import LeftOut, Printed, TypesetError

BESIDE = ((CARD, "card"), (BOOKLET, "booklet"), (CALENDAR, "calendar"))
"""What the page offers to its reader; the record for programs needs no link."""

_CARD_EDGE_PX = 2016  # 300 dots an inch on A6 take 1800 along the long edge
_BOOKLET_EDGE_PX = 1008  # on A5, as much as paper shows, and a file that is still easy to mail


Place = tuple[str, int]
"""A file of notes and a line in it."""


def lay_handover(
    piece: ClientPiece, theme: Theme, folder: Staging, card: CardFormat, told_in: Sequence[Place] = ()
) -> tuple[seal.Fingerprints, tuple[Problem, ...]]:
    """Write every file but the pictures, which are there already. Returns the fingerprints, and what went amiss.

    `told_in`: where the notes hold each passage of the story.

    The record's is made of the page as it is before its own is in it; the prints come after and show it, and the
    whole is made of all of them.
    """
    folder.write(CALENDAR, care_calendar(piece))
    folder.write(RECORD, piece_jsonld(piece))
    page = theme.client_page(piece, fingerprint=seal.BLANK, files=BESIDE).encode()
    fingerprint = seal.fingerprint(folder.digests | {PAGE: sha256(page)})
    folder.write(PAGE, page.replace(seal.BLANK.encode(), fingerprint.encode()))
    problems: list[Problem] = []
    try:
        for name, printed in _prints(piece, theme, folder, card, fingerprint):
            folder.write(name, printed.pdf)
            problems += [*printed.problems, *(_left_out(name, part, told_in) for part in printed.left_out)]
    except TypesetError as error:
        raise ThemeError(f"theme {theme.name}, {error}") from error
    return seal.Fingerprints(fingerprint, seal.whole(folder.digests)), tuple(problems)


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
    piece: ClientPiece, theme: Theme, folder: Staging, card: CardFormat, fingerprint: str
) -> Iterator[tuple[str, Printed]]:
    lead = _copy(piece.lead, folder, _CARD_EDGE_PX) if piece.lead else None
    yield (
        CARD,
        care_card(card_of(piece, fingerprint), theme, size=card.size, bleed=card.bleed, picture=lead),
    )
    pictures = {p.digest: _copy(p, folder, _BOOKLET_EDGE_PX) for p in piece.pictures()}
    yield BOOKLET, care_booklet(piece, theme, pictures=pictures, fingerprint=fingerprint)


def _copy(picture: Picture, folder: Staging, edge: int) -> bytes:
    """The copy of a picture whose long edge is the largest of at most so many pixels."""
    copies = copies_of(picture.digest, picture.width, picture.height)
    small = next((copy for copy in copies if max(copy.width, copy.height) <= edge), copies[-1])
    return (folder.folder / f"photos/{small.name}").read_bytes()
