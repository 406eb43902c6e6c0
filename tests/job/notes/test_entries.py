"""Notes become dated entries; only what stands under the mark may leave, and never hours or comments."""

from dataclasses import replace
from datetime import date

import pytest

from buildbook.job import read_job
from buildbook.job.log_model import Hours, Passage, Picture
from buildbook.job.notes.entries import Known, read_notes
from buildbook.job.notes.pictures import Names
from buildbook.problems import Problems
from tests.job import slips, told

KNOWN = Known(
    begun=date(2026, 2, 16),
    stages=("design", "stock", "milling", "joinery"),
    photos=Names(("photos/front.jpg", "photos/a b.jpg", "photos/Äst.jpg")),
)
DAY = "## 2026-03-02 A day\n\n"


def read(*files, known=KNOWN):
    problems = Problems()
    files = [(name, text if isinstance(text, bytes) else text.encode()) for name, text in files]
    return read_notes(files, known, problems), problems


def entry(text, name="notes.md"):
    """The only entry of a note."""
    entries, _ = read((name, text))
    (only,) = entries
    return only


def passages(text):
    return [passage.markdown for passage in entry(DAY + text).for_client]


@pytest.mark.parametrize(("text", "lines"), slips("notes"))
def test_a_slip_is_told(text, lines):
    assert told(read(("notes.md", text))[1]) == lines


# -- entries -------------------------------------------------------------------------------------


def test_dated_headings_open_entries_and_others_stay_inside():
    entries, problems = read(
        (
            "notes.md",
            "# Build log\n\n## 2026-03-04: Late\n\nb\n\n## Setup\n\nc\n\n"
            "## 2026-03-02\n\na\n\n### 2026-03-03\n",
        )
    )
    assert told(problems) == []
    assert [(e.day, e.title, e.body, e.line) for e in entries] == [
        (date(2026, 3, 2), "", "a\n\n### 2026-03-03", 11),
        (date(2026, 3, 4), "Late", "b\n\n## Setup\n\nc", 3),
    ]


def test_a_heading_in_a_fence_a_quote_or_a_comment_opens_nothing():
    text = (
        DAY + "```\n## 2026-03-03\n```\n\n> ## 2026-03-04\n\n<!--\n## 2026-03-05\n-->\n\n    ## 2026-03-06\n"
    )
    assert entry(text).day == date(2026, 3, 2)


def test_a_title_is_plain_words():
    assert entry("## 2026-03-02 - **Glue** up *day*\n").title == "Glue up day"


@pytest.mark.parametrize(
    ("name", "text", "title", "body"),
    [
        ("notes/2026-03-02-cutting_dovetails.md", "text", "cutting dovetails", "text"),
        ("notes/2026-03-02 glue up.md", "# The glue-up\n\ntext", "The glue-up", "text"),
        ("notes/2026-03-02.md", "text\n\n### Doors", "Doors", "text\n\n### Doors"),
        ("notes/2026-03-02.md", "### For the client\n\ntext", "", "### For the client\n\ntext"),
    ],
)
def test_a_file_of_a_day(name, text, title, body):
    only = entry(text, name)
    assert (only.day, only.title, only.body, only.file) == (date(2026, 3, 2), title, body, name)


def test_a_file_of_a_day_may_hold_more_days():
    entries, _ = read(("notes/2026-03-02.md", "a\n\n## 2026-03-03 After\n\nb"))
    assert [(e.day, e.title, e.body) for e in entries] == [
        (date(2026, 3, 2), "", "a"),
        (date(2026, 3, 3), "After", "b"),
    ]


def test_text_without_a_day_is_kept_at_the_beginning_of_the_job():
    entries, _ = read(("notes.md", "first\n\n" + DAY))
    first = entries[0]
    assert (first.day, first.title, first.body) == (date(2026, 2, 16), "Before the first date", "first")


def test_text_without_any_day_is_an_error():
    _, problems = read(("notes.md", "\nfirst\n"), known=Known(None, (), Names(())))
    assert told(problems) == [
        "error: notes.md, line 2: There is text before the first dated heading, and job.toml does"
        " not say when the"
        " job was begun. Write a heading such as ## 2026-03-02 above it."
    ]


@pytest.mark.parametrize(
    "data",
    [
        "## 2026-03-02 Tür\r\n\r\ntext\r\n".encode(),
        "\ufeff## 2026-03-02 Tür\n\ntext".encode(),
        "## 2026-03-02 Tür\n\ntext".encode("utf-16"),
        "## 2026-03-02 Tür\n\ntext".encode("cp1252"),
        "## 2026-03-02 Tür\r\rtext\r".encode(),
    ],
    ids=["crlf", "bom", "utf-16", "cp1252", "cr"],
)
def test_encodings_and_line_ends(data):
    assert (entry(data).title, entry(data).body) == ("Tür", "text")


@pytest.mark.parametrize(
    "heading", ["## 3/4 in panels", "## 5/4 stock", "## 1.5 mm gap", "## 2 marking gauges", "## May be"]
)
def test_a_heading_that_begins_with_a_size_is_no_bad_day(heading):
    assert told(read(("notes.md", DAY + heading))[1]) == []


# -- hours ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "hours"),
    [
        ("Hours: milling 2.5, joinery 1 1/4", [("milling", 2.5), ("joinery", 1.25)]),
        ("hours: Milling 2h; stock 45 min", [("milling", 2), ("stock", 0.75)]),
        ("HOURS : design 2:30 and stock ½", [("design", 2.5), ("stock", 0.5)]),
        ("**Hours:** milling 1h30, design 1 h 15 min", [("milling", 1.5), ("design", 1.25)]),
        ("Hours: milling 2,5, joinery 1,25", [("milling", 2.5), ("joinery", 1.25)]),
        ("Hours: 2.5 milling, 1 of joinery.", [("milling", 2.5), ("joinery", 1)]),
        ("Hours: milling: 2 hours, joinery = 1 hr", [("milling", 2), ("joinery", 1)]),
        ("- Hours: milling 2", [("milling", 2)]),
        ("1. Hours: milling 2", [("milling", 2)]),
    ],
)
def test_a_line_of_hours_is_booked_and_leaves_the_text(line, hours):
    only = entry(f"{DAY}before\n\n{line}\n\nafter")
    assert only.hours == tuple(Hours(*booked) for booked in hours)
    assert "ours" not in only.body
    assert only.body.split() == ["before", "after"]


@pytest.mark.parametrize(
    "text",
    [
        "```\nHours: milling 3\n```",
        "    Hours: milling 3",
        "> Hours: milling 3",
        "<!--\nHours: milling 3\n-->",
    ],
    ids=["fence", "code", "quote", "comment"],
)
def test_hours_that_are_shown_and_not_said_are_not_booked(text):
    only = entry(DAY + text)
    assert only.hours == ()
    assert "Hours: milling 3" in only.body


def test_the_rest_of_a_list_item_stays():
    assert entry(DAY + "- Hours: milling 3\n  more\n- b").body == "-\n  more\n- b"


def test_hours_of_a_stage_that_is_not_known_are_booked_all_the_same():
    assert entry(DAY + "Hours: sweeping 1").total_hours == 1


# -- for the client ------------------------------------------------------------------------------


def test_a_passage_ends_at_the_next_heading_of_its_level_or_above():
    text = (
        "private\n\n### For the client\n\na\n\n#### below\n\nb\n\n### Next\n\nprivate\n\n"
        "### FOR  THE CLIENT ###\nc\n"
    )
    assert passages(text) == ["a\n\n#### below\n\nb", "c"]
    assert entry(DAY + text).for_client[0] == Passage("a\n\n#### below\n\nb", 7)


def test_a_passage_ends_with_its_entry():
    entries, _ = read(("notes.md", DAY + "### For the client\n\na\n\n## 2026-03-03\n\nprivate"))
    assert [[p.markdown for p in e.for_client] for e in entries] == [["a"], []]


@pytest.mark.parametrize(
    "text",
    [
        "```\n### For the client\nsecret\n```",
        "~~~\n### For the client\nsecret",
        "    ### For the client\n    secret",
        "> ### For the client\n> secret",
        "- ### For the client\n  secret",
        "<!--\n### For the client\nsecret\n-->",
        "words <!--\n\n### For the client\n\nsecret\n\n-->",
        "<div>\n### For the client\nsecret\n</div>",
        "## For the client\n\nsecret",
        "#### For the client\n\nsecret",
        "### For the client only\n\nsecret",
        "### *For the client*\n\nsecret",
        "###For the client\n\nsecret",
        "\\### For the client\n\nsecret",
        "For the client\n---\n\nsecret",
    ],
)
def test_nothing_but_the_mark_itself_lets_anything_out(text):
    assert passages(text) == []


@pytest.mark.parametrize(
    "text",
    [
        "shown\nHours: milling 1",
        "shown\n\n> Hours: milling 1",
        "shown\n\n- Hours: milling 1",
        "shown <!-- secret -->",
        "shown\n\n<!-- secret\n\nsecret -->",
        "shown\n\n<!-- <!-- secret -->",
        "shown <!-- secret\n\nsecret",
        "shown <!<!-- x -->-- secret -->",
        "shown `<!-- secret -->`",
        "shown\nHo<!-- x -->urs: milling 1",
    ],
)
def test_hours_and_comments_never_leave(text):
    (passage,) = passages("### For the client\n\n" + text)
    assert passage.startswith("shown")
    assert "secret" not in passage
    assert "milling" not in passage


def test_a_passage_brings_the_links_that_it_uses_and_no_others():
    text = (
        "### For the client\n\n[one] and ![two][Two]\n\n### Own\n\n"
        "[one]: https://example.org\n[TWO]: photos/front.jpg\n[three]: secret"
    )
    assert passages(text) == ["[one] and ![two][Two]\n\n[one]: https://example.org\n[TWO]: photos/front.jpg"]


# -- pictures ------------------------------------------------------------------------------------


def test_pictures_with_their_captions_and_lines():
    text = (
        f"{DAY}![The *front*](photos/front.jpg) words\n![B][b]\n\n"
        "### For the client\n\n![](photos/a%20b.jpg)\n\n[b]: photos/%C3%84st.jpg"
    )
    assert entry(text).pictures == (
        Picture("photos/front.jpg", "The front", False, 3, "photos/front.jpg"),
        Picture("photos/Äst.jpg", "B", False, 4, "photos/%C3%84st.jpg"),
        Picture("photos/a b.jpg", "", True, 8, "photos/a%20b.jpg"),
    )


@pytest.mark.parametrize(
    "text",
    [
        "![x](photos/front.jpg)\n\n### For the client\n\nwords",
        "### For the client\n\nwords <!-- ![x](photos/front.jpg) -->",
        "### For the client\n\nwords <!-- a\n\n![x](photos/front.jpg)\n\n-->",
        "> ### For the client\n>\n> ![x](photos/front.jpg)",
    ],
)
def test_a_picture_outside_a_passage_is_not_for_the_client(text):
    assert not any(picture.for_client for picture in entry(DAY + text).pictures)


def test_a_picture_in_a_fence_is_none():
    assert entry(DAY + "```\n![x](photos/front.jpg)\n```\n`![x](photos/front.jpg)`").pictures == ()


# -- days with slashes -----------------------------------------------------------------------------

SLASHES = "## 9/16/2026 Milling\n\na\n\n## 02/03/26\n\nb\n\n## 16/9/2026\n\nc\n"


def test_a_shop_of_the_united_states_writes_the_month_first():
    entries, problems = read(("notes.md", SLASHES), known=replace(KNOWN, month_first=True))
    assert [(e.day, e.title) for e in entries] == [(date(2026, 2, 3), ""), (date(2026, 9, 16), "Milling")]
    assert [(p.line, p.message) for p in problems] == [(9, "“16/9/2026” does not say which is the month.")]


def test_any_other_is_asked_once_a_job():
    _, problems = read(("notes/a.md", SLASHES), ("notes/b.md", SLASHES))
    asked = [p for p in problems if "which is the month" in p.message]
    assert [(p.severity, p.file, p.line) for p in asked] == [("error", "notes/a.md", 1)]


@pytest.mark.parametrize(("language", "day"), [("en-US", date(2026, 9, 6)), ("en", None), ("de", None)])
def test_the_language_of_the_shop_says_which_it_is(language, day, tmp_path):
    (tmp_path / "shop.toml").write_text(f'name = "W"\nlanguage = "{language}"\n', "utf-8")
    (tmp_path / "table").mkdir()
    (tmp_path / "table" / "notes.md").write_text("## 9/6/2026\n\nGlued.\n", "utf-8")
    assert [e.day for e in read_job(tmp_path / "table").entries if e.day] == [d for d in (day,) if d]


@pytest.mark.parametrize(
    ("line", "told_of"),
    [
        ("For the client: the drawers are dovetailed by hand.", True),
        ("**For the client**", True),
        ("Für den Kunden: Die Schubladen sind gezinkt.", True),
        ("Bought brass for the client: two knobs.", False),
        ("<!-- For the client: later -->", False),
    ],
)
def test_a_line_that_means_the_mark_is_pointed_at_and_stays_in(line, told_of):
    entries, problems = read(("notes.md", f"{DAY}{line}\n"))
    assert entries[0].for_client == ()
    assert any("no heading" in str(problem) for problem in problems) == told_of
