"""Several finishes on one surface: each covers all of it, only the top one is used, cured and renewed."""

from datetime import date

import pytest

from buildbook.job.model import Finish, Job, Part
from buildbook.job.parts.finished import finished
from buildbook.problems import Problems
from buildbook.quantity import Length
from buildbook.summary import summarise

DAY = date(2026, 3, 2)


def board(row, finish, **more):
    sides = {"length": Length(1, "1 m"), "width": Length(0.5, "0.5 m"), "thickness": Length(0.02, "20 mm")}
    return Part(
        row, f"Board {row}", 1, "wood", "white oak", "white-oak", faces="faces", finish=finish, **sides | more
    )


STAIN = Finish("stain", "dye-stain", coats=(DAY,))
SEAL = Finish("seal", "shellac", over="stain", coats=(DAY,))
WAX = Finish("wax", "paste-wax", over="seal", coats=(DAY,))


def use_of(job, key):
    return next(use for use in summarise(job).finish if use.key == key)


THREE = Job("a-job", finishes=(WAX, SEAL, STAIN), parts=(board(2, "wax"), board(3, "wax"), board(4, "seal")))


def test_every_layer_covers_what_lies_over_it():
    assert [use_of(THREE, key).area_m2 for key in ("wax", "seal", "stain")] == [
        pytest.approx(2),
        pytest.approx(3),
        pytest.approx(3),
    ]
    assert [layer.key for layer in THREE.layers("wax")] == ["wax", "seal", "stain"]


def test_only_what_lies_on_top_of_a_part_has_days_of_use_and_renewal():
    wax, seal, stain = (use_of(THREE, key) for key in ("wax", "seal", "stain"))
    assert wax.light_use_from
    assert wax.refresh
    assert seal.light_use_from  # on top of the third board
    assert (stain.light_use_from, stain.full_cure_to, stain.refresh) == (None, None, ())
    assert stain.last_coat == DAY  # it was put on all the same, and is paid
    assert stain.volume_l


def test_what_only_lies_beneath_stands_last_whatever_order_was_written():
    job = finished(Job("a-job", finishes=(STAIN, WAX, SEAL), parts=THREE.parts), Problems())
    assert [finish.key for finish in job.finishes] == ["wax", "seal", "stain"]


def test_an_empty_cell_means_the_only_finish_on_top():
    job = finished(Job("a-job", finishes=(STAIN, SEAL, WAX), parts=(board(2, ""),)), Problems())
    assert (job.parts[0].finish, job.parts[0].finish_assumed) == ("wax", True)
    (note,) = [note for note in use_of(job, "wax").assumed if "no finish is written" in note]
    assert note == "no finish is written for Board 2: this one was taken"


@pytest.mark.parametrize("row", [{}, {"finish": "soap"}], ids=["nothing said", "said"])
def test_a_plywood_seat_is_soaped_only_where_its_row_says_so(row):
    seat = Part(3, "Seat", 1, "panel", "birch plywood", "birch-plywood", faces="faces", **row)
    job = finished(
        Job("a-job", finishes=(Finish("soap", "soap"),), parts=(board(2, "soap"), seat)), Problems()
    )
    assert job.parts[1].finish == row.get("finish", "")
    said = "no finish is written for sheets (Seat): none was taken"
    assert (said in use_of(job, "soap").assumed) == (not row)


def test_litres_by_the_familys_first_and_later_coats_else_by_what_the_job_states():
    def litres(**stated):
        finish = Finish("a", "hardwax-oil", coats=(DAY, DAY, DAY), **stated)
        return use_of(Job("a-job", finishes=(finish,), parts=(board(2, "a"),)), "a").volume_l

    assert litres() == pytest.approx(1 / 25 + 2 / 37.5)  # the middles of 20-30 and 30-45 m2/l
    assert litres(spread_m2_per_l=20.0) == pytest.approx(3 / 20)
    assert litres(spread_m2_per_l=20.0, later_m2_per_l=40.0) == pytest.approx(1 / 20 + 2 / 40)
    assert litres(later_m2_per_l=50.0) == pytest.approx(1 / 25 + 2 / 50)


def test_of_another_finish_nothing_is_made_up():
    use = use_of(
        Job("a-job", finishes=(Finish("a", "other", "a secret", (DAY,)),), parts=(board(2, "a"),)), "a"
    )
    assert (use.spread_m2_per_l, use.volume_l, use.voc_kg, use.light_use_from, use.full_cure_to) == (
        None,
    ) * 5
    assert use.refresh == ()
