"""CareCard: the few things that go on the card which is handed over with a piece.

In: a `ClientPiece` and the fingerprint of its handover. Out: a frozen `CareCard` whose every text is short
enough for a card; texts that were shortened are counted, so that the card can say where the rest is.

What is chosen, and why (common practice of the trade, where no other reason is given):

- cautions: whatever must be known before the first use (fixing, load, glass, magnets, tipping), then every
  other warning. They stay on the paper longest when room runs out.
- things to know: one instruction a topic, of those that such a piece needs most (`topics`); what holds only in the
  first weeks comes last. A caution is not said twice.
- dates: those that come after the day of the handover, in their order.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date

from buildbook.care.figures import interval
from buildbook.pages.client.piece import Advice, ClientPiece, Due, FinishStory, PieceOfSet, Short
from buildbook.pages.client.topics import most_needed
from buildbook.pages.phrases import Phrases, capital
from buildbook.pages.reach import Way, is_web, ways
from buildbook.pages.shared import Line
from buildbook.quantity import Style
from buildbook.trade.days import MONTHS_OF_YEAR
from buildbook.words import Words

THINGS = 6
_DATES = 5
_FIRST_DAY, _HARD = "delivery-", ("light-", "cured-")  # how the keys of such dates begin

# How much of each a card can hold, in characters: about two lines of an A6 card at its least size, and what
# a title is before it is a sentence. Longer texts end at a sentence, else at a word.
_TITLE, _NUMBER, _MAKER, _NAME = 110, 40, 90, 60
_LONGEST, _THING, _LEAST, _CAUTION, _MATERIALS, _FINISH, _DUE = 220, 170, 100, 160, 170, 80, 90
_CONTACT, _ADDRESS, _TYPED = 110, 200, 90
_FINISHES, _CONTACT_LINES = 3, 4

_SENTENCE_END = re.compile(r"(?<=[.!?]) +")
_BLANKS = re.compile(r"[ \t\r\n]+")


@dataclass(frozen=True)
class CardItem:
    """One thing to know: a few words and an instruction.

    `caution` is the word of its severity, empty for a note.
    """

    key: str
    title: str
    text: str
    caution: str = ""


@dataclass(frozen=True)
class CardCopy:
    """What is another on the card of each piece of a set: its number, the day it went, its coats and dates."""

    number: str
    delivered: str
    finishes: tuple[Line, ...]
    dates: tuple[Line, ...]


@dataclass(frozen=True)
class CareCard:
    """What stands on a card, in the client's language; `shortened` counts texts that were cut to fit.

    contact      every way to reach the maker; ask: the quickest of them, None where there is none.
    address      of the page, for the code; address_said: as a person types it, empty where it is too long for that.
    copies       one a piece, where each piece of a set has a card of its own.
    """

    language: str
    title: str
    number: str
    maker: tuple[str, ...]
    materials: str
    finishes: tuple[Line, ...]
    things: tuple[CardItem, ...]
    dates: tuple[Line, ...]
    cautions: tuple[CardItem, ...]
    contact: tuple[Way, ...]
    address: str
    fingerprint: str
    picture_alt: str
    wood_colours: tuple[str, str]
    dated: date | None = None
    shortened: int = 0
    copies: tuple[CardCopy, ...] = ()
    ask: Way | None = None
    address_said: str = ""


def _one_line(text: str) -> str:
    """Without line ends; spaces that do not break stay what they are."""
    return _BLANKS.sub(" ", text).strip()


class _Shortener:
    """Cuts texts to the room there is, and counts how often it had to."""

    def __init__(self) -> None:
        self.count = 0

    def words(self, text: str, most: int) -> str:
        """The text on one line, cut at a word with an ellipsis."""
        line = _one_line(text)
        if len(line) <= most:
            return line
        self.count += 1
        cut = line[: most - 1]
        at = cut.rfind(" ")
        return cut[: at if at > most // 2 else None].rstrip(" ,;:.") + "…"

    def sentences(self, text: str, most: int, least: int = 0) -> str:
        """As many whole sentences as there is room for: half an instruction can be worse than none. `least`: where
        fewer letters than that would stay, one more sentence goes over.
        """
        kept = ""
        for sentence in _SENTENCE_END.split(_one_line(text)):
            longer = f"{kept} {sentence}".strip()
            if kept and len(longer) > (most if len(kept) >= least else max(most, _LONGEST)):
                self.count += 1
                return kept
            kept = longer
        return self.words(kept, max(most, _LONGEST) if least else most)

    def items(self, items: Iterable[str], most: int, mark: str = ", ") -> str:
        """As many whole items of a list as there is room for, with an ellipsis for the rest."""
        every = [item for item in items if item]
        kept = list(every)
        while len(kept) > 1 and len(mark.join(kept)) > most:
            kept.pop()
        if len(kept) == len(every):
            return self.words(mark.join(kept), most)
        self.count += 1
        return self.words(mark.join(kept), most).rstrip("…") + f"{mark.rstrip()} …"


def card_of(piece: ClientPiece, fingerprint: str = "") -> CareCard:
    """The card of a piece; `fingerprint` is the short one of the handover's seal, empty for none."""
    phrases = Phrases(Words(piece.language), Style())
    short = _Shortener()
    cautions = tuple(_cautions(piece, short))
    contact = piece.contact
    reach = tuple(_contact(piece, short))
    address = piece.page_address if _fits_a_code(piece.page_address) else ""
    return CareCard(
        language=piece.language,
        title=short.words(title_of(piece, phrases), _TITLE),
        number=short.words(piece.number_said, _NUMBER),
        maker=tuple(short.words(line, _MAKER) for line in (contact.maker, contact.name) if line),
        materials=short.items((m.name for m in piece.materials), _MATERIALS),
        finishes=_finishes(piece, phrases, short),
        things=tuple(_things(piece, {c.key for c in cautions}, short)),
        dates=tuple(_dates(piece, phrases, short)),
        cautions=cautions,
        contact=reach,
        ask=next((way for way in reach if way.kind != "address"), None),
        address=address,
        address_said=_said(address),
        fingerprint=fingerprint,
        picture_alt=short.words(piece.lead.alone, _TITLE) if piece.lead else "",
        wood_colours=piece.wood_colours,
        dated=piece.dated,
        shortened=short.count,
        copies=tuple(_copy(piece, own, phrases, _Shortener()) for own in piece.pieces)
        if piece.cards_each
        else (),
    )


def _copy(piece: ClientPiece, own: PieceOfSet, phrases: Phrases, short: _Shortener) -> CardCopy:
    """The card of one piece. What is shortened on it is shortened on the card of the set too, and counted there."""
    apart = len({other.delivered for other in piece.pieces}) > 1
    number = phrases("set.number_of", number=own.number, place=own.place, count=len(piece.pieces))
    return CardCopy(
        number=short.words(number, _NUMBER),
        delivered=own.delivered_said if apart else "",
        finishes=_finishes(piece, phrases, short, own.place),
        dates=tuple(_dates(piece, phrases, short, own.place)),
    )


def title_of(piece: ClientPiece, phrases: Phrases) -> str:
    """The title; what kind of piece it is where it has none: a document must be called something."""
    return piece.title.strip() or capital(piece.kind.strip()) or phrases("client.picture_of_piece")


def _fits_a_code(address: str) -> bool:
    return is_web(address) and len(address) <= _ADDRESS


def _said(address: str) -> str:
    """An address as it is read out and typed: nobody types how it begins, or the stroke at its end."""
    bare = address.partition("://")[2].rstrip("/")
    return bare if len(bare) <= _TYPED else ""


# -- cautions ----------------------------------------------------------------------------------------


def _cautions(piece: ClientPiece, short: _Shortener) -> Iterator[CardItem]:
    """What must be on paper: cautions of day one, then any other warning. What is no danger but an instruction of every
    day is told among those, and in full.
    """
    daily = {item.key for item in piece.dangers if item.manner}
    said = set()
    for caution in piece.day_one:
        if caution.severity != "note" and caution.key not in daily:
            said.add(caution.key)
            yield CardItem(caution.key, "", short.sentences(caution.text, _CAUTION), caution.severity_word)
    for advice in (*piece.dangers, *piece.cautions):
        if advice.severity == "warning" and advice.key not in said | daily:
            said.add(advice.key)
            title = short.words(advice.title, _NAME)
            yield CardItem(
                advice.key, title, short.sentences(advice.text, _THING, _LEAST), advice.severity_word
            )


# -- living with it ----------------------------------------------------------------------------------


def _things(piece: ClientPiece, said: set[str], short: _Shortener) -> Iterator[CardItem]:
    """What the piece needs most, an instruction a topic, at last the first weeks."""
    at_first = (
        [thing for thing in piece.first_weeks.shorts if thing.key not in said] if piece.first_weeks else []
    )
    passed = said | {thing.key for thing in at_first}
    groups = (*piece.everyday, *piece.care, *piece.moving)
    advice = (
        *(item for group in groups for item in group.items),
        *piece.dangers,
        *piece.seasons.advice,
        *piece.mending,
        *piece.cautions,
    )
    needed = most_needed((item for item in advice if item.key not in passed), piece.finishes)
    room = max(0, THINGS - len(at_first))
    told: list[Advice | Short] = [*needed[:room], *at_first]
    for place, thing in enumerate(told):
        caution = thing.severity_word if thing.severity != "note" else ""
        title = short.words(thing.title, _NAME) if isinstance(thing, Advice) else ""
        text = short.sentences(thing.text, _THING if place else _LONGEST, _LEAST)
        yield CardItem(thing.key, title, text, caution)


# -- finish, dates, contact --------------------------------------------------------------------------


def _finishes(
    piece: ClientPiece, phrases: Phrases, short: _Shortener, place: int | None = None
) -> tuple[Line, ...]:
    """The main finishes; of one piece of a set, by its place, with its own coats."""
    several = len(piece.finishes) > 1
    return tuple(_finish(f, several, phrases, short, place) for f in piece.finishes[:_FINISHES])


def _finish(
    finish: FinishStory, several: bool, phrases: Phrases, short: _Shortener, place: int | None
) -> Line:
    """What it is and when it was put on; where it is, too, when a piece has more than one."""
    put_on = [own for own in finish.batches if place is None or place in own.pieces]
    if len(put_on) > 1:
        value = "; ".join(f"{own.said}: {phrases.dates(own.coats)}" for own in put_on)
    else:
        dated = put_on[0].coats if put_on else finish.coats
        coats = phrases.count("finish.coat_count", len(dated)) if dated else ""
        value = ", ".join(part for part in (coats, phrases.dates(dated) if dated else "") if part)
    where = finish.where if several and len(finish.where) <= _FINISH else ""
    title = capital(short.words(finish.title, _NAME))
    return Line(title, short.words(value, _FINISH), where)


def _dates(
    piece: ClientPiece, phrases: Phrases, short: _Shortener, place: int | None = None
) -> Iterator[Line]:
    """The days still to come, a line for all that falls on one of them and comes back as often; of one piece of a set,
    by its place, those that are for it. What is to be done on the first day, and when a finish is hard, stands above.
    """
    above = piece.first_weeks and piece.first_weeks.shorts and not piece.cards_each
    told = (_FIRST_DAY, *_HARD) if above else (_FIRST_DAY,)
    together: dict[tuple[date, int, tuple[int, ...]], list[Due]] = {}
    for due in still_to_come(piece):
        others = place is not None and due.pieces and place not in due.pieces
        if not others and not due.key.startswith(told):
            together.setdefault((due.day, due.every_months, due.pieces), []).append(due)
    for (day, *_), dues in list(together.items())[:_DATES]:
        titles = short.items((due.title for due in dues), _DUE, "; ")
        yield Line(phrases.date(day), titles, again(dues[0], phrases))


def still_to_come(piece: ClientPiece) -> list[Due]:
    """The dates that are not over on the day the piece is handed over; of some pieces of a set, on the day they are."""
    went = {own.place: own.delivered for own in piece.pieces}

    def since(due: Due) -> date:
        days = [day for place in due.pieces if (day := went.get(place))]
        return min(days, default=piece.dated or date.min)

    return [due for due in piece.due if due.day >= since(due)]


def again(due: Due, phrases: Phrases) -> str:
    """How a date repeats, in words; empty for once."""
    if not due.every_months:
        return ""
    if due.every_months == MONTHS_OF_YEAR:
        return phrases("card.each_year")
    return phrases("card.every", interval=interval(due.every_months, phrases.words))


def _contact(piece: ClientPiece, short: _Shortener) -> Iterator[Way]:
    """Postal address on one line, then the ways to reach the maker, the one that needs no machine first."""
    contact = piece.contact
    every = [
        Way("address", ", ".join(contact.address)),
        *sorted(ways(contact), key=lambda way: way.kind != "phone"),
    ]
    for way in [way for way in every if way.text][:_CONTACT_LINES]:
        yield replace(way, text=short.words(way.text, _CONTACT))
