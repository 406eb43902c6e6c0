"""The tables of a set in the build log: figures for one piece and for all, and the days of pieces that went apart."""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.job.model import Job
from buildbook.pages.ledger import Ledger, ledger, money
from buildbook.pages.phrases import Phrases
from buildbook.pages.sets import of_set, pieces_said
from buildbook.summary.model import FinishUse, Money, Summary
from buildbook.summary.sets import each_of, share_of


def each_and_all(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    """None for a job that makes one piece."""
    if job.quantity == 1:
        return None
    return ledger(
        phrases,
        "set",
        ("figure", "#each", "#all"),
        [row for row in _figures(job, summary, phrases) if any(row[1:])],
        heading="tables.set",
        names="columns",
        notes=[phrases("tables.set_note")],
    )


def _figures(job: Job, summary: Summary, phrases: Phrases) -> Iterator[tuple[str, str, str]]:
    style, one, count = phrases.style, each_of(summary), job.quantity

    def masses(key: str, each_kg: float, all_kg: float) -> tuple[str, str, str]:
        return (
            phrases(key),
            style.mass(each_kg, 1) if each_kg else "",
            style.mass(all_kg, 1) if all_kg else "",
        )

    def paid(key: str, of_all: Money | None, priced: bool = True) -> tuple[str, str, str]:
        each = share_of(of_all, count) if of_all else None
        shown = (phrases.at_least(money(sum_, phrases), priced) if sum_ else "" for sum_ in (each, of_all))
        return phrases(key), *shown  # type: ignore[return-value]

    def booked(hours: float) -> str:
        return style.hours(round(hours, 2)) if hours else ""

    yield masses("log.mass", one.mass_kg, summary.mass.total_kg)
    if job.contents_kg is not None:
        load_kg = job.contents_kg
        yield phrases("figures.contents"), style.mass(load_kg), style.mass(load_kg * count)
    yield phrases("log.hours"), booked(one.hours_h), booked(summary.hours.total_h)
    cost = summary.cost
    yield paid("cost.materials", cost.materials if cost.by_kind else None, not cost.unpriced)
    yield paid("cost.labour", cost.labour)
    yield paid("cost.total", cost.total, not cost.unpriced)
    yield paid("cost.price", cost.price)
    yield masses("figures.carbon", one.stored_kg_co2, summary.carbon.stored_kg_co2)


def pieces_apart(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    """A row for the pieces of each delivery; None where all went together, or none has gone."""
    batches = job.batches
    if len(batches) == 1:
        return None
    rows = []
    for batch in batches:
        numbers = ", ".join(job.piece_number(piece) for piece in batch.pieces)
        went = phrases.short_date(batch.day) if batch.day else phrases("log.not_delivered")
        hard = "; ".join(_hard(use, batch.pieces, phrases) for use in summary.finish if use.full_cure_to)
        rows.append((pieces_said(batch.pieces, phrases), numbers, went, hard))
    columns = ("pieces", "number", "delivered", "full_cure")
    return ledger(phrases, "deliveries", columns, rows, heading="tables.deliveries", names="columns")


def _hard(use: FinishUse, pieces: tuple[int, ...], phrases: Phrases) -> str:
    """When a finish is hard on some pieces, by its name."""
    own = next((dates for dates in use.batches if dates.pieces == pieces), use)
    return f"{phrases.finish(use)} {phrases.short_date(own.full_cure_to)}" if own.full_cure_to else ""


def counts_note(job: Job, phrases: Phrases) -> list[str]:
    """That a table counts for all pieces of a set."""
    return [of_set("tables.counts", job, phrases)] if job.quantity > 1 else []
