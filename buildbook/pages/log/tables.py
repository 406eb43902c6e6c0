"""The tables of the build log: cut list, stock to buy, hardware, finish schedule, movement, workings, cost.

Each is a `Ledger` of ready-made text, so that a theme lays out and never computes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Protocol

from buildbook.job.model import Job, Part
from buildbook.pages.ledger import Ledger, ledger
from buildbook.pages.log.finishes import finish_schedule
from buildbook.pages.log.holding import sag_table, sums_table
from buildbook.pages.log.placed import row_place
from buildbook.pages.log.sets import counts_note, each_and_all, pieces_apart
from buildbook.pages.log.workings import worked_table
from buildbook.pages.materials import wood_of
from buildbook.pages.phrases import Phrases, capital
from buildbook.pages.sets import of_set
from buildbook.quantity.show import Style
from buildbook.summary.model import Summary


def tables_of(job: Job, summary: Summary, phrases: Phrases) -> tuple[Ledger, ...]:
    """Every table of the log in the order in which a maker would look for them."""
    builders = (
        each_and_all,
        pieces_apart,
        _cut_list,
        sums_table,
        _stock,
        _sheets,
        _hardware,
        _supplies,
        finish_schedule,
        _glass,
        _movement,
        sag_table,
        _hanging,
        worked_table,
        _cost,
        _masses,
    )
    return tuple(table for build in builders if (table := build(job, summary, phrases)))


def _table(
    phrases: Phrases,
    key: str,
    columns: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    totals: Sequence[str] = (),
    notes: Iterable[str] = (),
    of: Iterable[str] = (),
) -> Ledger | None:
    return ledger(
        phrases,
        key,
        columns,
        rows,
        heading=f"tables.{key}",
        names="columns",
        totals=totals,
        notes=notes,
        of=of,
    )


class _OfARow(Protocol):
    @property
    def row(self) -> int: ...


def _rows_of(told: Iterable[_OfARow]) -> Iterable[str]:
    return (row_place(one.row) for one in told)


def _side(length: object, style: Style) -> str:
    return style.figure(length.m) if length is not None else ""  # type: ignore[attr-defined]


def told_of(part: Part, phrases: Phrases) -> str:
    """What stands beside the sizes of a part: its wall where it is hollow, and the note."""
    wall = phrases("log.walled", wall=phrases.style.length(part.wall.m)) if part.wall else ""
    return "; ".join(filter(None, (wall, part.note)))


def _cut_list(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    cut = [p for p in job.parts if p.kind in ("wood", "panel", "glass", "stone", "upholstery")]
    if not cut:
        return None
    style = phrases.style

    def row(p: Part) -> tuple[str, ...]:
        return (
            p.name,
            str(p.qty),
            p.material,
            _side(p.length, style),
            style.figure(p.between_shoulders_m) if p.between_shoulders_m is not None else "",
            _side(p.width, style),
            _side(p.thickness, style),
            p.stock.told if p.stock else "",
            phrases(f"cuts.{p.cut}") if p.cut else "",
            p.fit,
            p.edge,
            p.finish if p.faces != "none" else "",
            told_of(p, phrases),
        )

    columns = (
        "part",
        "#qty",
        "material",
        "#length",
        "#between_shoulders",
        "#width",
        "#thickness",
        "#stock",
        "cut",
        "fit",
        "edge",
        "finish",
        "note",
    )
    notes = [phrases("tables.unit", unit=style.units), *counts_note(job, phrases)]
    return _table(phrases, "cut_list", columns, map(row, cut), notes=notes, of=_rows_of(cut))


def _stock(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    timber, style = summary.timber, phrases.style
    rows = []
    for wood in timber.species:
        cost = phrases.at_least(style.money(wood.cost.amount), wood.cost_whole) if wood.cost else ""
        for place, line in enumerate(wood.stock):
            rows.append(
                (
                    phrases.words.name("species_name", wood.key, wood.name) if place == 0 else "",
                    line.stock,
                    str(line.parts),
                    style.volume(line.rough_m3),
                    style.board_feet(line.rough_bf),
                    style.volume(line.buy_m3),
                    style.board_feet(line.buy_bf),
                    cost if place == 0 else "",
                )
            )
    if not rows:
        return None
    totals = (
        phrases("columns.total"),
        "",
        "",
        style.volume(timber.rough_m3),
        style.board_feet(timber.rough_bf),
        style.volume(timber.buy_m3),
        style.board_feet(timber.buy_bf),
        "",
    )
    columns = ("wood", "#stock", "#parts", "#rough_m3", "#rough_bf", "#buy_m3", "#buy_bf", "#cost")
    notes = [*timber.assumed, *(note for wood in timber.species for note in wood.assumed)]
    return _table(phrases, "stock", columns, rows, totals=totals, notes=notes)


def _sheets(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    style = phrases.style
    rows = [
        (
            capital(phrases.words.name("sheet_name", use.key, use.name)),
            style.length(use.thickness_m),
            str(use.parts),
            style.area(use.area_m2),
            str(use.sheets),
            style.size(use.sheet_length_m, use.sheet_width_m),
            phrases.at_least(style.money(use.cost.amount), use.cost_whole) if use.cost else "",
        )
        for use in summary.panels.sheets
    ]
    notes = [note for use in summary.panels.sheets for note in use.assumed]
    columns = ("sheet", "#thickness", "#parts", "#area", "#sheets", "#sheet_size", "#cost")
    return _table(phrases, "sheets", columns, rows, notes=notes) if rows else None


def _hardware(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    parts = {part.row: part for part in job.parts}
    style = phrases.style
    rows = [
        (
            item.part,
            str(item.qty),
            item.spec,
            style.mass(item.kg, 2) if item.kg else "",
            parts[item.row].supplier,
            style.money(item.cost.amount) if item.cost else "",
            parts[item.row].note,
        )
        for item in summary.hardware
    ]
    columns = ("part", "#qty", "ask_for", "#mass", "supplier", "#cost", "note")
    of = _rows_of(summary.hardware)
    return (
        _table(phrases, "hardware", columns, rows, notes=counts_note(job, phrases), of=of) if rows else None
    )


def _supplies(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    style = phrases.style
    supplies = [p for p in job.parts if p.kind == "supply"]
    rows = [
        (
            p.name,
            str(p.qty),
            p.material,
            p.supplier,
            style.money(p.price) if p.price is not None else "",
            phrases(f"lists.units.{p.per}") if p.per else "",
            p.note,
        )
        for p in supplies
    ]
    columns = ("part", "#qty", "material", "supplier", "#price", "per", "note")
    return _table(phrases, "supplies", columns, rows, of=_rows_of(supplies)) if rows else None


def _glass(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    style = phrases.style
    rows = [
        (
            pane.part,
            str(pane.qty),
            pane.kind,
            style.area(pane.area_m2),
            style.length(pane.thickness_m),
            style.mass(pane.kg, 1),
            "; ".join(map(phrases.told, pane.safety)),
        )
        for pane in summary.glass.panes
    ]
    columns = ("part", "#qty", "glass_kind", "#area", "#thickness", "#mass", "safety")
    return _table(phrases, "glass", columns, rows, notes=counts_note(job, phrases)) if rows else None


def _movement(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    style, air = phrases.style, summary.air
    rows = []
    for m in summary.movement:
        spare = style.small(m.spare_m) if m.spare_m is not None else ""
        verdict = "" if m.ok is None else phrases("tables.fits" if m.ok else "tables.too_tight")
        rows.append(
            (
                m.part,
                wood_of(job, m, phrases),
                phrases(f"cuts.{m.cut}"),
                style.figure(m.width_m),
                m.fit,
                style.small(m.grows_m),
                style.small(m.shrinks_m),
                style.figure(m.opening_m) if m.opening_m is not None else "",
                spare,
                verdict,
            )
        )
    said = phrases(
        "tables.movement_air",
        made=style.percent(air.made_mc_pct, 1),
        low=style.number(air.low_mc_pct, 1),
        high=style.percent(air.high_mc_pct, 1),
        rh_low=style.number(air.rh_low_pct),
        rh_high=style.percent(air.rh_high_pct),
        temperature=style.temperature(air.temperature_c),
    )
    notes = [
        said,
        *air.assumed,
        *(f"{m.part}: {phrases.told(note)}" for m in summary.movement for note in m.assumed),
    ]
    columns = ("part", "wood", "cut", "#width", "fit", "#grows", "#shrinks", "#opening", "#spare", "verdict")
    return _table(phrases, "movement", columns, rows, notes=notes) if rows else None


def _hanging(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    load, style = summary.hanging, phrases.style
    if load is None:
        return None
    rows = [
        (phrases("hanging.loaded"), style.mass(load.loaded_kg, 1)),
        (phrases("hanging.fasteners"), str(load.fasteners)),
        (phrases("hanging.shear_each"), style.force(load.shear_each_n)),
        (phrases("hanging.pull_each"), style.force(load.pull_each_n)),
    ]
    if load.allowed_shear_n is not None:
        rows.append((phrases("hanging.allowed_shear"), style.force(load.allowed_shear_n)))
    if load.allowed_pull_n is not None:
        rows.append((phrases("hanging.allowed_pull"), style.force(load.allowed_pull_n)))
    if load.use_pct is not None:
        rows.append((phrases("hanging.use"), style.percent(load.use_pct)))
    of_one = [of_set("tables.of_one", job, phrases)] if job.quantity > 1 else []
    notes = [*of_one, *load.cautions, *load.assumed]
    return _table(phrases, "hanging", ("figure", "#value"), rows, notes=notes)


def _cost(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    cost, style = summary.cost, phrases.style
    if not cost.by_kind and cost.labour is None:
        return None
    rows = [(phrases(f"kinds.{line.kind}"), style.money(line.cost.amount)) for line in cost.by_kind]
    whole = not cost.unpriced
    rows.append((phrases("cost.materials"), phrases.at_least(style.money(cost.materials.amount), whole)))
    if cost.labour is not None:
        rows.append((phrases("cost.labour"), style.money(cost.labour.amount)))
    if cost.total is not None:
        rows.append((phrases("cost.total"), phrases.at_least(style.money(cost.total.amount), whole)))
    if cost.price is not None:
        rows.append((phrases("cost.price"), style.money(cost.price.amount)))
    if cost.margin_pct is not None:
        rows.append((phrases("cost.margin"), phrases.at_most(style.percent(cost.margin_pct, 1), whole)))
    if cost.earned_per_hour is not None:
        earned = style.money(cost.earned_per_hour.amount)
        rows.append((phrases("cost.earned"), phrases.at_most(earned, whole)))
    notes = [phrases("cost.unpriced", what=phrases.without_price(summary))] if cost.unpriced else []
    return _table(phrases, "cost", ("item", "#amount"), rows, notes=notes)


def _masses(job: Job, summary: Summary, phrases: Phrases) -> Ledger | None:
    mass, style = summary.mass, phrases.style
    rows = [(part.part, style.mass(part.kg, 2)) for part in mass.parts]
    if not rows:
        return None
    notes = list(mass.assumed)
    if mass.unknown:
        notes.append(phrases("tables.mass_unknown", what=phrases.listed(mass.unknown)))
    return _table(
        phrases,
        "masses",
        ("part", "#mass"),
        rows,
        totals=(phrases("columns.total"), style.mass(mass.total_kg, 1)),
        notes=notes,
    )
