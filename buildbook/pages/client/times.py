"""The instructions of a piece by the time of the owner's life with it: before use, each week, each year, first weeks.

In: `CareItem`s that the client may read. Out: what the page shows of them. Pure: a page is the same bytes whenever it
is bound, so what will be over tells its day and stands after what lasts.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from buildbook.care import CareItem
from buildbook.care.surfaces import labels
from buildbook.job.model import Job
from buildbook.pages.client.piece import Advice, AdviceGroup, FirstWeeks, Short
from buildbook.pages.phrases import Phrases
from buildbook.summary.model import Summary
from buildbook.trade import tables
from buildbook.trade.days import days_after

_FIRST_WEEKS = "now"
_SEASONS_OF_CARE = (
    "week", "month", "half-year", "year", "moving", "changing", "another", "passing", _FIRST_WEEKS,
)  # fmt: skip


def advice_of(item: CareItem, phrases: Phrases) -> Advice:
    return Advice(
        key=item.key,
        title=item.title,
        text=item.text,
        why=item.why,
        severity=item.severity,
        severity_word=phrases(f"severity.{item.severity}"),
        source=item.source,
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


def care_groups(
    items: Iterable[CareItem], advice: dict[str, Advice], at_first: FirstWeeks | None, phrases: Phrases
) -> Iterable[AdviceGroup]:
    by_season = sorted(items, key=lambda i: i.season)
    grouped = {season: list(group) for season, group in groupby(by_season, key=lambda i: i.season)}
    for season in _SEASONS_OF_CARE:
        if chosen := grouped.get(season):
            ordered = sorted(chosen, key=lambda i: i.order)
            first = at_first if season == _FIRST_WEEKS else None
            heading = first.heading if first else phrases(f"care_times.{season}")
            yield AdviceGroup(season, heading, tuple(advice[i.key] for i in ordered))
