"""What no longer fits, by figures worked out by hand: each is told where it comes to be so, and not a size before."""

import pytest

from buildbook.job import read_job
from buildbook.resized.again import resize
from buildbook.resized.figures import alike
from buildbook.resized.unfit import unfit_of
from buildbook.resized.wanted import read_sizes

HEAD = "part,qty,kind,material,length,tenons,width,thickness,cut,fit,opening,note\n"


@pytest.fixture
def found(make_job):
    """What no longer fits of a piece of some parts, at other sizes, by its kind."""

    def of(rows, *sizes, overall='width = "800", depth = "300", height = "1000"', more=""):
        job_toml = f'title = "x"\nunits = "mm"\nstands = "floor"\noverall = {{ {overall} }}\n{more}'
        folder = make_job("past", **{"job.toml": job_toml, "parts.csv": HEAD + "\n".join(rows) + "\n"})
        job = read_job(folder)
        assert [str(one) for one in job.problems if one.severity == "error"] == []
        resized = resize(alike(job, job.shop), read_sizes(sizes, job.units))
        return {one.kind: one for one in unfit_of(resized, job)}

    return of


SHELF = "Shelf,1,wood,black walnut,800,,250,20,flat,loose,,"


def test_a_shelf_of_a_metre_is_seen_to_sag_and_one_of_800_is_not(found):
    # 30 kg are 294.2 N, its own 5 dm3 of walnut some 3 kg, 30 N; E 11 600 N/mm2; I = 250 x 20^3 / 12 = 166 667 mm4
    # 5/384 x 324 x 1000^3 / (11 600 x 166 667) = 2.18 mm, in years 0.6 more of it: 3.5; 1000/384 = 2.6 is seen
    # at 800: 5/384 x 319 x 800^3 / (…) = 1.10, in years 1.8; 800/384 = 2.1
    sag = found([SHELF], "width 1000", more='loads = ["30 kg on the shelf"]\n')["sag"]
    assert (sag.part, sag.before) == ("Shelf", False)
    assert sag.values["sag_m"] == pytest.approx(0.0035, abs=0.00005)
    assert sag.values["was_m"] == pytest.approx(0.0018, abs=0.00005)
    assert sag.values["seen_m"] == pytest.approx(0.0026, abs=0.00001)
    assert (sag.values["by"], bool(sag.source)) == ("told", True)
    assert "sag" not in found([SHELF], "width 850", more='loads = ["30 kg on the shelf"]\n')


def test_a_door_of_more_than_a_metre_wants_a_third_hinge(found):
    rows = ["Door,1,panel,birch plywood,950,,400,18,,,,", "Hinge,{},hardware,brass butt hinge,60,,30,2,,,,"]
    two, three = ([row.format(count) for row in rows] for count in (2, 3))
    told = found(two, "height 1150", "Door length 1100")["hinges"]
    # 1100 x 400 x 18 mm of birch plywood, some 680 kg/m3: 5.4 kg; its hinges stand 733 apart:
    # 5.4 x 9.81 x 200 / 733 = 14.4 N
    assert told.values["by"] == "third"
    assert told.values["now_kg"] == pytest.approx(5.4, abs=0.3)
    assert told.values["pull_n"] == pytest.approx(told.values["now_kg"] * 9.80665 * 0.2 / (1.1 * 2 / 3))
    assert found(three, "height 1150", "Door length 1100")["hinges"].values["by"] == "look"
    assert "hinges" not in found(two, "height 900", "Door length 850")


def test_a_back_that_no_sheet_gives(found):
    row = "Back,1,panel,MDF,{},,900,6,,,,"
    overall = 'width = "2400", depth = "300", height = "900"'
    assert "sheet" not in found([row.format(2400)], "width 2500", overall=overall)
    sheet = found([row.format(2400)], "width 3100", overall=overall)["sheet"]
    assert (sheet.values["length_m"], sheet.values["material"], sheet.before) == (3.1, "MDF", False)


def test_a_slot_that_was_long_enough(found):
    row = 'Top,1,wood,European beech,800,,300,25,flat,elongated holes,,"5 mm slots, fixed at the back"'
    assert "slot" not in found([row], "width 900")
    slot = found([row], "depth 600")["slot"]
    assert (slot.part, slot.values["slot_m"], slot.before) == ("Top", 0.005, False)
    assert slot.values["travel_m"] > 0.005


def test_a_panel_whose_room_grew_with_it_and_whose_play_did_not(found):
    row = "Panel,1,wood,European beech,700,,300,10,flat,floating,302,"
    assert "opening" not in found([row], "Panel width 310")
    opening = found([row], "Panel width 700")["opening"]
    assert opening.values["opening_m"] == pytest.approx(0.702)
    assert (opening.before, opening.values["short_m"] > 0) == (False, True)


def test_one_board_more_and_one_longer_than_is_sold(found):
    row = "Top,1,wood,European oak,2600,,240,25,quarter,,,"
    overall = 'width = "2600", depth = "240", height = "750"'
    wide = found([row], "depth 400", overall=overall)["wide"]
    assert (wide.values["boards"], wide.values["were"]) == (2, 1)
    long = found([row], "width 3100", overall=overall)["long"]
    assert (long.values["by"], long.values["most_m"], long.before) == ("usual", 3.0, False)
    tally = '[[worked]]\nkind = "tally"\ntitle = "Oak"\nboards = ["27 mm x 240 mm x 2.8 m"]\n'
    long = found([row], "width 2790", overall=overall, more=tally)["long"]
    assert (long.values["by"], long.values["most_m"], long.before) == ("tally", 2.8, False)
    assert found([row], "width 2700", overall=overall).keys() == set()


def test_leaves_that_no_longer_make_the_panel(found):
    row = "Door panel,2,wood,black walnut,500,,400,9,flat,floating,,"
    resaw = '[[worked]]\nkind = "resaw"\ntitle = "Leaves for the doors"\nthickness = "38"\nleaf = "11"\nwidth = "205"\n'
    assert "leaves" not in found([row], "Door panel width 410", more=resaw)
    leaves = found([row], "Door panel width 460", more=resaw)["leaves"]
    assert (leaves.values["count"], leaves.values["have_m"]) == (2, pytest.approx(0.41))
    assert leaves.values["least_m"] == pytest.approx(0.23)


def test_nothing_is_told_of_what_did_not_change(found):
    assert (
        found(
            [
                SHELF,
                "Door,1,panel,birch plywood,1100,,400,18,,,,",
                "Hinge,2,hardware,brass hinge,60,,30,2,,,,",
            ],
            "depth 310",
        )
        == {}
    )
