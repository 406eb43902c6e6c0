"""Quotes an enquiry from past jobs."""

from __future__ import annotations

import argparse
from datetime import date
from pathlib import Path

from buildbook.book.estimate import LETTER, LETTER_PDF, WORKSHEET, estimate
from buildbook.cli.say import say, spoken
from buildbook.cli.spoken import ENGLISH, language_of
from buildbook.cli.terminal import err, out, print_json
from buildbook.estimate import Estimate
from buildbook.estimate.as_json import estimate_facts
from buildbook.summary.style import style_of
from buildbook.words import Words

_WIDE = 14


def run(options: argparse.Namespace) -> int:
    language = language_of(options.shelf)
    made = estimate(options.folder, options.shelf, options.to, options.on or date.today())
    if made.fault:
        err(spoken("buildbook itself failed on this enquiry.", language), *made.fault.splitlines())
    if made.estimate and options.json:
        print_json(estimate_facts(made.estimate))
    elif made.estimate and made.folder:
        tell_estimate(made.estimate, made.folder, language)
    say(made.problems, language=language)
    return 0 if made.ok else 1


def tell_estimate(made: Estimate, folder: Path, language: str = ENGLISH) -> None:
    def row(name: str, said: str) -> None:
        out(f"{spoken(name, language):<{_WIDE}}  {spoken(said, language)}")

    words = Words(language)
    style = style_of(made.enquiry, words)
    hours, price, bought = made.hours.total, made.price, made.materials
    day = made.day.isoformat() if language == ENGLISH else words.short_date(made.day)
    out(f"{made.enquiry.name}, {spoken('estimated on', language)} {day}")
    if hours:
        row("hours", f"{hours.low:.0f} to {hours.high:.0f}, likeliest {hours.median:.0f}")
    row("materials", style.money(bought.amount.amount))
    if price:
        low, high, likely = (style.money(end.amount) for end in (price.low, price.high, price.median))
        row("price", f"{low} to {high}, likeliest {likely}")
    row("worksheet", f"{folder / WORKSHEET}  ({spoken('private', language)})")
    row("for the client", f"{folder / LETTER}, {folder / LETTER_PDF}")
