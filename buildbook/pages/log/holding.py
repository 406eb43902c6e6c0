"""Tables of the build log that hold sizes against each other: sums that must come out, shelves that sag."""

from __future__ import annotations

from buildbook.job.model import Job
from buildbook.job.parts.adding import within
from buildbook.pages.ledger import Ledger, ledger
from buildbook.pages.phrases import Phrases
from buildbook.quantity.show import Style
from buildbook.summary.model import Summary
from buildbook.summary.sag_model import Sag
from buildbook.summary.sums_model import SumCheck, SumTerm
from buildbook.trade import tables


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


def sag_table(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    """Each shelf with its span and load, how far it sags at once and in years, and whether that is seen."""
    style = phrases.style

    def row(one: Sag) -> tuple[str, ...]:
        kg_per_m = one.load_n_per_m / tables.constant("gravity")
        share = f"1⁄{1 / one.sag_per_span:.0f}" if one.sag_per_span else ""
        verdict = "" if one.ok is None else phrases("tables.not_seen" if one.ok else "tables.seen")
        return (
            one.part,
            style.figure(one.span_m),
            style.mass(kg_per_m, 0),
            "" if one.first_m is None else style.small(one.first_m),
            "" if one.sag_m is None else style.small(one.sag_m),
            share,
            verdict,
        )

    limit = f"1⁄{1 / tables.constant('sag_seen'):.0f}"
    notes = [phrases("tables.sag_note", limit=limit), *(note for one in summary.sag for note in one.assumed)]
    columns = ("part", "#span", "#load_a_metre", "#sag_first", "#sag_lasting", "#of_span", "verdict")
    return ledger(
        phrases, "sag", columns, map(row, summary.sag), heading="tables.sag", names="columns", notes=notes
    )
