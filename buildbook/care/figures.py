"""Figures of a piece as phrases that the texts of care are filled with: dates, sizes, masses, the air.

In: job, summary, words. Out: phrases by name. Only what the client may read goes in.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Literal

from buildbook.care.quantities import said_quantities
from buildbook.care.subject import in_piece
from buildbook.care.surfaces import labels
from buildbook.care.woods import called, changes_colour, species_of, swing_m
from buildbook.job.model import Job
from buildbook.job.toml.pieces import told_pieces
from buildbook.problems import listed
from buildbook.quantity import Style
from buildbook.signs import in_prose, says
from buildbook.summary.model import FinishUse, Summary
from buildbook.summary.sets import each_of
from buildbook.summary.style import style_of
from buildbook.summary.wear import DAILY, is_only_inside
from buildbook.trade import tables
from buildbook.trade.days import MONTHS_OF_YEAR
from buildbook.words import Words

MOST_NAMED = 3  # a longer list of names is no help to a reader


def figures(job: Job, summary: Summary, words: Words) -> dict[str, str]:
    """Every phrase about the piece as a whole, by the name that a text uses."""
    style = style_of(job, words)
    return {
        **said_quantities(style),
        "mass": style.mass(each_of(summary).mass_kg),
        "load": style.mass(job.contents_kg) if job.contents_kg is not None else "",
        "rh_low": style.percent(summary.air.rh_low_pct),
        "rh_high": style.percent(summary.air.rh_high_pct),
        "stance": _stance(job, summary, style, words),
        "light": _light(job, words),
        "mover": _widest_mover(job, summary, style, words),
        "inside": _inside(job, words),
    }


def finish_figures(job: Job, summary: Summary, words: Words, meant: Iterable[str]) -> dict[str, str]:
    """The phrases about some of the finishes, told by what they are called: until when to go gently, from when to use
    them, when to renew them.
    """
    called = labels(job, words)
    meant = set(meant)
    uses = [use for use in summary.finish if called.get(use.key) in meant]
    cures = [_cure(called[use.key], use, words) for use in uses]
    ready = [_ready(called[use.key], use, words) for use in uses if use.light_use_from]
    last = words.text("facts.and")
    return {
        "cure": listed(cures, last),
        "ready": listed(ready, last),
        "refresh": _refresh(uses, words),
    }


def _cure(finish: str, use: FinishUse, words: Words) -> str:
    if use.full_cure_to is None:
        sheet = tables.finishes()[use.family].full_cure_days is None
        return words.text(f"facts.figure.cure-{'sheet' if sheet else 'unknown'}", finish=finish)
    until = _days_of(use, "full_cure_to", words) or words.date(use.full_cure_to)
    return words.text("facts.figure.cure-until", finish=finish, date=until)


def _ready(finish: str, use: FinishUse, words: Words) -> str:
    """From when it may be used with care, and from when fully."""
    assert use.light_use_from
    light = _days_of(use, "light_use_from", words) or words.date(use.light_use_from)
    if use.full_cure_to is None or use.full_cure_to <= use.light_use_from:
        return words.text("facts.figure.ready", finish=finish, light=light)
    full = _days_of(use, "full_cure_to", words) or words.date(use.full_cure_to)
    return words.text("facts.figure.ready-both", finish=finish, light=light, full=full)


def _days_of(use: FinishUse, which: Literal["light_use_from", "full_cure_to"], words: Words) -> str:
    """The days of pieces that went apart, each with its pieces; empty for what has one day."""
    days = [_day_of(own.pieces, day, words) for own in use.batches if (day := getattr(own, which))]
    return listed(days, words.text("facts.and"))


def _day_of(pieces: tuple[int, ...], day: date, words: Words) -> str:
    """`12 June 2026 for pieces 1–4`."""
    which = words.text("set.for_pieces", count=len(pieces), pieces=told_pieces(pieces, "–"))
    return f"{words.date(day)} {which}"


def _refresh(uses: list[FinishUse], words: Words) -> str:
    """How often, by the shortest interval of these finishes, and when first."""
    known = [use for use in uses if use.refresh_months]
    if not known:
        return words.text("facts.figure.refresh-unknown")
    soonest = min(known, key=lambda use: use.refresh_months or 0)
    handled = "daily" if soonest.wear == DAILY else "seldom"
    how = {
        "handled": words.text(f"facts.figure.handled-{handled}"),
        "interval": interval(soonest.refresh_months or 0, words),
    }
    first = min((day for use in known for day in use.refresh), default=None)
    if first is None:
        return words.text("facts.figure.refresh", **how)
    return words.text("facts.figure.refresh-from", **how, month=words.month(first))


def interval(months: int, words: Words) -> str:
    """`6 months`, `2 years`, `year`: what stands after *every*."""
    whole_years = months % MONTHS_OF_YEAR == 0
    unit, count = ("year", months // MONTHS_OF_YEAR) if whole_years else ("month", months)
    if count == 1:
        return words.text(f"facts.figure.every-{unit}")
    return words.text(f"facts.figure.every-{unit}s", count=count)


def _stance(job: Job, summary: Summary, style: Style, words: Words) -> str:
    """How tall and how heavy it stands, as far as it is known."""
    height = style.length(job.overall.height.m) if job.overall.height else ""
    mass = style.mass(each_of(summary).mass_kg) if summary.mass.total_kg else ""
    if height and mass:
        return words.text("facts.figure.height-and-mass", height=height, mass=mass)
    if height:
        return words.text("facts.figure.height", height=height)
    return (
        words.text("facts.figure.mass-only", mass=mass) if mass else words.text("facts.figure.stance-unknown")
    )


def _light(job: Job, words: Words) -> str:
    """Which woods light will change, of those that the client may read of; none by name if they are many."""
    woods = [(part, species_of(part)) for part in in_piece(job) if part.kind == "wood" and part.for_client]
    changing = dict.fromkeys(called(part, words) for part, wood in woods if wood and changes_colour(wood))
    if not 0 < len(changing) <= MOST_NAMED:
        return words.text("facts.figure.light-unnamed")
    named = listed((words.text("facts.the", name=name) for name in changing), words.text("facts.and"))
    return words.text("facts.figure.light", woods=named)


def _widest_mover(job: Job, summary: Summary, style: Style, words: Words) -> str:
    """The part that moves most, and how far from its narrowest to its widest."""
    shown = {part.row for part in job.parts if part.for_client}
    most = max((row for row in summary.movement if row.row in shown), key=swing_m, default=None)
    if most is None or swing_m(most) == 0:
        return words.text("facts.figure.mover-unknown")
    swing = style.small(swing_m(most))
    widest = words.text("facts.the", name=in_prose(most.part, words))
    return words.text("facts.figure.mover", swing=swing, widest=widest)


def _inside(job: Job, words: Words) -> str:
    """Where the finishes are that are only inside."""
    keys = {finish.key for finish in job.finishes if is_only_inside(job, finish)}
    inner = [part for part in job.parts if part.for_client and part.finish in keys]
    in_drawers = all(says("drawer", part.name) for part in inner)
    return words.text("facts.figure.inside-drawers" if in_drawers else "facts.figure.inside-piece")
