"""The instructions of a piece by the time of the owner's life with it: before use, each week, each year, first weeks.

In: `CareItem`s that the client may read. Out: what the page shows of them. Pure: a page is the same bytes whenever it
is bound, so what will be over tells its day and stands after what lasts.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from buildbook.care import CareItem
from buildbook.care.surfaces import labels
from buildbook.job.model import Job
from buildbook.pages.client.piece import Advice, AdviceGroup, FirstWeeks, Short
from buildbook.pages.phrases import Phrases
from buildbook.summary.model import Summary
from buildbook.trade import tables
from buildbook.trade.days import days_after

_FIRST_WEEKS = "now"
_EVERYDAY = "week"
_MORE_SELDOM = ("month", "half-year", "year", _FIRST_WEEKS)
_MOVED_OR_CHANGED = ("moving", "changing")
_MANNERS = ("do", "never", "with")
_DANGERS_AT_MOST = 4  # what stands there for all to read; a warning always does


def advice_of(item: CareItem, phrases: Phrases) -> Advice:
    return Advice(
        key=item.key,
        title=item.title,
        text=item.text,
        why=item.why,
        severity=item.severity,
        severity_word=phrases(f"severity.{item.severity}"),
        source=item.source,
        manner=item.manner or "",
    )


def _short(item: CareItem, phrases: Phrases) -> Short:
    return Short(item.short, item.key, item.severity, phrases(f"severity.{item.severity}"))


def day_one(items: list[CareItem], phrases: Phrases) -> tuple[Short, ...]:
    """What stands at the top of the page: from when the piece may be used at all, then what always holds. What is over
    after the first weeks comes last, and never alone: on a page of twenty years ago it is no news.
    """
    told = [item for item in items if item.day_one]
    before_use = [item for item in told if item.season == _FIRST_WEEKS and item.severity != "note"]
    lasting = [item for item in told if item.season != _FIRST_WEEKS]
    if not before_use and not lasting:
        return ()
    passing = [item for item in told if item.season == _FIRST_WEEKS and item.severity == "note"]
    return tuple(_short(item, phrases) for item in (*before_use, *lasting, *passing))


def first_weeks(job: Job, summary: Summary, items: Iterable[CareItem], phrases: Phrases) -> FirstWeeks | None:
    """What holds only at first, with the day when it is over: the last of its finishes is hard, the wood has settled.
    Without a day where one of these is not known.
    """
    now = [item for item in items if item.season == _FIRST_WEEKS]
    if not now:
        return None
    called = labels(job, phrases.words)
    hardening = {name for item in now for name in item.finishes}
    over = [use.full_cure_to for use in summary.finish if called[use.key] in hardening]
    if job.delivered is None:
        over.append(None)
    elif any(not item.finishes for item in now):
        over.append(days_after(job.delivered, tables.constant("settling_in_days")))
    known = [day for day in over if day]
    heading = phrases("care_times.now")
    if known and len(known) == len(over):
        heading = phrases("care_times.now_until", day=phrases.date(max(known)))
    return FirstWeeks(heading, tuple(_short(item, phrases) for item in now if item.short))


def dangers(items: Iterable[CareItem], advice: Mapping[str, Advice]) -> tuple[Advice, ...]:
    """What can hurt somebody and what must be known before first use: every such warning, then cautions as far as there
    is room.
    """
    told = [item for item in items if item.day_one and item.severity != "note"]
    warnings = [item for item in told if item.severity == "warning"]
    others = [item for item in told if item.severity != "warning"]
    room = max(_DANGERS_AT_MOST - len(warnings), 0)
    return tuple(advice[item.key] for item in (*warnings, *others[:room]))


def everyday(
    items: Iterable[CareItem], advice: Mapping[str, Advice], phrases: Phrases
) -> tuple[AdviceGroup, ...]:
    """The care of each week: what to do, what never, what to clean with."""
    of_week = [item for item in items if item.season == _EVERYDAY]
    groups = (
        AdviceGroup(
            manner,
            phrases(f"care_manner.{manner}"),
            _in_order((item for item in of_week if item.manner == manner), advice),
        )
        for manner in _MANNERS
    )
    return tuple(group for group in groups if group.items)


def _in_order(items: Iterable[CareItem], advice: Mapping[str, Advice]) -> tuple[Advice, ...]:
    return tuple(advice[item.key] for item in sorted(items, key=lambda item: item.order))


def care_groups(
    items: Iterable[CareItem],
    advice: Mapping[str, Advice],
    at_first: FirstWeeks | None,
    phrases: Phrases,
    seasons: Sequence[str] = _MORE_SELDOM,
) -> tuple[AdviceGroup, ...]:
    """What comes more seldom than each week, and the first weeks last."""
    groups = []
    for season in seasons:
        if chosen := of_season(items, advice, season):
            first = at_first if season == _FIRST_WEEKS else None
            groups.append(
                AdviceGroup(season, first.heading if first else phrases(f"care_times.{season}"), chosen)
            )
    return tuple(groups)


def moved_or_changed(
    items: Iterable[CareItem], advice: Mapping[str, Advice], phrases: Phrases
) -> tuple[AdviceGroup, ...]:
    return care_groups(items, advice, None, phrases, _MOVED_OR_CHANGED)


def of_season(items: Iterable[CareItem], advice: Mapping[str, Advice], season: str) -> tuple[Advice, ...]:
    """The instructions of one season, in the order of the rules."""
    return _in_order((item for item in items if item.season == season), advice)
