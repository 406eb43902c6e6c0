"""CareCard: the few things that go on the card which is handed over with a piece.

In: a `ClientPiece` and the fingerprint of its handover. Out: a frozen `CareCard` whose every text is short
enough for a card; texts that were shortened are counted, so that the card can say where the rest is.

What is chosen, and why (common practice of the trade, where no other reason is given):

- cautions: whatever must be known before the first use (fixing, load, glass, magnets, tipping), then every
  other warning by its name. They stay on the paper longest when room runs out.
- five things to know: one instruction a topic, in the order in which harm is usually done: wiping, water, heat,
  sprays, iron, sun, air; what holds only in the first weeks comes last. A caution is not said twice.
- dates: those that come after the day of the handover, in their order.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date

from buildbook.care.figures import interval
from buildbook.pages.client.piece import Advice, ClientPiece, Due, FinishStory, PieceOfSet, Short
from buildbook.pages.phrases import Phrases, capital
from buildbook.pages.reach import Way, is_web, ways
from buildbook.pages.shared import Line
from buildbook.quantity import Style
from buildbook.trade.days import MONTHS_OF_YEAR
from buildbook.words import Words

THINGS = 5
_TOPICS = (
    ("clean-",),
    ("water-", "alcohol-"),
    ("heat-", "candle-"),
    ("ammonia-", "avoid-"),
    ("iron-", "tannin-", "stone-", "leather", "cloth", "woven-"),
    ("direct-sun", "near-window"),
    ("rh-band", "heat-sources", "near-damp"),
)
"""The topics of the five things, by how their keys begin. The severest of a topic comes first."""

_SEVERITIES = ("warning", "caution", "note")
_DATES = 5
_FIRST_DAY = "delivery-"

# How much of each a card can hold, in characters: about two lines of an A6 card at its least size, and what
# a title is before it is a sentence. Longer texts end at a sentence, else at a word.
_TITLE, _NUMBER, _MAKER, _NAME = 110, 40, 90, 60
_THING, _CAUTION, _MATERIALS, _FINISH, _DUE = 150, 160, 170, 80, 90
_CONTACT, _ADDRESS = 110, 200
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

    copies  one a piece, where each piece of a set has a card of its own.
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

    def sentences(self, text: str, most: int) -> str:
        """As many whole sentences as there is room for: half an instruction can be worse than none."""
        kept = ""
        for sentence in _SENTENCE_END.split(_one_line(text)):
            longer = f"{kept} {sentence}".strip()
            if kept and len(longer) > most:
                self.count += 1
                return kept
            kept = longer
        return self.words(kept, most)

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
        contact=tuple(_contact(piece, short)),
        address=piece.page_address if _fits_a_code(piece.page_address) else "",
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


# -- cautions ----------------------------------------------------------------------------------------


def _cautions(piece: ClientPiece, short: _Shortener) -> Iterator[CardItem]:
    """What must be on paper: cautions of day one in full, any other warning by its name."""
    said = set()
    for caution in piece.day_one:
        if caution.severity != "note":
            said.add(caution.key)
            yield CardItem(caution.key, "", short.sentences(caution.text, _CAUTION), caution.severity_word)
    for advice in piece.cautions:
        if advice.severity == "warning" and advice.key not in said:
            name = short.words(advice.title, _CAUTION).rstrip(".")
            yield CardItem(advice.key, "", f"{name}.", advice.severity_word)


# -- the five things ---------------------------------------------------------------------------------


def _things(piece: ClientPiece, said: set[str], short: _Shortener) -> Iterator[CardItem]:
    """Up to five: notes for the first day, an instruction a topic, the most serious of the rest, the first weeks."""
    advice = [item for group in piece.care for item in group.items] + list(piece.cautions)
    waiting = [item for item in advice if item.key not in said]
    at_first = {short.key: short for short in piece.first_weeks.shorts} if piece.first_weeks else {}
    waiting = [item for item in waiting if item.key not in at_first]
    notes = (short for short in piece.day_one if short.severity == "note" and short.key not in at_first)
    chosen: dict[str, Advice | Short] = {short.key: short for short in notes}
    for beginnings in _TOPICS:
        topic = [item for item in waiting if item.key.startswith(beginnings) and item.key not in chosen]
        if topic:
            best = min(topic, key=lambda item: _weight(item, piece.finishes))
            chosen[best.key] = best
    for item in sorted(waiting, key=lambda item: _weight(item, piece.finishes)):
        chosen.setdefault(item.key, item)
    lasting = list(chosen.items())[: THINGS - len(at_first)]
    for key, thing in [*lasting, *at_first.items()]:
        caution = thing.severity_word if thing.severity != "note" else ""
        title = short.words(thing.title, _NAME) if isinstance(thing, Advice) else ""
        yield CardItem(key, title, short.sentences(thing.text, _THING), caution)


def _weight(item: Advice, finishes: tuple[FinishStory, ...]) -> tuple[bool, int]:
    """What concerns only a lesser finish waits behind the main one, listed first; then severity."""
    lesser = any(f.title and f.title in item.text for f in finishes[1:])
    main = bool(finishes) and finishes[0].title in item.text
    return (lesser and not main, _SEVERITIES.index(item.severity) if item.severity in _SEVERITIES else 0)


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
    by its place, those that are for it. What is to be done on the first day stands with the cautions.
    """
    together: dict[tuple[date, int, tuple[int, ...]], list[Due]] = {}
    for due in still_to_come(piece):
        others = place is not None and due.pieces and place not in due.pieces
        if not others and not due.key.startswith(_FIRST_DAY):
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
