"""Hours against shops whose true rates are known (`shops`), and what must hold of any forecast.

Run as `python -m tests.estimate.hours.test_by_stage` for the table of errors and coverage.
"""

from dataclasses import replace
from datetime import date, timedelta
from statistics import median

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.estimate.hours.backtest import PlainWays, backtest_of, quotes
from buildbook.estimate.hours.by_stage import hours_of
from buildbook.estimate.hours.forecast import PieceSought
from buildbook.estimate.hours.shop_past import ShopPast
from buildbook.estimate.model import Range
from tests.estimate.shops import DRIFT, TRUTH, make, true_hours, wanted

SEEDS = range(5)
NEXT = 12  # jobs after the past that are quoted from it
STAGES = tuple(TRUTH)


def errors(count: int) -> dict[str, float]:
    """Over five shops of so many past jobs: errors of the next ones in %, and how many truths were in the range."""
    ours, mean, per_foot, held = [], [], [], []
    for seed in SEEDS:
        jobs = make(count + NEXT, seed)
        past, quoted = jobs[:count], quotes(jobs[:count])
        plain, foot = PlainWays(past).of(len(past))
        for job in jobs[count:]:
            hours = hours_of(wanted(job), past, quoted, STAGES).total
            ours.append(abs(hours.median / job.total_h - 1))
            mean.append(abs(plain / job.total_h - 1))
            per_foot.append(abs(foot * job.board_feet / job.total_h - 1))
            held.append(hours.low <= job.total_h <= hours.high)
    found = {"ours": ours, "mean": mean, "per_foot": per_foot}
    return {name: 100 * median(values) for name, values in found.items()} | {
        "held": 100 * sum(held) / len(held)
    }


@pytest.fixture(scope="module")
def of_sixty():
    return errors(60)


def test_sixty_jobs_tell_the_hours_of_the_next_to_fifteen_per_cent(of_sixty):
    assert of_sixty["ours"] <= 15


def test_the_range_holds_four_truths_of_five(of_sixty):
    assert 70 <= of_sixty["held"] <= 90


def test_both_plain_ways_are_beaten_twice_over(of_sixty):
    assert of_sixty["mean"] >= 2 * of_sixty["ours"]
    assert of_sixty["per_foot"] >= 2 * of_sixty["ours"]


@pytest.mark.parametrize("count", [3, 10])
def test_few_jobs_tell_less_and_say_so(count):
    """With few jobs the range leans on a usual spread, and holds at least what it promises."""
    found = errors(count)
    assert found["ours"] <= 20
    assert found["held"] >= 75
    assert min(found["mean"], found["per_foot"]) >= 2 * found["ours"]


def test_the_backtest_of_sixty_jobs_holds_too():
    tests = [backtest_of(quotes(make(60, seed))) for seed in SEEDS]
    tried = [t for test in tests for t in test.tried]
    assert len(tried) == 5 * 57
    assert 70 <= 100 * sum(t.in_range for t in tried) / len(tried) <= 90
    assert median([test.median_abs_error_pct for test in tests]) <= 15


def test_a_quote_of_the_past_knows_nothing_of_what_came_later():
    jobs = make(24, 3)
    later = [replace(job, hours={s: 9 * h for s, h in job.hours.items()}) for job in jobs[16:]]
    before, after = quotes(jobs), quotes([*jobs[:16], *later])
    for first, second in zip(before, after, strict=True):
        assert first.job.key == second.job.key
        if first.job.begun < jobs[16].day:
            assert first.forecast == second.forecast
            assert max(job.day for job in first.before) < first.job.begun


def test_a_shop_that_grows_faster_is_seen_to():
    """Drift of the true rates, in logarithms a year, over five years of jobs."""
    found = [ShopPast(jobs, jobs[-1].day).drift for jobs in (make(60, seed) for seed in SEEDS)]
    assert DRIFT - 0.02 <= median(found) <= DRIFT + 0.02


def test_a_driver_that_tells_better_is_taken():
    """A stage whose name promises nothing, and one whose usual driver is not what its hours go with."""
    jobs = [
        replace(
            job,
            hours={
                "marking out": 0.2 * job.drivers["joints"],
                "finishing": 0.3 * job.drivers["wood_parts"],
                "milling": job.hours["milling"],
            },
        )
        for job in make(30, 8)
    ]
    drivers = ShopPast(jobs, None).drivers
    assert drivers == {"marking out": "joints", "finishing": "wood_parts", "milling": "rough_volume"}


def test_the_exponents_of_the_truth_are_found():
    shop = ShopPast(make(120, 2), None)
    forecast = shop.forecast(wanted(make(1, 99)[0]))
    for stage in forecast.stages:
        if stage.driver == TRUTH[stage.stage][0] != "none":
            assert stage.exponent == pytest.approx(TRUTH[stage.stage][2], abs=0.2), stage.stage


# -- what must hold --------------------------------------------------------------------------------


PAST = make(14, 5)
QUOTED = quotes(PAST)


@given(
    st.integers(0, 11),
    st.lists(st.sampled_from([1.0, 1.0, 1.5, 2.0, 7.0]), min_size=8, max_size=8),
)
def test_more_of_anything_never_takes_less(seed, factors):
    """However the drivers grow: no stage's hours fall, nor the whole, nor an end of its range."""
    job = make(1, seed)[0]
    grown = {name: job.drivers[name] * f for name, f in zip(job.drivers, factors, strict=True)} | {
        "none": 1.0
    }
    small, large = (
        hours_of(replace(wanted(job), drivers=d), PAST, QUOTED, STAGES) for d in (job.drivers, grown)
    )
    for less, more in zip(small.by_stage, large.by_stage, strict=True):
        assert less.stage == more.stage
        assert more.hours.median >= less.hours.median * (1 - 1e-9)
    for end in ("low", "median", "high"):
        assert getattr(large.total, end) >= getattr(small.total, end) * (1 - 1e-9)


def test_a_stage_that_no_past_job_had_is_said_and_is_not_zero():
    past = [
        replace(
            job,
            drivers=job.drivers | {"panes": 0.0},
            hours={s: h for s, h in job.hours.items() if s != "glazing"},
        )
        for job in PAST
    ]
    asked = replace(wanted(past[0]), drivers=past[0].drivers | {"panes": 3.0}, stages=frozenset({"gilding"}))
    hours = hours_of(asked, past, quotes(past), STAGES)
    untold = {stage.stage: stage for stage in hours.by_stage if stage.hours is None}
    assert set(untold) == {"glazing", "gilding"}
    assert all([said.key for said in stage.said] == ["never_booked"] for stage in untold.values())
    assert hours.total is not None


def test_a_stage_that_few_had_is_named_and_not_counted_unless_the_enquiry_asks_for_it():
    past = [
        replace(job, hours=job.hours | ({"turning": 8.0} if n == 4 else {})) for n, job in enumerate(PAST)
    ]
    asked = wanted(past[0])
    without = hours_of(asked, past, quotes(past), STAGES)
    assert without.rare == ("turning",)
    assert "turning" not in {stage.stage for stage in without.by_stage}
    with_it = hours_of(replace(asked, stages=frozenset({"turning"})), past, quotes(past), STAGES)
    (turning,) = [stage for stage in with_it.by_stage if stage.stage == "turning"]
    assert turning.hours.median == pytest.approx(8.0, rel=0.05)  # carried to the speed of the day
    assert with_it.total.median > without.total.median


def test_fewer_than_three_jobs_give_stages_but_no_whole():
    hours = hours_of(wanted(PAST[5]), PAST[:2], quotes(PAST[:2]), STAGES)
    assert hours.total is None
    assert {said.key for stage in hours.by_stage for said in stage.said} >= {"few_jobs"}
    assert hours_of(wanted(PAST[5]), [], (), STAGES).by_stage == ()


def test_scaled_drivers_make_the_range_wider():
    job = PAST[3]
    read = hours_of(wanted(job), PAST, QUOTED, STAGES).total
    scaled = {name: Range(v / 2, v, 2 * v) for name, v in job.drivers.items() if name != "none"}
    wide = hours_of(wanted(job), PAST, QUOTED, STAGES, scaled).total
    assert wide.median == read.median
    assert wide.low < read.low
    assert wide.high > read.high


def test_the_range_is_of_the_shops_own_past():
    """A shop whose jobs go as quoted has a narrow range; one whose jobs go as they like a wide one."""

    def width(noise: float) -> float:
        jobs = [
            replace(
                job, hours={s: h * (1 + noise * (-1) ** n) for s, h in true_hours(dict(job.drivers)).items()}
            )
            for n, job in enumerate(make(40, 6))
        ]
        total = hours_of(wanted(jobs[0]), jobs, quotes(jobs), STAGES).total
        return total.high / total.low

    assert width(0.02) < 1.3 < 1.8 < width(0.45)


def test_jobs_without_a_day_count_as_long_ago():
    undated = [replace(job, day=None, begun=None) for job in PAST[:4]]
    hours = hours_of(
        PieceSought(PAST[9].traits, PAST[9].drivers, frozenset(), date(2030, 1, 1)),
        [*undated, *PAST[4:]],
        (),
        STAGES,
    )
    assert hours.total is not None
    assert hours.jobs == len(PAST)


def test_the_order_of_the_shelf_does_not_matter():
    day = PAST[-1].day + timedelta(days=9)
    asked = replace(wanted(PAST[2]), day=day)
    one, other = (hours_of(asked, jobs, quotes(jobs), STAGES) for jobs in (PAST, PAST[::-1]))
    assert one.total.median == pytest.approx(other.total.median, rel=1e-3)


if __name__ == "__main__":
    print("past jobs  ours %  mean hours %  per board foot %  in range %")
    for size in (3, 10, 60):
        row = errors(size)
        print(
            f"{size:9}  {row['ours']:6.1f}  {row['mean']:12.1f}  {row['per_foot']:16.1f}  {row['held']:10.0f}"
        )
