"""The workings of the build log: sums of the trade that belong in the record."""

from __future__ import annotations

from collections.abc import Iterable

from buildbook.job.model import Job
from buildbook.pages.ledger import Ledger, ledger
from buildbook.pages.log.placed import toml_place
from buildbook.pages.phrases import Phrases
from buildbook.quantity.show import Style
from buildbook.summary.model import Figure, Summary, Worked


def _shown(figure: Figure, style: Style) -> str:
    if figure.unit == "m":
        return style.length_both(figure.value)
    if figure.unit:
        return style.trimmed(figure.value, 2) + {"degree": "°", "m2": " m²", "bd ft": " bd ft"}.get(
            figure.unit, f" {figure.unit}"
        )
    return style.trimmed(figure.value, 2)


def _called(section: str, name: str, phrases: Phrases) -> str:
    """A kind of working or one of its figures, as the language calls it."""
    return phrases.words.name(f"workings.{section}", name.replace(" ", "_"), name.replace("_", " "))


def worked_table(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    """A row for each `[[worked]]` of job.toml: what went in, and what came out."""
    style = phrases.style

    def figures(of: Iterable[Figure]) -> str:
        return "; ".join(f"{_called('figures', f.name, phrases)} {_shown(f, style)}" for f in of)

    def row(w: Worked) -> tuple[str, ...]:
        kind = _called("kinds", w.kind, phrases)
        return w.title or kind, kind, figures(w.inputs), figures(w.results), w.note

    columns = ("working", "kind", "given", "result", "note")
    of = (toml_place("worked", number) for number, _ in enumerate(summary.worked, 1))
    rows = map(row, summary.worked)
    return ledger(phrases, "worked", columns, rows, heading="tables.worked", names="columns", of=of)
