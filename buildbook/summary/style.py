"""How a job shows its figures: its units and currency, with the marks of the language that the shop writes in.

In: `Job`, `Words`. Out: `Style`.
"""

from __future__ import annotations

from buildbook.job.model import Job
from buildbook.quantity import Style
from buildbook.trade import tables
from buildbook.words import Words


def style_of(job: Job, words: Words) -> Style:
    """The style of one job in a language."""
    return style_in(words, job.units, job.shop.currency, both=both_systems(job))


def style_in(words: Words, units: str, currency: str, *, both: bool) -> Style:
    """The style of some units and a currency in a language. both: whether the other units stand beside."""
    return Style(
        units=units,
        decimal=words.text("figures.decimal"),
        currency=currency,
        group=words.text("figures.group"),
        sign_after=words.text("figures.currency_sign") == "after",
        sign_apart=words.text("figures.currency_sign") == "before, apart",
        code_only=words.text("figures.currency_sign") == "none",
        both=both,
        code_before=words.text("figures.currency_code") == "before",
        in_board_feet=words.text("figures.timber_by") == "board_feet",
    )


def both_systems(job: Job) -> bool:
    """As the shop says. Left out, what a reader has a tape for: an inch shop shows millimetres too; a metric one shows
    inches where they are in everyday use. The country decides, since it tells where the piece is read of; the language
    only where no country is told.
    """
    shop = job.shop
    if shop.both_systems is not None:
        return shop.both_systems
    if job.units == "in":
        return True
    if shop.country_code:
        return shop.country_code in tables.inch_countries()
    return shop.language.startswith("en")
