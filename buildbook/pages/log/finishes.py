"""The finish schedule of the build log: layers, coats, how far a litre goes, what evaporates, when it is hard."""

from __future__ import annotations

from buildbook.job.model import Finish, Job
from buildbook.pages.ledger import Ledger, ledger
from buildbook.pages.log.placed import toml_place
from buildbook.pages.phrases import Phrases
from buildbook.quantity.show import Style
from buildbook.summary.model import FinishUse, Summary

_COLUMNS = (
    "finish", "sheen", "batch", "family", "over", "coats", "#area", "#spread", "#later_spread", "#per_coat",
    "#volume", "#solvent", "light_use", "full_cure", "note",
)  # fmt: skip


def finish_schedule(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    """A row for each finish; below it what was assumed, and what its family usually asks for."""
    called = {use.key: phrases.finish(use) for use in summary.finish}
    pairs = list(zip(summary.finish, job.finishes, strict=True))
    rows = [_row(use, finish, called.get(use.over, ""), phrases) for use, finish in pairs]
    notes = [note for use in summary.finish for note in (*use.assumed, _usual(use, phrases)) if note]
    of = (toml_place("finish", number) for number, _ in enumerate(pairs, 1))
    return ledger(
        phrases, "finishes", _COLUMNS, rows, heading="tables.finishes", names="columns", notes=notes, of=of
    )


def _row(use: FinishUse, finish: Finish, beneath: str, phrases: Phrases) -> tuple[str, ...]:
    style = phrases.style
    later = use.later_m2_per_l if use.later_m2_per_l != use.spread_m2_per_l else None
    return (
        phrases.finish(use),
        finish.sheen,
        finish.batch,
        phrases.family(use),
        beneath,
        ", ".join(map(phrases.short_date, finish.coats)),
        style.area(use.area_m2),
        style.spread(use.spread_m2_per_l) if use.spread_m2_per_l else "",
        style.spread(later) if later else "",
        style.litres(use.per_coat_l) if use.per_coat_l is not None else "",
        style.litres(use.volume_l) if use.volume_l is not None else "",
        _solvent(use, style),
        phrases.short_date(use.light_use_from) if use.light_use_from else "",
        phrases.short_date(use.full_cure_to) if use.full_cure_to else "",
        finish.note,
    )


def _solvent(use: FinishUse, style: Style) -> str:
    if use.voc_kg is None:
        return ""
    low = f"{style.number(use.voc_low_kg * 1000)}–" if use.voc_low_kg not in (None, use.voc_kg) else ""
    return f"{low}{style.with_unit(use.voc_kg * 1000, 'g')}"


def _usual(use: FinishUse, phrases: Phrases) -> str:
    """How long a coat of the family waits for the next, and how well it can be mended."""
    if use.recoat_low_h is None or use.recoat_high_h is None or use.mending is None:
        return ""
    style = phrases.style
    hours = "–".join(dict.fromkeys((style.number(use.recoat_low_h), style.number(use.recoat_high_h))))
    return phrases("tables.finish_usual", finish=phrases.family(use), hours=hours, mending=use.mending)
