"""What an enquiry takes: from its parts by the sums of a summary, without them from the likest past jobs."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.estimate.materials import quantities
from buildbook.estimate.materials.lines import lines_of
from buildbook.estimate.materials.scaled import length_ratio, scaled_drivers, scaled_range, weighted_quantile
from buildbook.estimate.model import Like, Range
from buildbook.estimate.money.prices import history_of
from buildbook.estimate.money.pricing import Pricing
from buildbook.estimate.past import past_job
from buildbook.job import read_job
from buildbook.job.model import Finish, Job, Part, Size
from buildbook.job.shop_model import Price, Shop
from buildbook.quantity import Length
from buildbook.summary import summarise
from buildbook.words import Words

SHELF = Path(__file__).parents[2] / "shelf"
DAY = date(2026, 6, 1)
WORDS = Words("en")


@pytest.fixture(scope="module")
def past():
    jobs = [read_job(folder) for folder in sorted(SHELF.iterdir()) if (folder / "job.toml").is_file()]
    return [(job, summarise(job)) for job in jobs]


def materials(asked, past, like, day):
    return quantities.materials(asked, [past_job(*pair) for pair in past], like, day)


def m(amount):
    return Length(amount, f"{amount} m")


def box(width, depth, height):
    return Size(m(width), m(depth), m(height))


def board(length, width, thickness, **facts):
    facts = {
        "row": 2,
        "name": "Board",
        "qty": 1,
        "kind": "wood",
        "material": "European ash",
        "key": "european-ash",
    } | facts
    return Part(length=m(length), width=m(width), thickness=m(thickness), **facts)


def likes(jobs, weights=None):
    return [
        Like(j.key, j.name, j.last_day, w, (), 0.0)
        for j, w in zip(jobs, weights or [1.0] * len(jobs), strict=True)
    ]


def without_parts(job, **facts):
    coatless = tuple(replace(finish, coats=()) for finish in job.finishes)
    return replace(job, folder="enquiry", parts=(), entries=(), delivered=None, finishes=coatless, **facts)


def keys(said):
    return [sentence.key for sentence in said]


def test_a_past_job_priced_on_its_last_day_costs_what_its_summary_says(past):
    """Where no price is older than is fresh, and the allowance is the same: the jobs of the shelf but those with old
    prices.
    """
    same = []
    for job, summary in past:
        _, _, found, problems = materials(job, [], [], job.last_day)
        assert found.waste_pct == job.shop.waste.waste_pct
        assert not problems
        if not any("price_old" in keys(line.said) for line in found.lines):
            same.append(job.key)
            assert found.amount == found.low == found.high == summary.cost.materials
            assert set(found.unpriced) == set() == set(summary.cost.unpriced)
    assert len(same) >= 5


def test_a_price_of_the_future_changes_nothing(past):
    for job, _ in past:
        shop = replace(
            job.shop,
            prices=tuple(row for row in job.shop.prices if row.day is None or row.day <= job.last_day),
        )
        asked = replace(job, parts=tuple(replace(part, price=None, per="") for part in job.parts))
        before = [(j, s) for j, s in past if j.key != job.key and j.last_day and j.last_day <= job.last_day]
        before = [(replace(j, shop=shop), s) for j, s in before]
        others = [(j, s) for j, s in past if j.key != job.key]
        everything = materials(asked, others, likes([j for j, _ in others]), job.last_day)
        assert everything[2] == materials(replace(asked, shop=shop), before, [], job.last_day)[2]
        assert all(line.price_day is None or line.price_day <= job.last_day for line in everything[2].lines)


def test_own_prices_stay_and_lines_say_what_they_rest_on(past):
    (chair, _) = next(pair for pair in past if pair[0].key == "2023-017-reading-chair")
    priced, _, found, _ = materials(chair, past, [], DAY)
    own = {part.row: part.price for part in chair.parts if part.price is not None}
    assert own
    assert {part.row: part.price for part in priced.parts if part.row in own} == own
    lines = {line.name: line for line in found.lines}
    assert keys(lines["fish glue"].said) == ["price_own"]
    assert keys(lines["European oak"].said) == ["price_old", "price_left"]
    assert lines["European oak"].price_day == date(2023, 8, 14)
    assert found.amount.amount == sum(line.cost.amount for line in found.lines)
    for line in found.lines:
        if line.unit == line.per and len(priced.parts):
            assert line.cost.amount == pytest.approx(
                line.price * Decimal(str(line.amount.median)), abs=Decimal("0.03")
            )


def test_a_finish_that_has_no_coats_yet_costs_its_litres():
    shop = Shop(prices=(Price("clear oil", Decimal(60), "l", DAY),))
    top = board(2.0, 1.0, 0.02, finish="oil", faces="faces")
    job = Job(
        "a",
        parts=(top,),
        shop=shop,
        finishes=(Finish("oil", "hardwax-oil", "clear oil", spread_m2_per_l=20.0),),
    )
    _, summary, found, _ = materials(job, [], [], DAY)
    assert summary.finish[0].cost is None
    (oil,) = [line for line in found.lines if line.kind == "finish"]
    assert oil.amount.median == pytest.approx(4.0 * summary.finish[0].coats / 20)
    assert oil.cost.amount == Decimal(60) * Decimal(str(oil.amount.median)) == found.amount.amount
    assert keys(oil.said) == ["coats_usual"]
    assert found.unpriced == ("European ash",)


def test_the_shop_s_own_waste_by_its_tallies(past):
    """Pooled over the tallies, and two tallies' worth of the stated 25 %."""
    tallied = [wood for _, summary in past for wood in summary.timber.species if wood.bought_m3]
    pooled = 100 * (sum(w.bought_m3 for w in tallied) / sum(w.rough_m3 for w in tallied) - 1)
    priced, summary, found, _ = materials(past[0][0], past, [], DAY)
    assert len(tallied) == 2
    assert found.waste_pct == pytest.approx((2 * pooled + 2 * 25) / 4) == summary.timber.waste_pct
    assert keys(found.said) == ["waste_counted"]
    assert summary.timber.buy_m3 == pytest.approx(summary.timber.rough_m3 * (1 + found.waste_pct / 100))
    for waste, said in (
        (priced.shop.waste, "waste_stated"),
        (replace(priced.shop.waste, waste_pct=None), "waste_usual"),
    ):
        plain = replace(past[0][0], shop=replace(past[0][0].shop, waste=waste))
        assert keys(materials(plain, [], [], DAY)[2].said) == [said]


@given(st.floats(1, 5000), st.floats(1.0, 3.0), st.integers(1, 9))
def test_a_dearer_price_never_makes_a_cheaper_piece(price, dearer, qty):
    top = board(0.9, 0.3, 0.02)

    def spent(price, qty):
        rows = [Price("European ash", Decimal(repr(price)), "m3", DAY)]
        pricing = Pricing(history_of(rows, ()), DAY, "EUR", WORDS)
        job, by_row = pricing.of_job(Job("a", parts=(replace(top, qty=qty),)))
        ((line,), _) = lines_of(job, summarise(job), by_row, pricing)
        return line.cost.amount

    assert spent(price, qty) <= spent(price * dearer, qty)
    assert spent(price, qty) <= spent(price, qty + 1)


# -- without parts -----------------------------------------------------------------------------------


def test_twice_the_size_takes_two_to_the_power_of_the_exponent(past):
    """Every job of the shelf with its sizes, as the only past of an enquiry of its size and of one twice that."""
    tried = 0
    for job, summary in past:
        if job.overall.width is None or job.last_day > DAY:
            continue
        sides = [side.m for side in (job.overall.width, job.overall.depth, job.overall.height)]
        small, large = (
            materials(
                without_parts(job, overall=box(*(k * s for s in sides))), [(job, summary)], likes([job]), DAY
            )[2]
            for k in (1, 2)
        )
        for one, two in zip(small.lines, large.lines, strict=True):
            assert (one.kind, one.name, one.scaled, one.from_jobs) == (two.kind, two.name, True, 1)
            grown = two.amount.median / one.amount.median
            knobs = one.kind == "wood" and any(
                part.name == "Knob" for part in job.parts
            )  # blocks among boards
            assert grown == pytest.approx(2**one.exponent, rel=0.02 if knobs else 1e-12)
            assert one.said[0].key in (("scaled" if one.exponent else "as_many"),)
            tried += 1
    assert tried > 30


def test_the_same_size_takes_the_same_as_the_only_like_job(past):
    """The likest job alone, at its own size: its own amounts, a stated share either way, in the wood asked for."""
    job, summary = next(pair for pair in past if pair[0].key == "2022-021-garden-bench")
    asked = without_parts(job, woods=("European ash",))
    _, _, found, problems = materials(asked, [(job, summary)], likes([job]), DAY)
    lines = {line.kind: line for line in found.lines}
    ash = lines["wood"]
    assert (ash.name, ash.key, ash.unit, ash.per, problems) == (
        "European ash",
        "european-ash",
        "m3",
        "m3",
        (),
    )
    assert ash.amount.median == pytest.approx(summary.timber.rough_m3 * 1.25)
    assert (ash.amount.low, ash.amount.high) == pytest.approx(
        (0.65 * ash.amount.median, 1.35 * ash.amount.median)
    )
    assert float(ash.cost.amount) == pytest.approx(float(ash.price) * ash.amount.median, abs=0.006)
    assert lines["hardware"].amount.median == sum(item.qty for item in summary.hardware) == 40
    paid = sum(item.cost.amount for item in summary.hardware)
    assert lines["hardware"].cost.amount == pytest.approx(paid, rel=Decimal("0.02"))
    assert found.low.amount < found.amount.amount < found.high.amount


def test_blocks_grow_with_their_box_and_other_wood_with_its_area():
    block, top = board(0.2, 0.2, 0.12), board(0.9, 0.2, 0.02)
    for part, exponent in ((block, 3.0), (top, 2.0)):
        job = Job("a", parts=(part,), overall=box(0.3, 0.3, 0.3), delivered=date(2025, 1, 1))
        asked = Job("b", overall=box(0.6, 0.6, 0.6), woods=("ash",))
        _, _summary, found, _ = materials(asked, [(job, summarise(job))], likes([job]), DAY)
        (line,) = found.lines
        assert line.exponent == exponent
        assert line.amount.median == pytest.approx(2**exponent * summarise(job).timber.rough_m3 * 1.2)


def test_woods_share_by_rank_and_the_last_takes_the_rest(past):
    pairs = [pair for pair in past if pair[0].key == "2024-015-hall-table"]
    job, summary = pairs[0]
    cherry, sycamore = (wood.rough_m3 for wood in summary.timber.species)

    def asked(*woods):
        lines = materials(without_parts(job, woods=woods), pairs, likes([job]), DAY)[2].lines
        waste = materials(job, pairs, [], DAY)[2].waste_pct
        return [line.amount.median / (1 + waste / 100) for line in lines if line.kind == "wood"]

    assert asked("European oak", "tulipwood") == pytest.approx([cherry, sycamore])
    assert asked("European oak") == pytest.approx([cherry + sycamore])
    assert asked() == pytest.approx([cherry, sycamore])
    assert asked("European oak", "tulipwood", "European ash") == pytest.approx([cherry, sycamore])


def test_what_like_jobs_paid_is_carried_to_the_day():
    """A hinge was 10 and, 366 days later, 11; it is scaled from the dearer one's job a year and a day after that."""
    hinge = Part(2, "Hinge", 4, "hardware", "brass hinge", per="each")
    jobs = [
        Job(f"{day}", parts=(replace(hinge, price=Decimal(price)),), overall=box(1, 1, 1), delivered=day)
        for day, price in ((date(2020, 1, 1), 10), (date(2021, 1, 1), 11))
    ]
    past = [(job, summarise(job)) for job in jobs]
    _, _, found, _ = materials(Job("b", overall=box(2, 2, 2)), past, likes(jobs), date(2022, 1, 2))
    (line,) = found.lines
    assert (line.amount.median, line.price, line.cost.amount) == (4, Decimal("12.10"), Decimal("48.40"))


def test_one_row_of_parts_and_nothing_is_scaled(past):
    job = past[0][0]
    asked = replace(without_parts(job), parts=job.parts[:1])
    found = materials(asked, past, likes([j for j, _ in past]), DAY)[2]
    assert not any(line.scaled for line in found.lines)


def test_without_parts_and_sizes_it_says_what_to_add(past):
    like = likes([job for job, _ in past])
    for asked, field in (
        (without_parts(past[0][0], overall=Size()), "overall"),
        (without_parts(past[0][0]), ""),
    ):
        _, _, found, (problem,) = materials(asked, past if field else [], like, DAY)
        assert (found.lines, found.amount.amount) == ((), 0)
        assert (problem.severity, problem.file, problem.field) == ("warning", "job.toml", field)
        assert problem.hint


sizes = st.floats(0.05, 4.0)
amounts = st.floats(0.0, 100.0)
weights = st.floats(0.01, 1.0)


@given(st.tuples(sizes, sizes, sizes), st.tuples(sizes, sizes, sizes), st.floats(1.0, 3.0))
def test_a_larger_piece_has_the_larger_ratio(here, there, more):
    ratio = length_ratio(here, there)
    assert length_ratio(tuple(side * more for side in here), there) == pytest.approx(ratio * more)
    assert length_ratio((here[0], None, None), there) == pytest.approx(here[0] / there[0])
    assert length_ratio((here[0], None, None), (None, 1.0, None)) is None


@given(
    st.lists(st.tuples(amounts, weights, st.floats(0.2, 5.0)), min_size=1, max_size=7),
    st.sampled_from([0.0, 1.0, 2.0, 3.0]),
    st.floats(1.0, 3.0),
)
def test_scaling_grows_with_size_and_keeps_its_order(jobs, exponent, more):
    of, weight, ratio = zip(*jobs, strict=True)
    small = scaled_range([{exponent: amount} for amount in of], weight, ratio)
    large = scaled_range([{exponent: amount} for amount in of], weight, [r * more for r in ratio])
    assert 0 <= small.low <= small.median * (1 + 1e-9) <= small.high * (1 + 2e-9)
    for end in ("low", "median", "high"):
        assert getattr(large, end) == pytest.approx(getattr(small, end) * more**exponent)


def test_weighted_quantiles():
    """Equal weights give the median of everyday; a weight counts as so many of the same."""
    assert weighted_quantile([3.0, 1.0, 2.0], [1, 1, 1], 0.5) == 2.0
    assert weighted_quantile([4.0, 1.0, 2.0, 3.0], [1, 1, 1, 1], 0.5) == 2.5
    assert weighted_quantile([1.0, 9.0], [1, 3], 0.5) == pytest.approx(1 + 8 * (2 - 0.5) / (2.5 - 0.5))
    assert [weighted_quantile([1.0, 9.0], [1, 3], at) for at in (0.0, 0.1, 0.9, 1.0)] == [1.0, 1.0, 9.0, 9.0]
    assert weighted_quantile([5.0], [0.2], 0.9) == 5.0


def test_drivers_are_scaled_but_what_the_enquiry_states_goes_before():
    cupboard = Job(
        "a", parts=(Part(2, "Side", 1, "wood", "ash"),), overall=box(1, 1, 1), delivered=date(2025, 1, 1)
    )
    past = [
        (
            past_job(cupboard).facts,
            {"none": 1.0, "rough_volume": 0.1, "joints": 30.0, "doors_drawers": 4.0, "finish_area": 6.0},
        )
    ]
    asked = Job("b", overall=box(2, 2, 2))
    found = scaled_drivers(asked, past, likes([cupboard]))
    assert {name: found[name].median for name in ("none", "rough_volume", "joints", "doors_drawers", "finish_area", "panes")} == {
        "none": 1.0, "rough_volume": 0.4, "joints": 30.0, "doors_drawers": 4.0, "finish_area": 24.0, "panes": 0.0,
    }  # fmt: skip
    assert found["joints"] == Range(19.5, 30.0, 40.5)
    stated = scaled_drivers(replace(asked, doors=1, drawers=2, joints=50), past, likes([cupboard]))
    assert (stated["doors_drawers"], stated["joints"]) == (Range(3, 3, 3), Range(50, 50, 50))
    assert scaled_drivers(replace(asked, doors=1), [], []) == {
        "none": Range(1, 1, 1),
        "doors_drawers": Range(1, 1, 1),
    }


def test_every_sentence_has_its_words(past):
    like = likes([job for job, _ in past])
    for language in ("en", "de"):
        shop = replace(past[0][0].shop, language=language)
        for asked in (replace(past[0][0], shop=shop), without_parts(replace(past[0][0], shop=shop))):
            found = materials(asked, past, like, DAY + timedelta(days=300))[2]
            said = [*found.said, *(sentence for line in found.lines for sentence in line.said)]
            assert all(Words(language).text(f"estimate.said.{s.key}", **dict(s.values)) for s in said)
