"""Quotes the next piece from those that are done: `reckon(enquiry, past, day)` gives an `Estimate`.

Everything is private but what `pages.letter` picks. The method is told in METHOD.md, with its sources.
"""

from __future__ import annotations

from buildbook.estimate.model import Estimate
from buildbook.estimate.money.offer import currencies
from buildbook.estimate.reckon import reckon

__all__ = ["Estimate", "currencies", "reckon"]
