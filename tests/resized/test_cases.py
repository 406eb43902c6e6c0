"""Pieces at another size as a maker works them out on paper: each size that changes and none else, what no longer fits."""

import pytest

from buildbook.quantity import read_length
from buildbook.resized.telling import Telling
from buildbook.resized.unfit import unfit_of
from buildbook.summary.sums import sums_of
from buildbook.words import Words
from tests.resized.sized import NAMES, case, made

_SIDES = ("length", "width", "thickness", "opening")


@pytest.fixture(scope="module")
def worked(tmp_path_factory):
    kept = {}

    def of(name):
        if name not in kept:
            kept[name] = (case(name), *made(case(name), tmp_path_factory.mktemp(name)))
        return kept[name]

    return of


@pytest.mark.parametrize("name", NAMES)
def test_each_size_changes_as_on_paper_and_no_other(name, worked):
    facts, job, resized, _ = worked(name)

    def m(text):
        return round(read_length(text, job.units).m, 7)

    wanted = {
        (row["part"], side): tuple(map(m, row[side]))
        for row in facts["part"]
        for side in _SIDES
        if side in row
    }
    found = {
        (one.size.part, one.size.side): (round(one.old_m, 7), round(one.new_m, 7))
        for one in (*resized.changes, *resized.openings)
    }
    assert found == wanted


@pytest.mark.parametrize("name", NAMES)
def test_every_answer_was_asked_for(name, worked):
    *_, maker = worked(name)
    assert maker.answers == []


@pytest.mark.parametrize("name", NAMES)
def test_each_sum_that_came_out_comes_out(name, worked):
    _, job, resized, _ = worked(name)
    assert {one.words for one in sums_of(job) if one.ok} <= {
        one.words for one in sums_of(resized.new) if one.ok
    }


@pytest.mark.parametrize("name", NAMES)
def test_each_change_says_why(name, worked):
    *_, resized, _ = worked(name)
    telling = Telling(resized, Words("en"))
    for one in resized.changes:
        assert len(telling.why(one)) > 5
        assert "{" not in telling.why(one)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("language", ["en", "de"])
def test_what_no_longer_fits_is_told_with_its_figure(name, language, worked):
    facts, job, resized, _ = worked(name)
    telling = Telling(resized, Words(language))
    found = [
        (one.kind, telling.one_unfit(one).replace(",", ".") if language == "de" else telling.one_unfit(one))
        for one in unfit_of(resized, job)
    ]
    for row in facts.get("unfit", ()):
        has = [text.replace(",", ".") if language == "de" else text for text in row["has"]]
        assert any(kind == row["kind"] and all(text in said for text in has) for kind, said in found), (
            row,
            found,
        )


def test_nothing_is_left_open_that_the_maker_answered(worked):
    for name in NAMES:
        *_, resized, _ = worked(name)
        assert resized.untold == (), name


def test_what_is_not_asked_stays_as_it_was_and_is_named(tmp_path):
    from buildbook.job import read_job
    from buildbook.resized.again import resize
    from buildbook.resized.wanted import read_sizes
    from tests.resized.sized import folder_of

    job = read_job(folder_of(case("sideboard"), tmp_path), pictures=False)
    resized = resize(job, read_sizes(["width 1800"], job.units))
    changed = {one.size.part for one in resized.changes}
    assert {"Top", "Carcase bottom", "Top rail", "Back"} == changed
    said = "\n".join(Telling(resized, Words("en")).untold())
    for named in ("Door rail length", "Drawer front length", "Long stand rail length, 1400 mm", "200 mm"):
        assert named in said
    assert any(one.kind == "sum" and "Door rail" in one.part for one in unfit_of(resized, job))
