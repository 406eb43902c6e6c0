"""Sets in the estimate: the law against a published table, the shop's own rate against shops whose rate is known, and what
must hold of every set.
"""

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.estimate.hours.backtest import PlainWays, quotes
from buildbook.estimate.hours.by_stage import hours_of
from buildbook.estimate.hours.learning import Learning, SetSeen, learnt, published
from buildbook.estimate.hours.shop_past import ShopPast
from tests.estimate.shops import TRUTH, make, wanted

STAGES = tuple(TRUTH)
ONCE = ("design", "delivery")

# -- the law -----------------------------------------------------------------------------------------


def test_the_law_gives_the_hours_of_a_published_table():
    """H. Kerzner, Project Management, table 18-1, as read: first unit 812 h on a 75 % curve. The second takes 203 h less,
    the 200th 30 h less than the 100th, and 250 units take 34,170 h together.
    """
    curve = Learning(math.log2(0.75))

    def unit(number):
        return 812 * (curve.units(number) - (curve.units(number - 1) if number > 1 else 0))

    assert unit(1) == pytest.approx(812)
    assert unit(1) - unit(2) == pytest.approx(203)
    assert unit(100) - unit(200) == pytest.approx(30, abs=0.5)
    assert 812 * curve.units(250) == pytest.approx(34_170, abs=5)


def test_the_law_gives_the_factor_of_another_table():
    """W. J. Stevenson, Operations Management, table 7S.1, as read: at 90 % the 20th repetition takes 0.634 of the first."""
    curve = Learning(math.log2(0.90))
    assert curve.units(20) - curve.units(19) == pytest.approx(0.634, abs=0.0005)


def test_the_published_rate_is_at_the_careful_end():
    """Between no learning and what is said of work that is half by hand (85 %)."""
    assert 0.85 < published().rate < 1
    assert published().sets == 0


@given(st.integers(1, 300), st.floats(0.7, 1.0))
def test_more_pieces_take_more_and_each_no_more_than_the_one_before(count, rate):
    curve = Learning(math.log2(rate))
    one_more, before = curve.units(count + 1) - curve.units(count), curve.units(count)
    assert 0 < one_more <= before / count + 1e-9
    assert before <= count + 1e-9


# -- the shop's own ----------------------------------------------------------------------------------


def test_one_set_moves_the_rate_a_little_and_many_to_where_they_are():
    exact = SetSeen(6, math.log(Learning(math.log2(0.8)).units(6)))
    few, many = learnt([exact]), learnt([exact] * 60)
    assert 0.8 < many.rate < 0.82 < few.rate < published().rate
    assert (few.sets, many.sets) == (1, 60)


def test_one_set_gone_wrong_does_not_carry_it_off():
    exact = [SetSeen(6, math.log(Learning(math.log2(0.8)).units(6)))] * 12
    wrong = SetSeen(6, math.log(30))
    assert learnt([*exact, wrong]).rate == pytest.approx(learnt(exact).rate, abs=0.015)


@given(st.lists(st.tuples(st.integers(2, 200), st.floats(-8, 8)), max_size=8))
def test_whatever_was_booked_the_rate_stays_believable(seen):
    assert 0.7 - 1e-9 <= learnt([SetSeen(*one) for one in seen]).rate <= 1


def sets_of(jobs, rate, chance, every=3, most=12):
    """Every third job made as a set: what is done once stays, the rest takes what a shop of a rate takes."""
    curve, out = Learning(math.log2(rate)), []
    for place, job in enumerate(jobs):
        count = chance.randint(2, most) if place % every == 0 else 1
        hours = {s: h * (1 if s in ONCE else curve.units(count)) for s, h in job.hours.items()}
        out.append(replace(job, pieces=count, hours=hours, board_feet=job.board_feet * count))
    return out


@pytest.mark.parametrize("rate", [0.8, 0.87, 0.95])
def test_the_rate_of_a_shop_is_found_from_its_sets(rate):
    found = []
    for seed in range(3):
        past = sets_of(make(45, seed), rate, random.Random(seed))
        found.append(ShopPast(past, past[-1].day).learning)
    assert all(one.sets == 15 for one in found)
    assert sum(one.rate for one in found) / 3 == pytest.approx(rate, abs=0.03)


def test_a_past_set_is_so_many_pieces_and_not_one_big_one():
    """The next single piece is told as well from a past with sets as from one without, and a set as well as a piece."""
    off, plain = {True: [], False: []}, []
    for seed in range(4):
        jobs = sets_of(make(57, seed), 0.85, random.Random(seed))
        past, quoted = jobs[:45], quotes(jobs[:45])
        for job in jobs[45:]:
            told = hours_of(replace(wanted(job), pieces=job.pieces), past, quoted, STAGES).total.median
            off[job.pieces > 1].append(abs(told / job.total_h - 1))
            plain.append(abs(PlainWays(past).of(len(past))[0] * job.pieces / job.total_h - 1))
    for kind in off.values():
        assert sorted(kind)[len(kind) // 2] <= 0.16
    assert sorted(plain)[len(plain) // 2] >= 0.32


def test_without_single_pieces_the_law_is_the_published_one():
    jobs = [replace(job, pieces=4) for job in make(12, 1)]
    assert ShopPast(jobs, jobs[-1].day).learning == published()


# -- the answer --------------------------------------------------------------------------------------


def test_first_and_following_pieces_are_told_apart_and_add_up():
    jobs = make(20, 3)
    past, asked = jobs[:-1], wanted(jobs[-1])
    one = hours_of(asked, past, quotes(past), STAGES)
    six = hours_of(replace(asked, pieces=6), past, quotes(past), STAGES)
    assert one.of_set is None
    assert six.of_set.first.median == pytest.approx(one.total.median)
    assert six.of_set.first.median + six.of_set.following.median == pytest.approx(six.total.median)
    for stage, alone in zip(six.by_stage, one.by_stage, strict=True):
        times = 1 if stage.stage in ONCE else published().units(6)
        assert stage.hours.median == pytest.approx(alone.hours.median * times)
        assert stage.amount == alone.amount


@given(st.integers(1, 200))
def test_one_piece_more_never_takes_less(count):
    shop, asked = SHOP
    fewer = shop.forecast(replace(asked, pieces=count)).total_h
    more = shop.forecast(replace(asked, pieces=count + 1)).total_h
    assert fewer < more < fewer * (count + 1) / count + 1e-9


_JOBS = make(20, 5)
SHOP = (ShopPast(_JOBS[:-1], _JOBS[-1].day), wanted(_JOBS[-1]))
