"""The range: Student's t against printed tables, coverage of the conformal part, and how it leans with few quotes."""

import math
import random

import pytest

from buildbook.estimate.hours.spread import Miss, spread_of, student_quantile
from buildbook.estimate.settings import method

RULES = method().range
MANY = 10_000
TRIES = 4_000


@pytest.mark.parametrize(
    ("freedom", "t_90", "t_95"),
    [(4, 1.533, 2.132), (5, 1.476, 2.015), (10, 1.372, 1.812), (20, 1.325, 1.725), (60, 1.296, 1.671)],
)
def test_student_against_the_printed_table(freedom, t_90, t_95):
    """NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.2, critical values of Student's t (from memory)."""
    assert student_quantile(0.90, freedom) == pytest.approx(t_90, rel=0.01)
    assert student_quantile(0.95, freedom) == pytest.approx(t_95, rel=0.02)


@pytest.mark.parametrize("law", ["normal", "skewed", "heavy"])
def test_four_truths_of_five_whatever_their_law(law):
    """Split conformal prediction (Lei and others 2018, theorem 2.2): coverage of at least 1 - a, at most 1/(n+1) more."""
    chance = random.Random(5)
    draw = {
        "normal": lambda: chance.gauss(0, 0.2),
        "skewed": lambda: math.log(chance.gammavariate(9, 1 / 9)),
        "heavy": lambda: chance.gauss(0, 0.1) / max(chance.random(), 0.05),
    }[law]
    n, held = 29, 0
    for _ in range(TRIES):
        spread = spread_of([Miss(draw(), MANY) for _ in range(n)], RULES.total, MANY)
        held += abs(draw() - spread.shift) <= spread.half
    assert (
        0.77 <= held / TRIES <= 0.83
    )  # the shift is learnt from the same misses, which costs a point or two


def test_without_a_past_it_is_the_usual_spread_of_student():
    spread = spread_of([], RULES.total, MANY)
    assert spread.half == pytest.approx(1.533 * RULES.total, rel=0.01)
    assert (spread.shift, spread.misses) == (0.0, 0)


def test_fewer_jobs_make_it_wider():
    halves = [spread_of([], RULES.total, jobs).half for jobs in (3, 10, 60)]
    assert halves == sorted(halves, reverse=True)


def test_a_past_that_was_always_quoted_too_low_lifts_the_median():
    low = [Miss(0.3, MANY)] * 15
    assert spread_of(low, RULES.total, MANY).shift == pytest.approx(0.3 * 15 / (15 + RULES.shrink))
    assert spread_of([*low, Miss(5.0, MANY)], RULES.total, MANY).shift < 0.3


def test_a_range_is_about_its_median_in_proportion():
    around = spread_of([Miss(0.1, 9), Miss(-0.2, 12)], RULES.total, 12).around(40.0)
    assert around.low * around.high == pytest.approx(around.median**2)
    assert around.low < around.median < around.high
