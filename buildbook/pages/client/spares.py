"""What an owner asks for when a fitting is lost or a pane breaks: how many kinds there are, each with what a shop needs
to sell one, and whom to ask for what no shop has.

In: a job and its figures. Out: fittings, and what is said of them. Supplier and price stay in.
"""

from __future__ import annotations

from buildbook.job.model import Job
from buildbook.pages import sets
from buildbook.pages.client.piece import Fitting, Spares
from buildbook.pages.phrases import Phrases
from buildbook.pages.shared import Line
from buildbook.summary.model import Summary


def fittings(job: Job, summary: Summary, phrases: Phrases) -> tuple[Fitting, ...]:
    """The rows of hardware that the client may read of."""
    return tuple(
        Fitting(item.part, _of_each(item.qty, job, phrases), item.spec)
        for item in summary.hardware
        if item.for_client
    )


def spares(job: Job, every: tuple[Fitting, ...], panes: tuple[Line, ...], phrases: Phrases) -> Spares | None:
    """What stands before the tables; None where there is nothing to ask for."""
    if not every and not panes:
        return None
    numbers = sets.numbers_said(job)
    return Spares(
        fittings=phrases("spares.fittings", count=_kinds(len(every), phrases)) if every else "",
        panes=phrases("spares.panes", count=_kinds(len(panes), phrases)) if panes else "",
        how=phrases(f"spares.how{'_numbered' if numbers else ''}", number=numbers),
    )


def _kinds(count: int, phrases: Phrases) -> str:
    return phrases.count("spares.kinds", count)


def _of_each(count: int, job: Job, phrases: Phrases) -> int | str:
    """How many a piece has; where they have not the same, how many there are."""
    return sets.for_all(str(count), job, phrases) if count % job.quantity else count // job.quantity
