"""Sums by hand, the way a maker adds them up on the back of an offcut before anything is cut."""

import pytest

from buildbook.job.folder import read_job
from buildbook.pages.log.holding import sums_table
from buildbook.pages.phrases import Phrases
from buildbook.summary import summarise
from buildbook.summary.style import style_of
from buildbook.words import Words
from tests.conftest import ROOT, SAMPLE

HEAD = "part,qty,material,length,tenons,width,thickness\n"
CUPBOARD = (
    f"{HEAD}Side,2,European oak,700,,300,20\nDoor,3,European oak,640,,518,22\n"
    "Shelf,1,European oak,1577,,280,20\nRail,1,European oak,1540 between shoulders,60,60,22\n"
)


def job(tmp_path, adds, parts=CUPBOARD, overall='width = "1600", height = "700"', units="mm"):
    folder = tmp_path / "job"
    folder.mkdir(exist_ok=True)
    (folder / "job.toml").write_text(
        f'units = "{units}"\noverall = {{ {overall} }}\nadds = [{adds}]\n', encoding="utf-8"
    )
    (folder / "parts.csv").write_text(parts, encoding="utf-8")
    return read_job(folder)


def mm(m):
    return round(m * 1000, 6)


# size, what it adds up to, the difference: by hand, in mm
HAND = [
    # 2 x 20 + 3 x 518 + 4 x 1.5 = 40 + 1554 + 6
    ("width: 2 x Side thickness + 3 x Door width + 4 x 1.5", 1600, 1600, 0, True),
    # the same with gaps of 1 between the doors: 2 short
    ("width: 2 x Side thickness + 3 x Door width + 4 x gap 1", 1600, 1598, -2, False),
    # a shelf between the sides, 1 of play: 1600 - 40 - 1 = 1559, and the shelf is 18 longer
    ("Shelf length: width - 2 x Side thickness - gap 1", 1577, 1559, -18, False),
    # 1540 between shoulders = 1600 over all - 60
    ("Rail between shoulders: Rail length - 60", 1540, 1540, 0, True),
    ("width: Rail length", 1600, 1600, 0, True),
    ("height: Side length + 0.5", 700, 700.5, 0.5, True),
    ("height: Side length + 0.6", 700, 700.6, 0.6, False),
]


@pytest.mark.parametrize(("words", "size", "total", "difference", "ok"), HAND)
def test_by_hand(tmp_path, words, size, total, difference, ok):
    (one,) = summarise(job(tmp_path, f'"{words}"')).sums
    assert (mm(one.size_m), mm(one.sum_m), mm(one.difference_m), one.ok) == (size, total, difference, ok)
    assert one.words == words


def test_inches_by_hand(tmp_path):
    """36 in = 2 x 3/4 + 2 x 17 5/32 + 3 x 1/16, to the 64th: 1 1/2 + 34 5/16 + 3/16 = 36."""
    parts = f"{HEAD}Side,2,white oak,30,,12,3/4\nDoor,2,white oak,28,,17 5/32,3/4\n"
    words = '"width: 2 x Side thickness + 2 x Door width + 3 x gap 1/16"'
    (one,) = summarise(job(tmp_path, words, parts, 'width = "36"', "in")).sums
    assert (one.ok, one.difference_m) == (True, 0)


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ("width: 2 x Sied thickness", "“Sied” is no part of this job"),
        ("depth: 2 x Side thickness", "The depth of the piece is not known"),
        ("Side between shoulders: 600", "“Side” has no tenons"),
        ("width: 2 x Twin width", "2 rows of parts.csv are named “Twin” and differ in width"),
    ],
)
def test_a_sum_that_cannot_be_reckoned_is_told_and_left_out(tmp_path, words, message):
    twins = f"{CUPBOARD}Twin,1,European oak,300,,20,20\nTwin,1,European oak,300,,30,20\n"
    read = job(tmp_path, f'"{words}", "width: 1600"', twins)
    (told,) = [problem for problem in read.problems if problem.field == "adds"]
    assert told.message.startswith(message)
    assert told.severity == "warning"
    assert [one.words for one in summarise(read).sums] == ["width: 1600"]


def test_the_nearest_name_is_offered(tmp_path):
    read = job(tmp_path, '"width: 2 x Sied thickness"')
    (told,) = [problem for problem in read.problems if problem.field == "adds"]
    assert "Side" in told.hint


def test_twins_of_one_size_are_one(tmp_path):
    twins = f"{CUPBOARD}Twin,1,European oak,300,,20,20\nTwin,1,beech,400,,20,20\n"
    (one,) = summarise(job(tmp_path, '"width: 80 x twin WIDTH"', twins)).sums
    assert one.ok


@pytest.mark.parametrize(
    ("folder", "count"),
    [
        (SAMPLE, 19),
        (ROOT / "tests" / "shelf" / "2021-019-tool-cupboard", 2),
        (ROOT / "tests" / "shelf" / "2022-006-glazed-bookcase", 3),
        (ROOT / "tests" / "shelf" / "2024-003-kitchen-dresser", 2),
    ],
    ids=["sample", "cupboard", "bookcase", "dresser"],
)
def test_the_sums_of_finished_pieces_come_out(folder, count):
    sums = summarise(read_job(folder, pictures=False)).sums
    assert [one.ok for one in sums] == [True] * count


def test_the_log_shows_what_each_sum_comes_to():
    job = read_job(SAMPLE, pictures=False)
    words = Words("en")
    table = sums_table(job, summarise(job), Phrases(words, style_of(job, words)))
    row = next(row for row in table.rows if row[0].startswith("Division between shoulders"))
    assert [cell.replace("\u202f", " ") for cell in row[1:]] == [
        "460 + 2 × 1.5",
        "463",
        "463",
        "0",
        "comes out",
    ]
