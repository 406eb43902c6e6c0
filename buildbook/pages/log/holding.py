"""Tables of the build log that hold sizes against each other: sums that must come out, shelves that sag."""

from __future__ import annotations

from buildbook.job.adding import within
from buildbook.job.model import Job
from buildbook.pages.ledger import Ledger, ledger
from buildbook.pages.phrases import Phrases
from buildbook.quantity.show import Style
from buildbook.summary.model import Summary
from buildbook.summary.sums_model import SumCheck, SumTerm


def sums_table(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    """Each sum of `adds`, its terms with what each comes to, and the difference from the size."""
    style = phrases.style

    def row(one: SumCheck) -> tuple[str, ...]:
        return (
            one.words,
            _terms(one.terms, style),
            style.figure(one.sum_m),
            style.figure(one.size_m),
            _signed(one.difference_m, style),
            phrases("tables.comes_out" if one.ok else "tables.off"),
        )

    notes = [phrases("tables.sums_within", within=within(job.units).written)]
    columns = ("sum", "terms", "#adds_up_to", "#size", "#difference", "verdict")
    rows = map(row, summary.sums)
    return ledger(phrases, "sums", columns, rows, heading="tables.sums", names="columns", notes=notes)


def _signed(difference_m: float, style: Style) -> str:
    if not difference_m:
        return style.figure(0.0)
    return ("+" if difference_m > 0 else "−") + style.small(abs(difference_m))


def _terms(terms: tuple[SumTerm, ...], style: Style) -> str:
    """`2 × 20 + 3 × 518 + 4 × 1.5`, as a maker would check it."""
    out = []
    for place, term in enumerate(terms):
        sign = "− " if term.times < 0 else "+ " if place else ""
        times, each = abs(term.times), style.figure(term.each_m)
        said = each if times == 1 else f"{style.trimmed(times, 3)} × {each}"
        out.append(f"{sign}{said}")
    return " ".join(out)
