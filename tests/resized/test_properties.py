"""What holds of any piece at any other size: nothing changes without a size, back again is as before, sums come out."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from buildbook.job import read_job
from buildbook.job.adds_model import PartSize
from buildbook.job.model import Job, Size
from buildbook.job.table.parts import read_parts
from buildbook.job.toml.adds import read_add
from buildbook.problems import Problems
from buildbook.quantity import Length
from buildbook.resized.again import resize
from buildbook.resized.model import AXES, Shared
from buildbook.summary.sums import sums_of
from tests.conftest import ROOT

PAST = sorted(
    path.parent
    for place in ("sample_job", "tests/shelf/*", "tests/jobs/*")
    for path in ROOT.glob(f"{place}/job.toml")
)
JOBS = {path.name: read_job(path, pictures=False) for path in PAST}
SIDES = ("length", "width", "thickness", "opening")
GROWTH = st.integers(-150, 900)


def sizes(job):
    """The sizes of every part, to a tenth of a micrometre."""
    return {
        (part.row, side): round(length.m, 7)
        for part in job.parts
        for side in SIDES
        if (length := getattr(part, side))
    }


def asked_for(job, axis, by_mm):
    return {PartSize("", axis): getattr(job.overall, axis).m + by_mm / 1000}


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("axis", AXES)
def test_at_the_same_size_nothing_changes(name, axis):
    job = JOBS[name]
    if getattr(job.overall, axis) is None:
        with pytest.raises(Exception, match="is not known"):
            resize(job, {PartSize("", axis): 1.0})
        return
    same = resize(job, asked_for(job, axis, 0))
    assert (same.changes, same.openings, same.untold, same.overall) == ((), (), (), ())
    assert same.new.parts == job.parts


@given(st.sampled_from(sorted(JOBS)), st.sampled_from(AXES), GROWTH)
def test_larger_and_back_again_is_as_it_was(name, axis, by_mm):
    job = JOBS[name]
    assume(job.units == "mm")
    assume(by_mm and getattr(job.overall, axis) and getattr(job.overall, axis).m * 1000 + by_mm > 300)
    larger = resize(job, asked_for(job, axis, by_mm))
    back = resize(larger.new, asked_for(larger.new, axis, -by_mm))
    before, after = sizes(job), sizes(back.new)
    grown = {(row, one.size.side) for one in (*larger.changes, *larger.openings) for row in one.rows}
    assert {key: after[key] for key in grown} == {key: before[key] for key in grown}
    # what only happens to be as long as the larger size shrinks with it, and is told so
    others = [one.why.kind for one in back.changes for row in one.rows if (row, one.size.side) not in grown]
    assert not others or {"was", "same", "less", "share"} & set(others)
    assert back.new.overall.metres == pytest.approx(job.overall.metres)


@given(st.sampled_from(sorted(JOBS)), st.sampled_from(AXES), GROWTH)
def test_a_sum_that_came_out_comes_out_or_is_asked(name, axis, by_mm):
    job = JOBS[name]
    assume(getattr(job.overall, axis) and getattr(job.overall, axis).m * 1000 + by_mm > 300)
    larger = resize(job, asked_for(job, axis, by_mm))
    came_out = {one.words for one in sums_of(job) if one.ok}
    comes_out = {one.words for one in sums_of(larger.new) if one.ok}
    assert came_out - comes_out <= {one.sum for one in larger.untold if isinstance(one, Shared)}


@given(st.sampled_from(sorted(JOBS)), st.sampled_from(AXES), GROWTH)
def test_thicknesses_sections_and_what_is_bought_stay(name, axis, by_mm):
    job = JOBS[name]
    assume(getattr(job.overall, axis) and getattr(job.overall, axis).m * 1000 + by_mm > 300)
    larger = resize(job, asked_for(job, axis, by_mm))
    for old, new in zip(job.parts, larger.new.parts, strict=True):
        assert (old.thickness, old.qty, old.tenons, old.stock) == (
            new.thickness,
            new.qty,
            new.tenons,
            new.stock,
        )
        if old.kind in ("hardware", "supply"):
            assert (old.length, old.width) == (new.length, new.width)
        if any(word in old.name.lower() for word in ("stile", "leg", "rail", "apron")):
            assert old.width == new.width


# -- a cabinet whose sums are known -----------------------------------------------------------------


@st.composite
def cabinets(draw):
    """A cabinet of equal doors in a row: its parts reckoned from the width by hand, its sums as a maker writes them."""
    doors = draw(st.integers(1, 4))
    side, stile, gap, groove = (draw(st.integers(*ends)) for ends in ((15, 25), (40, 70), (1, 3), (6, 12)))
    tenon, door = draw(st.integers(20, 40)), draw(st.integers(250, 600))
    width = 2 * side + doors * door + (doors + 1) * gap
    between = door - 2 * stile
    rows = [
        "part;qty;kind;material;length;tenons;width;thickness",
        f"Case side;2;wood;oak;900;;350;{side}",
        f"Case bottom;1;wood;oak;{width - 2 * side};;350;{side}",
        f"Door stile;{2 * doors};wood;oak;890;;{stile};22",
        f"Door rail;{2 * doors};wood;oak;{between + 2 * tenon};{2 * tenon};{stile};22",
        f"Door panel;{doors};wood;oak;780;;{between + 2 * groove};10",
    ]
    adds = [
        f"width: 2 x Case side thickness + {2 * doors} x Door stile width + {doors} x Door rail between shoulders"
        f" + {doors + 1} x gap {gap}",
        "width: 2 x Case side thickness + Case bottom length",
        f"Door panel width: Door rail between shoulders + 2 x groove {groove}",
    ]
    parts = read_parts("\n".join(rows).encode(), "mm", Problems())
    overall = Size(Length(width / 1000, ""), Length(0.35, ""), Length(0.9, ""))
    job = Job("x", overall=overall, parts=parts, adds=tuple(read_add(text, "mm") for text in adds))
    return job, doors


@given(cabinets(), st.integers(-90, 900))
def test_every_door_takes_its_share_and_each_sum_comes_out(made, by):
    job, doors = made
    assert all(one.ok for one in sums_of(job))
    larger = resize(job, asked_for(job, "width", by))
    assert larger.untold == ()
    assert all(one.ok for one in sums_of(larger.new))
    grew = {one.size.part: (one.new_m - one.old_m) * 1000 for one in larger.changes}
    if by:
        assert grew == {
            "Case bottom": pytest.approx(by, abs=0.06),
            "Door rail": pytest.approx(by / doors, abs=0.06),
            "Door panel": pytest.approx(by / doors, abs=0.06),
        }


def test_the_past_jobs_are_read():
    assert len(JOBS) > 10
