"""How a job shows its figures: its units and currency, with the marks of the language that the shop writes in.

In: `Job`, `Words`. Out: `Style`.
"""

from __future__ import annotations

from buildbook.job.model import Job
from buildbook.quantity import Style
from buildbook.words import Words


def style_of(job: Job, words: Words) -> Style:
    """The style of one job in a language."""
    return Style(
        units=job.units,
        decimal=words.text("figures.decimal"),
        currency=job.shop.currency,
        group=words.text("figures.group"),
        sign_after=words.text("figures.currency_sign") == "after",
        code_before=words.text("figures.currency_code") == "before",
        in_board_feet=words.text("figures.timber_by") == "board_feet",
    )
