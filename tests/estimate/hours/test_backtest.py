"""Past jobs quoted from those before them: the same by columns as by plain loops, nothing known that came later, and a long
past tried by its latest jobs.
"""

import random
from dataclasses import replace
from datetime import timedelta
from statistics import median

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.estimate.hours import backtest, shop_past, told
from buildbook.estimate.hours.backtest import backtest_of, quotes, triable
from buildbook.estimate.settings import method
from tests.estimate.hours.plain import plain_quotes
from tests.estimate.shops import make

JOINTS = ("dovetail", "tenon", "dowel", "mitre", "lap")
FINISHES = ("oil", "wax", "shellac")


def shop(seed, count, options):
    """A shop with what makers' records have: sets, jobs without a day or done together, stages that only some book or
    that came late, pieces without a driver, words of all kinds.
    """
    chance, out = random.Random(seed), []
    for place, job in enumerate(make(count, seed)):
        hours, drivers = dict(job.hours), dict(job.drivers)
        if "gaps" in options:
            hours = {stage: took for stage, took in hours.items() if chance.random() < 0.8}
            drivers |= {name: 0.0 for name in ("joints", "hardware", "finish_area") if chance.random() < 0.15}
        if "late" in options and place > 0.6 * count:
            hours |= {"turning": chance.uniform(1, 9)} if chance.random() < 0.5 else {}
            hours |= {"gilding": chance.uniform(1, 9)} if place % 7 == 0 else {}
        pieces = chance.choice([1, 1, 2, 6]) if "sets" in options else 1
        hours = {stage: took * pieces**0.9 for stage, took in hours.items()}
        values = job.traits.values | {
            "joinery": frozenset(chance.sample(JOINTS, chance.randint(0, 3))),
            "finish": frozenset(chance.sample(FINISHES, chance.randint(0, 2))),
            "stands": chance.choice([None, "indoors", "outdoors"]),
        }
        begun, day = job.begun, job.day
        if "undated" in options and chance.random() < 0.15:
            begun = day = None
        if day and "together" in options:
            day = day.replace(day=1) + timedelta(31)
            begun = chance.choice([None, begun, begun - timedelta(200), day + timedelta(5)])
        out.append(
            replace(
                job,
                traits=replace(job.traits, values=values),
                hours=hours,
                drivers=drivers,
                pieces=pieces,
                begun=begun,
                day=day,
            )
        )
    chance.shuffle(out)
    return out


def with_trial(monkeypatch, **changed):
    """Other settings of the trial, where the package and the plain way ask for them."""
    rules = replace(method(), trial=replace(method().trial, **changed))
    for module in (backtest, shop_past, told):
        monkeypatch.setattr(module, "method", lambda: rules)
    monkeypatch.setattr("tests.estimate.hours.plain.method", lambda: rules)


OPTIONS = ("gaps", "late", "sets", "undated", "together")


@pytest.mark.parametrize("anew", [1.0, 1.02, 1.6])
@given(st.integers(0, 10**6), st.integers(3, 34), st.sets(st.sampled_from(OPTIONS)))
def test_by_columns_it_is_what_it_is_by_loops(anew, seed, count, options):
    """Whether the past is looked at anew for each job, now and then, or seldom."""
    jobs = shop(seed, count, options)
    with pytest.MonkeyPatch.context() as patched:
        with_trial(patched, anew=anew)
        found, plain = quotes(jobs), plain_quotes(jobs)
    assert [quote.job.key for quote in found] == [key for key, *_ in plain]
    for quote, (_, before, total, hours, shares) in zip(found, plain, strict=True):
        assert len(quote.before) == before
        assert quote.forecast.total_h == pytest.approx(total, rel=1e-9)
        by_stage = {stage.stage: stage for stage in quote.forecast.stages}
        assert {name: stage.hours_h for name, stage in by_stage.items()} == pytest.approx(hours, rel=1e-9)
        assert {name: stage.booked for name, stage in by_stage.items()} == pytest.approx(shares, rel=1e-9)


@pytest.mark.parametrize("anew", [1.0, 1.6])
def test_whatever_came_later_no_quote_knows_of_it(anew, monkeypatch):
    """Also where what the past says is kept for a while: later jobs nine times as long change nothing before them."""
    with_trial(monkeypatch, anew=anew)
    jobs = make(60, 3)
    later = [replace(job, hours={s: 9 * h for s, h in job.hours.items()} | {"new": 5.0}) for job in jobs[40:]]
    before, after = quotes(jobs), quotes([*jobs[:40], *later])
    known = [quote for quote in before if quote.job.begun < jobs[40].day]
    assert len(known) > 30
    assert [quote.forecast for quote in known] == [quote.forecast for quote in after[: len(known)]]


def test_of_a_long_past_the_latest_jobs_are_tried_and_it_is_said_of_how_many():
    jobs = make(230, 4)
    found = quotes(jobs)
    last = method().trial.last
    assert [quote.job.key for quote in found] == [job.key for job in jobs[-last:]]
    assert triable(jobs) == 227
    assert backtest_of(found, triable(jobs)).could == 227
    assert len(found[0].before) == 30
    few = quotes(jobs[:50])
    assert backtest_of(few, triable(jobs[:50])).could == len(few) == 47


def test_a_job_whose_day_is_not_known_is_not_tried_but_tells():
    jobs = [replace(job, day=None, begun=None) if n < 4 else job for n, job in enumerate(make(12, 2))]
    found = quotes(jobs)
    assert [quote.job.key for quote in found] == [job.key for job in jobs[4:]]
    assert len(found[0].before) == 4


def test_a_job_begun_after_it_was_done_is_not_quoted_from_itself():
    jobs = make(12, 2)
    jobs[6] = replace(jobs[6], begun=jobs[6].day + timedelta(90))
    for quote in quotes(jobs):
        assert quote.job not in quote.before


def test_what_is_kept_for_a_while_quotes_as_well_as_what_is_found_anew_for_each():
    """The median miss and the range over shops of two hundred jobs."""

    def tried(anew):
        with pytest.MonkeyPatch.context() as patched:
            with_trial(patched, anew=anew)
            every = [backtest_of(quotes(make(110, seed))) for seed in range(3)]
        return [one for test in every for one in test.tried]

    each, kept = tried(1.0), tried(method().trial.anew)
    misses = [median(abs(one.error_pct) for one in some) for some in (each, kept)]
    held = [100 * sum(one.in_range for one in some) / len(some) for some in (each, kept)]
    assert misses[1] <= misses[0] + 0.5
    assert abs(held[1] - held[0]) <= 2
