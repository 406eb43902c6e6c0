"""The letter of an estimate: `ClientLetter`, all that may leave the shop about an enquiry, and `letter_of`.

Letter and print are rendered from this record and from nothing else. It has no field for hours, a rate, what is added
to cost, a supplier, the price of a material, a past job or a note, so no template can show one. What is added here
leaves the shop: plant a canary beside it in `tests/test_letter_boundary.py`. A row of the parts file that is marked
`client = no` gives the letter no word; it still calls for its caution, in words that name no part.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from importlib import resources
from typing import Literal

from buildbook.care import choose, facts_of
from buildbook.care.quantities import said_quantities
from buildbook.estimate.model import Estimate
from buildbook.job.model import Job
from buildbook.pages.letter.made_of import MadeOf, drafted_from_woods, made_of
from buildbook.pages.letter.price import PriceAsked, asked
from buildbook.pages.materials import woods_colours
from buildbook.pages.phrases import Phrases, capital
from buildbook.pages.shared import Contact, contact_of

Sheet = Literal["a4", "us-letter"]


@dataclass(frozen=True)
class Caution:
    """What is to be settled before ordering; `key` is that of the rule of care behind it."""

    key: str
    title: str
    text: str


@dataclass(frozen=True)
class ClientLetter:
    """What may leave the shop about an enquiry. Texts are in the client's language, figures in the job's units.

    voice      who writes it: `I` or `we`.
    to         who it is to, a line each; empty where the enquiry names nobody.
    included   what else the price is for, `excluded` what it is not for, as the maker words it.
    when       from when it could be made, and until when; empty where the shop does not tell.
    holds      until when the figures stand; empty where the shop does not tell.
    """

    language: str
    voice: str
    sheet: Sheet
    contact: Contact
    dated: date
    day: str
    number: str
    title: str
    to: tuple[str, ...]
    salutation: str
    opening: str
    description: str
    made_of: tuple[MadeOf, ...]
    included: tuple[str, ...]
    excluded: tuple[str, ...]
    price: PriceAsked
    when: tuple[str, ...]
    holds: str
    changes: tuple[str, ...]
    cautions: tuple[Caution, ...]
    binding: str
    closing: str
    wood_colours: tuple[str, str]


def letter_of(estimate: Estimate) -> ClientLetter:
    """The letter of an estimate. Pure."""
    job = estimate.enquiry
    phrases = Phrases.of(job)
    to = tuple(line.strip() for line in job.client.splitlines() if line.strip())
    title = job.title.strip() or capital(job.piece.strip()) or phrases("letter.piece")
    return ClientLetter(
        language=phrases.words.language,
        voice=phrases.words.voice,
        sheet="us-letter" if job.shop.letter_paper else "a4",
        contact=contact_of(job),
        dated=estimate.day,
        day=phrases.date(estimate.day),
        number=phrases("letter.number", number=job.number) if job.number else "",
        title=title,
        to=to,
        salutation=phrases("letter.dear", name=to[0]) if to else phrases("letter.dear_all"),
        opening=phrases("letter.opening"),
        description=job.description.strip(),
        made_of=made_of(job, estimate.summary, phrases),
        included=_together(job.includes, job.shop.quoting.includes),
        excluded=_together(job.excludes, job.shop.quoting.excludes),
        price=asked(estimate, phrases),
        when=tuple(_when(estimate, phrases)),
        holds=phrases("letter.holds", day=phrases.date(estimate.holds_until)) if estimate.holds_until else "",
        changes=tuple(_changes(job, phrases)),
        cautions=_cautions(estimate, phrases),
        binding=phrases("letter.binding"),
        closing=phrases("letter.closing"),
        wood_colours=woods_colours(job, estimate.summary),
    )


def _together(of_job: Iterable[str], of_shop: Iterable[str]) -> tuple[str, ...]:
    """What the job says, then what the shop always says, each once."""
    return tuple(dict.fromkeys(capital(text.strip()) for text in (*of_job, *of_shop) if text.strip()))


def _when(estimate: Estimate, phrases: Phrases) -> Iterator[str]:
    lead = estimate.lead
    if lead.begin:
        yield phrases("letter.begin", day=phrases.date(lead.begin))
    if not lead.ready_median:
        return
    likely = phrases.date(lead.ready_median)
    if lead.ready_high and lead.ready_high > lead.ready_median:
        yield phrases("letter.ready", day=likely, late=phrases.date(lead.ready_high))
    else:
        yield phrases("letter.ready_one", day=likely)


def _changes(job: Job, phrases: Phrases) -> Iterator[str]:
    """What could still move the figures: more of it where the enquiry says less."""
    if not job.parts:
        yield phrases("letter.changes.outline")
    yield phrases("letter.changes.wish")
    yield phrases("letter.changes.prices")
    if job.stands in ("wall", "ceiling") or job.fitting:
        yield phrases("letter.changes.place")


# -- cautions ----------------------------------------------------------------------------------------


@dataclass(frozen=True)
class LetterWords:
    """How the letter speaks of a rule of care: in the words of `key`, or only where the piece crosses a border."""

    key: str
    only_abroad: bool


@cache
def cautions_said() -> dict[str, LetterWords]:
    """The rules of care that a letter speaks of, in its order."""
    text = resources.files(__package__).joinpath("letter.toml").read_text(encoding="utf-8")
    return {
        row["rule"]: LetterWords(row.get("said_as", row["rule"]), row.get("only_abroad", False))
        for row in tomllib.loads(text)["caution"]
    }


def _cautions(estimate: Estimate, phrases: Phrases) -> tuple[Caution, ...]:
    """Chosen by the rules of care for the wish; for one without parts, of the woods that it names."""
    job = estimate.enquiry
    if not job.parts:
        job = replace(job, parts=drafted_from_woods(job))
    called = {item.key for item in choose(job, estimate.summary, phrases.words)}
    protected = facts_of(job, estimate.summary, phrases.words).named("wood.cites-goods", public=True)
    woods = phrases.listed(protected) or phrases("letter.one_of_its_woods")
    given = dict.fromkeys(
        said.key
        for rule, said in cautions_said().items()
        if rule in called and (job.crosses_border or not said.only_abroad)
    )
    return tuple(
        Caution(
            key,
            phrases(f"letter.caution.{key}.title"),
            phrases(f"letter.caution.{key}.text", woods=woods, **said_quantities(phrases.style)),
        )
        for key in given
    )
