"""Quotes an enquiry from past jobs."""

from __future__ import annotations

import argparse
from datetime import date
from pathlib import Path

from buildbook.book.estimate import LETTER, LETTER_PDF, WORKSHEET, estimate
from buildbook.cli.say import say
from buildbook.cli.terminal import err, out, print_json
from buildbook.estimate import Estimate
from buildbook.estimate.as_json import estimate_facts


def run(options: argparse.Namespace) -> int:
    made = estimate(options.folder, options.shelf, options.to, options.on or date.today())
    if made.fault:
        err("buildbook itself failed on this enquiry.", *made.fault.splitlines())
    if made.estimate and options.json:
        print_json(estimate_facts(made.estimate))
    elif made.estimate and made.folder:
        tell_estimate(made.estimate, made.folder)
    say(made.problems)
    return 0 if made.ok else 1


def tell_estimate(made: Estimate, folder: Path) -> None:
    hours, price, bought = made.hours.total, made.price, made.materials
    out(f"{made.enquiry.name}, estimated on {made.day.isoformat()}")
    if hours:
        out(f"hours           {hours.low:.0f} to {hours.high:.0f}, likeliest {hours.median:.0f}")
    out(f"materials       {bought.amount.amount} {bought.amount.currency}")
    if price:
        out(f"price           {price.low.amount} to {price.high.amount}, likeliest {price.median.amount}")
    out(f"worksheet       {folder / WORKSHEET}  (private)")
    out(f"for the client  {folder / LETTER}, {folder / LETTER_PDF}")
