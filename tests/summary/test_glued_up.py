"""Parts that are glued up: what is bought for layers, counted as a maker would who sawed each layer by itself."""

import pytest

from buildbook.job import read_job
from buildbook.job.model import Job
from buildbook.job.table.parts import read_parts
from buildbook.pages.log.parts_again import parts_again
from buildbook.pages.phrases import Phrases
from buildbook.problems import Problems
from buildbook.summary import summarise
from buildbook.trade.workings import laminate

HEAD = "part,qty,material,length,width,thickness,stock"


def read(*rows, units="mm", head=HEAD):
    problems = Problems()
    parts = read_parts("\n".join((head, *rows)).encode(), units, problems)
    return Job("a-job", units=units, parts=parts), [f"{p.field}: {p.message}" for p in problems]


def timber(job):
    return summarise(job).timber


@pytest.mark.parametrize("stock", ["3 x 35 mm", "3 × 35", "3x35mm", "3 X 35 mm rough", "3*35"])
def test_a_leg_of_three_layers_takes_as_much_as_its_three_layers(stock):
    glued, told = read(f"Leg,4,European oak,720,90,90,{stock}")
    layers, _ = read("Layer,12,European oak,720,90,30,35 mm")
    assert told == []
    assert timber(glued).buy_m3 == pytest.approx(timber(layers).buy_m3)
    assert timber(glued).net_m3 == pytest.approx(4 * 0.72 * 0.09 * 0.09)
    (line,) = timber(glued).species[0].stock
    assert line.thickness_m == pytest.approx(0.035)


def test_quarters_are_layers_too():
    glued, told = read("Leg,4,white oak,29,3 1/2,3 1/2,2 x 8/4", units="in")
    layers, _ = read("Layer,8,white oak,29,3 1/2,1 3/4,8/4", units="in")
    assert told == []
    assert timber(glued).buy_bf == pytest.approx(timber(layers).buy_bf)


@pytest.mark.parametrize(
    ("row", "units", "said"),
    [
        ("Leg,4,European oak,720,90,90,2 x 35 mm", "mm", "thinner than the part"),
        ("Leg,4,European oak,720,90,30,3 x 35 mm", "mm", "as thick as the part"),
        ("Stud,4,Douglas fir,90,3 1/2,1 1/2,2 x 4", "in", "2 x 4"),  # a size of lumber, no layers
    ],
)
def test_layers_that_cannot_be_are_asked_about(row, units, said):
    _, told = read(row, units=units)
    assert [line for line in told if line.startswith("stock:") and said in line], told


def test_a_part_thicker_than_any_stock_is_told_how_to_say_it_is_glued_up():
    job, _ = read("Beam,1,European oak,720,400,400,")
    assert any("2 x 65 mm" in said for said in timber(job).species[0].assumed)


# -- layers sawn from a board --------------------------------------------------------------------


def bent(tmp_path, parts, worked, language="en"):
    (tmp_path / "job.toml").write_text(f'title = "Arch"\n{worked}')
    (tmp_path / "shop.toml").write_text(f'language = "{language}"\n')
    (tmp_path / "parts.csv").write_text(
        f"part,qty,material,length,width,thickness,stock,working\n{parts}", encoding="utf-8"
    )
    job = read_job(tmp_path)
    return job, [str(problem) for problem in job.problems if problem.severity == "error"]


BEND = '[[worked]]\nkind = "{kind}"\ntitle = "Arch"\nthickness = "45 mm"\nlayer = "3 mm"\nlayers = 7\nkerf = "3 mm"\nclean_up = "1 mm"\n'


@pytest.mark.parametrize("kind", ["laminate", "Lamellen verleimen"])
def test_a_bent_rail_takes_the_boards_that_its_layers_are_sawn_from(tmp_path, kind):
    """A board of 45 mm gives seven layers of 3 mm, each cut taking 4: 7 x 3 + 6 x 4 = 45. Four rails take four boards of
    1200 + 25 by 50 + 6 by 45.
    """
    job, told = bent(tmp_path, "Rail,4,ash,1200,50,21,,Arch\n", BEND.format(kind=kind))
    assert told == []
    found = summarise(job)
    over_m, wide_m = found.timber.over_length_m, found.timber.over_width_m
    assert found.timber.rough_m3 == pytest.approx(4 * (1.2 + over_m) * (0.05 + wide_m) * 0.045)
    assert found.timber.net_m3 == pytest.approx(4 * 1.2 * 0.05 * 0.021)


def test_a_part_thicker_than_its_layers_is_told(tmp_path):
    _, told = bent(tmp_path, "Rail,4,ash,1200,50,24,,Arch\n", BEND.format(kind="laminate"))
    assert any("thicker than the layers" in line for line in told)


def test_layers_that_a_board_does_not_give():
    assert laminate(0.045, 0.003, 7, 0.003, 0.001).boards_each == 1
    assert laminate(0.002, 0.003, 7, 0.003).boards_each == 0


def test_the_cut_list_reads_back_with_its_layers():
    job, _ = read("Leg,4,European oak,720,90,90,3 x 35 mm")
    table = parts_again(job, Phrases.of(job))
    again, told = read(*(",".join(map(str, row)) for row in table.rows), head=",".join(table.headings))
    assert told == []
    assert again.parts[0].stock == job.parts[0].stock
