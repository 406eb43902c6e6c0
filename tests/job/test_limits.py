"""What is beyond a limit is told where it is met, and what is right at it is read."""

import pytest

from buildbook import limits
from buildbook.job.notes.bounds import within
from buildbook.job.notes.entries import Known, read_notes
from buildbook.job.notes.pictures import Names, resolve
from buildbook.job.table.parts import read_parts
from buildbook.job.toml.job_toml import read_job_toml
from buildbook.problems import Problems, did_you_mean

HEADINGS = b"part,material,kind\n"


def notes(text):
    problems = Problems()
    entries = read_notes([("notes.md", text.encode())], Known(None, (), ()), problems)
    return entries, [str(problem) for problem in problems]


def parts(data):
    problems = Problems()
    return read_parts(data, "mm", problems), [
        str(problem) for problem in problems if problem.severity == "error"
    ]


def toml(text):
    problems = Problems()
    read_job_toml(text.encode(), "mm", problems)
    return [str(problem) for problem in problems]


def days(count):
    return "".join(
        f"## 20{10 + n // 336}-{n // 28 % 12 + 1:02}-{n % 28 + 1:02}\n\nPlaned.\n\n" for n in range(count)
    )


def passage(text):
    return f"## 2026-03-02\n\n### For the client\n\n{text}\n"


SPLIT = "Keep what belongs to this piece, and put the rest elsewhere."


@pytest.mark.parametrize(
    ("at", "beyond", "line"),
    [
        (
            "a\n" * (limits.NOTE_LINES - 10),
            "a\n" * limits.NOTE_LINES,
            f"notes.md: With this file the notes have 60,003 lines; 60,000 can be read. {SPLIT}",
        ),
        (
            "[" * limits.NOTE_BRACKETS,
            "[" * (limits.NOTE_BRACKETS + 1),
            f"notes.md: With this file the notes have 20,001 opening brackets; 20,000 can be read. {SPLIT}",
        ),
        (
            "a|b\n-|-\n" + "c\n" * 20_000,
            "a|b\n-|-\n" + "c\n" * 30_000,
            f"notes.md: With this file the notes have 60,002 cells of tables; 50,000 can be read. {SPLIT}",
        ),
    ],
    ids=["lines", "brackets", "cells"],
)
def test_notes_are_counted_before_they_are_read(at, beyond, line):
    entries, told = notes(f"## 2026-03-02\n\n{at}")
    assert len(entries) == 1
    assert told == []
    entries, told = notes(f"## 2026-03-02\n\n{beyond}")
    assert entries == ()
    assert told == [line]


def test_notes_are_counted_across_files():
    half = "a\n" * (limits.NOTE_LINES // 2)
    problems = Problems()
    read = list(within([("notes/1.md", half), ("notes/2.md", half), ("notes/3.md", "a")], problems))
    assert [name for name, _ in read] == ["notes/1.md"]
    assert [problem.file for problem in problems] == ["notes/2.md"]


def test_entries_are_counted():
    assert len(notes(days(limits.ENTRIES))[0]) == limits.ENTRIES
    entries, told = notes(days(limits.ENTRIES + 1))
    assert entries == ()
    assert told == [f"notes.md: With this file the notes have 3,001 entries; 3,000 can be read. {SPLIT}"]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (
            "a" * (limits.WORD_SIGNS + 1),
            f"notes.md, line 5: A word of 2,001 signs, “{'a' * 59}…”, is too long to print."
            " Put blanks into it; a word has 2,000 signs at most.",
        ),
        (
            "word " * 40_000 + "word",
            f"notes.md: With this file the notes have 200,004 signs for the client; 200,000 can be read. {SPLIT}",
        ),
        (
            "- x\n" * (limits.PASSAGES_LINES + 1),
            f"notes.md: With this file the notes have 10,001 lines for the client; 10,000 can be read. {SPLIT}",
        ),
        (
            "*a " * 150 + "b* " * 150,
            "notes.md, line 5: Emphasis or links stand 150 deep inside one another in this passage."
            " See whether each * is closed.",
        ),
    ],
    ids=["word", "signs", "lines", "emphasis"],
)
def test_what_goes_to_print_is_bounded(text, line):
    assert notes(passage(text))[1] == [line]


def test_what_stays_in_may_have_longer_words():
    assert notes(f"## 2026-03-02\n\n{'a' * 60_000}")[1] == []


@pytest.mark.parametrize(
    ("rows", "line"),
    [
        (
            b"Glue,pva,supply\n" * (limits.PART_ROWS),
            "parts.csv: There are 4,001 rows; 4,000 can be read."
            " Keep what belongs to this piece, and put the rest into a table of its own.",
        ),
        (
            b"Glue,pva,supply" + b",x" * 600 + b"\n",
            "parts.csv, row 2: There are 603 cells in this row; 500 can be read. See whether the rows are separated.",
        ),
        (
            b"Glue," + b"pva " * 3000 + b",supply\n",
            f"parts.csv, row 2: The cell “{'pva ' * 14}pva…” has 11,999 signs; 10,000 can be read."
            " Put what is so long into the notes; see whether a quotation mark is never closed.",
        ),
    ],
    ids=["rows", "cells", "signs"],
)
def test_tables_are_bounded(rows, line):
    read, told = parts(HEADINGS + rows)
    assert read == ()
    assert told == [line]


def test_a_table_of_as_many_rows_as_can_be_read_is_read():
    read, told = parts(HEADINGS + b"Glue,pva,supply\n" * (limits.PART_ROWS - 1))
    assert len(read) == limits.PART_ROWS - 1
    assert told == []


def test_a_table_with_one_mistake_made_many_times_is_given_up_and_that_is_told():
    _, told = parts(HEADINGS + b"".join(b"Top,oak,wod%d\n" % number for number in range(1000)))
    assert len(told) == limits.ERRORS_TOLD + 1 + 3  # and the three columns of sizes that are not there
    assert any(
        "There are 500 errors above this row; what follows was not looked at." in line for line in told
    )


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (
            "a" + ".b" * 21 + " = 1",
            "job.toml, line 1: Keys or lists stand 21 deep inside one another here; 20 can be read."
            " Write it more simply.",
        ),
        (
            "tags = [" + '"a",' * 20_001 + "]",
            "job.toml: There are 20,002 values in this file; 20,000 can be read."
            " Keep what belongs to this piece; long words go into the notes.",
        ),
        (
            "tags = [" + '"a",' * 1_001 + "]",
            "job.toml, line 1, tags: There are 1,001 in this list; 1,000 can be read. Leave some out.",
        ),
        (
            f'description = "{"word " * 4_001}"',
            f"job.toml, line 1, description: “{'word ' * 11}word…” has 20,004 signs; 20,000 can be read."
            " Put what is so long into a passage for the client in the notes.",
        ),
        (
            f'title = "{"a" * 2001}"',
            f"job.toml, line 1, title: A word of 2,001 signs, “{'a' * 59}…”, is too long to print. Put blanks into it.",
        ),
        (
            "[[worked]]\n" * 501,
            "job.toml, worked: There are 501 [[worked]]; 500 can be read. Leave some out.",
        ),
    ],
    ids=["depth", "values", "list", "text", "word", "tables"],
)
def test_keys_are_bounded(text, line):
    assert line in toml(text)


def test_among_thousands_of_names_the_nearest_is_found():
    names = [f"photos/img_{n:05}.jpg" for n in range(3000)] + ["photos/finished/front.jpg"]
    assert did_you_mean("photos/finished/frnt.jpg", names).startswith(
        "Did you mean “photos/finished/front.jpg”"
    )


def test_a_photo_is_found_among_thousands_by_other_capitals_only_if_one_can_be_meant():
    names = tuple(f"photos/IMG_{n:05}.JPG" for n in range(3000))
    assert resolve("img_00017.jpg", "photos/x.md", Names(names)) == "photos/IMG_00017.JPG"
    assert resolve("photos/a.jpg", "notes.md", Names(("photos/A.jpg", "photos/a.JPG"))) is None
