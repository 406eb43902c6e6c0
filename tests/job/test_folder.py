"""A folder becomes a job with everything that is wrong in it; nothing that a maker can put there raises."""

import os
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image

from buildbook.job import find_jobs, read_job, read_shop
from buildbook.job.parts.finished import finishes_taken
from buildbook.job.shop_model import Shop
from tests.job import told

PARTS = "part,qty,kind,material,length,width,thickness,finish\nTop,1,wood,black cherry,600,300,20,\n"
JOB = 'title = "A table"\nbegun = 2026-02-16\n[[finish]]\nkey = "body"\nfamily = "soap"\n'
NOTES = "## 2026-03-02 A day\n\nwords\n"
SHOP = 'name = "The Workshop"\nunits = "mm"\n'


@pytest.fixture
def shelf(tmp_path):
    """A shelf with a shop; `lay` puts files on it."""

    def lay(folder="a-job", **files):
        where = tmp_path / folder
        where.mkdir(parents=True, exist_ok=True)
        for name, text in files.items():
            name = name.replace("__", "/").replace("_dot_", ".")
            (where / name).parent.mkdir(parents=True, exist_ok=True)
            (where / name).write_bytes(text if isinstance(text, bytes) else text.encode())
        return where

    lay(".", shop_dot_toml=SHOP)
    lay.folder = tmp_path
    return lay


def whole(shelf, **more):
    """A job with nothing wrong but what `more` changes."""
    files = {"job_dot_toml": JOB, "parts_dot_csv": PARTS, "notes_dot_md": NOTES} | more
    folder = shelf(**files)
    if not (folder / "photos").exists():
        (folder / "photos").mkdir()
        Image.new("RGB", (8, 6)).save(folder / "photos" / "front.jpg")
    return read_job(folder)


def test_a_whole_job_has_no_problems(shelf):
    job = whole(shelf)
    assert told(job.problems) == []
    assert (job.key, job.title, job.shop.name) == ("a-job", "A table", "The Workshop")
    assert [len(job.parts), len(job.entries), len(job.photos)] == [1, 1, 1]


def test_a_job_binds_without_a_shelf_and_says_what_is_missing(tmp_path):
    folder = tmp_path / "alone" / "a-job"
    folder.mkdir(parents=True)
    (folder / "notes.md").write_text(NOTES)
    job = read_job(folder)
    assert job.shop == Shop()
    assert told(job.problems) == [
        "warning: job.toml: There is no job.toml: the pages have no title, sizes or finish. Write one.",
        "warning: parts.csv: There is no parts.csv: there is nothing on materials, hardware and"
        " movement. Write one.",
        "warning: photos: There is no photos: there are no pictures. Put pictures in a folder named photos.",
        "warning: shop.toml: There is no shop.toml, so the pages do not name the shop. Write one.",
    ]


def test_neither_parts_nor_notes_is_no_job(shelf):
    assert (
        "error: parts.csv: There are neither parts nor notes here, so there is no job. Write"
        " parts.csv or notes.md." in told(read_job(shelf(job_dot_toml='title = "A"')).problems)
    )


@pytest.mark.parametrize(
    ("files", "said"),
    [
        ({"teile_dot_csv": "x"}, "Rename “teile.csv” to parts.csv."),
        ({"notizen_dot_md": "x"}, "Rename “notizen.md” to notes.md."),
        ({"Cutting list_dot_XLSX": "x"}, "Rename “Cutting list.XLSX” to parts.xlsx."),
        (
            {"teile_dot_csv": "x", "notizen_dot_md": "x"},
            "Rename “teile.csv” to parts.csv, and “notizen.md” to notes.md.",
        ),
    ],
)
def test_what_lies_there_by_another_name_is_offered(shelf, files, said):
    lines = told(read_job(shelf(job_dot_toml='title = "A"', **files)).problems)
    assert f"error: parts.csv: There are neither parts nor notes here, so there is no job. {said}" in lines


def test_a_file_saved_otherwise_is_named(shelf):
    folder = shelf(notes_dot_md=NOTES, parts_dot_xlsm=b"PK", job_dot_toml_dot_txt="x")
    lines = told(read_job(folder).problems)
    assert any(line.endswith("There is “parts.xlsm”: save it as parts.csv.") for line in lines)
    assert any(line.endswith("There is “job.toml.txt”: save it as job.toml.") for line in lines)


def test_no_such_folder(tmp_path):
    assert told(read_job(tmp_path / "nowhere").problems) == [
        "error: nowhere: There is no such folder. See that its name is right."
    ]


def test_capitals_of_file_names_make_no_difference(shelf):
    folder = shelf(PARTS_dot_CSV=PARTS, Notes_dot_MD=NOTES, Job_dot_toml=JOB)
    job = read_job(folder)
    assert (job.title, len(job.parts), len(job.entries)) == ("A table", 1, 1)


# -- across files --------------------------------------------------------------------------------


def test_the_only_finish_is_that_of_all_wooden_parts_and_sheets_are_left_as_they_are_told(shelf):
    rows = (
        "Back,1,panel,birch ply,600,300,9,\nKnob,1,hardware,brass knob,,,,\nSide,1,wood,oak,600,300,20,BODY\n"
    )
    job = whole(shelf, parts_dot_csv=PARTS + rows)
    assert [part.finish for part in job.parts] == ["body", "", "", "body"]
    assert [part.finish_assumed for part in job.parts] == [True, False, False, False]
    assert [problem.message for problem in finishes_taken(job)] == [
        "No finish is written for Top: “body”, the only one on top, was taken.",
        "No finish is written for sheets (Back): none was taken.",
    ]


TWO = JOB + '[[finish]]\nkey = "drawers"\nfamily = "shellac"\n'

CROSS = {
    "a finish misspelt": (
        {"parts_dot_csv": PARTS.replace("20,\n", "20,bdoy\n")},
        [
            "error: parts.csv, row 2, finish: “bdoy” is not a finish of job.toml. Did you mean “body”?",
            "warning: job.toml, line 4, finish[1].key: No part has the finish “body”, so it has no area."
            " Name it in the column finish of parts.csv.",
        ],
    ),
    "a finish in no job": (
        {
            "job_dot_toml": 'title = "A"\nbegun = 2026-02-16',
            "parts_dot_csv": PARTS.replace("20,\n", "20,body\n"),
        },
        [
            "error: parts.csv, row 2, finish: “body” is not a finish of job.toml."
            " Write a [[finish]] with this key in job.toml.",
        ],
    ),
    "no finish among several": (
        {"job_dot_toml": TWO, "parts_dot_csv": PARTS + "Side,1,wood,black cherry,600,300,20,drawers\n"},
        [
            "warning: job.toml, line 4, finish[1].key: No part has the finish “body”, so it has no area."
            " Name it in the column finish of parts.csv.",
            "warning: parts.csv, row 2, finish: This part has no finish, and the job has several."
            " Write its finish (body or drawers), or faces none.",
        ],
    ),
    "a wall without hanging": (
        {"job_dot_toml": 'stands = "wall"\n' + JOB},
        [
            "warning: job.toml, line 1, stands: The piece hangs (stands = “wall”), but there is no"
            " [hanging] that can"
            " be read: its fixings are not worked out. Write [hanging] with method, fastener, wall"
            " and pull_height.",
        ],
    ),
    "hanging on the floor": (
        {"job_dot_toml": JOB + '[hanging]\nmethod = "cleat"'},
        [
            "warning: job.toml, line 6, hanging: There is [hanging], but the piece does not stand on a wall."
            ' Write stands = "wall", or leave [hanging] out.',
        ],
    ),
    "photos misspelt": (
        {"job_dot_toml": JOB + '[photos]\nlead = "photos/fornt.jpg"\nclient = ["nothing.jpg"]'},
        [
            "warning: job.toml, line 7, photos.lead: “photos/fornt.jpg” is not a photo of this job"
            " that can be read."
            " Did you mean “photos/front.jpg”?",
            "warning: job.toml, line 8, photos.client: “nothing.jpg” is not a photo of this job that"
            " can be read."
            " Known here: photos/front.jpg.",
        ],
    ),
    "files that are no notes": (
        {"notes__sketch_dot_jpg": b"x"},
        [
            "warning: notes: “sketch.jpg” is no note and is passed over."
            " Notes are files such as 2026-03-02.md; pictures go in photos.",
        ],
    ),
}


@pytest.mark.parametrize(("files", "lines"), CROSS.values(), ids=CROSS)
def test_what_takes_two_files_to_see(shelf, files, lines):
    assert told(whole(shelf, **files).problems) == lines


def test_photos_are_named_as_they_are(shelf):
    job = whole(
        shelf, job_dot_toml=JOB + '[photos]\nlead = "Photos/FRONT.JPG"\nclient = ["photos/front.jpg"]'
    )
    assert (job.lead, job.client_photos) == ("photos/front.jpg", ("photos/front.jpg",))


def test_problems_come_most_serious_first(shelf):
    severities = [
        p.severity
        for p in whole(shelf, job_dot_toml=JOB + "zzz = 1", parts_dot_csv=PARTS + ",,\nx,0").problems
    ]
    assert severities == sorted(severities)
    assert "error" in severities


def test_a_note_without_a_day_is_put_at_the_day_the_job_was_begun(shelf):
    assert whole(shelf, notes_dot_md="words").entries[0].day == date(2026, 2, 16)


# -- names ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("a: b", "It has “:” in it."),
        ("what?*", "It has “?” and “*” in it."),
        ("table.", "It begins or ends with a blank, or ends with a dot."),
        (" table", "It begins or ends with a blank, or ends with a dot."),
        ("con", "Some systems keep this name for themselves."),
        ("LPT1.old", "Some systems keep this name for themselves."),
        ("x" * 121, "It is too long."),
        (os.fsdecode(b"t\xfcr"), "It has characters that are none."),
    ],
)
def test_a_folder_that_not_every_system_can_have(shelf, name, why):
    problem = read_job(shelf(name, notes_dot_md=NOTES)).problems[0]
    assert problem.severity == "error"
    assert f"{problem.message} {problem.hint}" == (
        f"Not every system can have a folder of this name. {why} Rename the folder."
    )


@pytest.mark.parametrize(
    "name", ["2026-014 Record cabinet", "Tür & Tisch #2", "コンソール", "console", "con-1"]
)
def test_other_names_are_fine(shelf, name):
    assert not any(
        "folder of this name" in line for line in told(read_job(shelf(name, notes_dot_md=NOTES)).problems)
    )


# -- shelves -------------------------------------------------------------------------------------


def names(paths):
    return [path.name for path in paths]


def test_a_job_folder_is_its_own_job(shelf):
    assert names(find_jobs(shelf(notes__a_dot_md="x"))) == ["a-job"]


def test_a_shelf_has_the_jobs_right_inside_it(shelf):
    shelf("b", parts_dot_csv=PARTS)
    shelf("a", job_dot_toml=JOB)
    shelf("c", readme_dot_txt="x")
    shelf("d/deeper", job_dot_toml=JOB)
    shelf(".trash", job_dot_toml=JOB)
    assert names(find_jobs(shelf.folder)) == ["a", "b"]


def test_a_shelf_with_notes_of_its_own_is_still_a_shelf(shelf):
    shelf(".", notes_dot_md="to do")
    shelf("a", job_dot_toml=JOB)
    assert names(find_jobs(shelf.folder)) == ["a"]


def test_nothing_has_no_jobs(tmp_path):
    assert find_jobs(tmp_path) == []
    assert find_jobs(tmp_path / "nowhere") == []


def test_a_shop_has_the_prices_beside_it(shelf):
    shelf(".", prices_dot_csv="material,price,per\nblack cherry,4.50,bf\n")
    shop, problems = read_shop(shelf.folder)
    assert told(problems) == []
    assert [price.material for price in shop.prices] == ["black cherry"]


def test_a_shop_may_stand_in_the_job_folder(shelf):
    folder = shelf(notes_dot_md=NOTES, shop_dot_toml='name = "Own"')
    assert read_job(folder).shop.name == "Own"


# -- anything ------------------------------------------------------------------------------------

WORDS = st.sampled_from(
    [
        *"\n\r\t,;|[]{}=#<>!()*`~-_ ",
        '"',
        "'''",
        '"""',
        "\r\n",
        "\x00",
        "\ufeff",
        "\u2028",
        "part",
        "qty",
        "material",
        "length",
        "width",
        "thickness",
        "price",
        "per",
        "client",
        "1 1/4",
        "8-Mar",
        "46089",
        "1e999999999",
        "nan",
        "0x" + "f" * 40,
        "2026-03-02",
        "[[finish]]\n",
        "[[worked]]\n",
        'key = "a"\n',
        'family = "soap"\n',
        "coats = [",
        "overall = {",
        "## 2026-03-02\n",
        "### For the client\n",
        "\nHours: milling 2.5",
        "<!--",
        "-->",
        "```\n",
        "![a](",
        "photos/front.jpg)",
        "[a]: x\n",
        "> ",
        "ü",
    ]
)
TEXT = st.lists(st.one_of(WORDS, st.text(max_size=5)), max_size=60).map("".join)
ANY = st.one_of(
    st.binary(max_size=200),
    TEXT.map(lambda text: text.encode("utf-8", "surrogatepass")),
    TEXT.map(lambda text: text.encode("utf-16", "surrogatepass")),
)
FILES = (
    "job.toml",
    "shop.toml",
    "parts.csv",
    "prices.csv",
    "notes.md",
    "notes/2026-03-02 x.md",
    "photos/a.jpg",
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(st.dictionaries(st.sampled_from(FILES), ANY))
def test_no_bytes_in_any_file_raise(shelf, files):
    folder = shelf("any")
    for name in FILES:
        path = folder / name
        path.parent.mkdir(exist_ok=True)
        path.unlink(missing_ok=True)
        if name in files:
            path.write_bytes(files[name])
    for problem in read_job(Path(folder)).problems:
        assert str(problem).encode("utf-8")
        assert "Error" not in problem.message


def test_a_note_whose_name_is_no_text_is_told(shelf):
    folder = shelf(notes_dot_md=NOTES)
    (folder / "notes").mkdir()
    (folder / "notes" / os.fsdecode(b"2026-03-02 t\xfcr.md")).write_text("words")
    lines = told(read_job(folder).problems)
    assert any(
        line.startswith("warning: notes: “2026-03-02 t�r.md” is no note and is passed over.")
        for line in lines
    )


def test_files_that_are_folders_and_folders_that_are_files(shelf):
    folder = shelf(photos=b"x", notes=b"x")
    for name in ("job.toml", "parts.csv", "notes.md"):
        (folder / name).mkdir()
    lines = told(read_job(folder).problems)
    for name in ("job.toml", "parts.csv", "notes.md"):
        said = "This is a folder, not a plain file; it is passed over. Move it out of the folder."
        assert f"error: {name}: {said}" in lines
