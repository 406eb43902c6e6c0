"""Links to a place on one computer never reach the client: told by file and line, and out of every file that leaves."""

import io
import re

import pypdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.book.bind import bind
from buildbook.job.notes.local_links import is_local, without_local_links
from buildbook.pages.shared import Picture
from buildbook.render.html.prose import prose
from tests.conftest import every_file, noise

SECRET = "Qzxsecret"
PLACES = [
    f"file:///home/{SECRET}/plan.pdf",
    f"FILE:///home/{SECRET}/plan.pdf",
    f"file:{SECRET}.pdf",
    f"file://localhost/{SECRET}.pdf",
    f"%66ile:///home/{SECRET}.pdf",
    f"&#102;ile:///home/{SECRET}.pdf",
    f"view-source:file:///{SECRET}",
    f"C:\\Users\\{SECRET}\\plan.pdf",
    f"c:/Users/{SECRET}/plan.pdf",
    f"C:{SECRET}.pdf",
    f"C:\\My Files\\{SECRET} (2).pdf",
    f"C:\\Users\\{SECRET}\\",
    f"\\\\server\\share\\{SECRET}.pdf",
    f"//server/share/{SECRET}.pdf",
    f"smb://server/{SECRET}",
    f"/home/{SECRET}/plan.pdf",
    f"/Users/{SECRET}/My Files/plan.pdf",
    f"~/{SECRET}/plan.pdf",
    f"%USERPROFILE%\\{SECRET}.pdf",
    f"$HOME/{SECRET}.pdf",
    f"../../{SECRET}/plan.pdf",
    f"..\\..\\{SECRET}\\plan.pdf",
    f"photos/../../{SECRET}.pdf",
    f"%2e%2e/{SECRET}.pdf",
]
FORMS = {
    "link": "before [the words]({place}) after",
    "pointed": "before [the words](<{place}>) after",
    "titled": 'before [the words]({place} "a title") after',
    "title": 'before [the words](https://example.org "{place}") after',
    "strong": "before **[the *words*]({place})** after",
    "on two lines": "before [the\nwords]({place}) after",
    "reference": "before [the words][r] after\n\n[r]: {place}",
    "collapsed": "before [the words][] after\n\n[the words]: {place}",
    "shortcut": "before [the words] after\n\n[the words]: {place}",
    "pointed reference": "before [the words][r] after\n\n[r]: <{place}>",
    "reference first": "[r]: {place}\n\nbefore [the words][r] after",
    "two definitions": "before [the words][r] after\n\n[r]: https://example.org\n[r]: {place}",
    "reference elsewhere": "before [the words][r] after\n\n## 2026-01-06\n\n[r]: {place}",
    "unused": "before the words after\n\n[r]: {place}",
    "heading": "#### before [the words]({place}) after",
    "list": "- before\n  - [the words]({place}) after",
    "quote": "> before [the\n> words]({place})\n> after",
    "table": "| before | b |\n| --- | --- |\n| [the words]({place}) | after |",
    "html": "<div>\nbefore [the words]({place}) after\n</div>",
    "picture": "before the words ![{secret}]({place}) after",
    "picture in a link": "before the words [![{secret}](photos/a.jpg)]({place}) after",
    "its own words": "before the words [{place}]({place}) after",
    "its own words in code": "before the words [`{place}`]({place}) after",
    "twice": "before [the words]({place}) [{place}]({place}) after",
    "comment inside": "before [the <!-- x --> words]({place}) after",
}
AUTOLINKS = [f"file:///home/{SECRET}/x", f"C:\\Users\\{SECRET}", f"\\\\server\\{SECRET}", f"/home/{SECRET}/x", f"smb://server/{SECRET}"]  # fmt: skip
HARMLESS = [
    "[a](https://example.org/a/../b)", "[a](https://example.org/C:/x)", "[a](mailto:a@example.org)",
    "[a](tel:+441234)", "[a](photos/a.jpg)", "[a](#b)", "![a](photos/a.jpg)", "`[a](C:\\x)`", "a/b and 3/4",
    "```\n[a](C:\\x)\n```", "[a] and (b)", "[ ] open, [x] done", "<https://example.org>", "a < b > c", "</div>",
    "[r]: https://example.org\n\n[r]", "[a](javascript:alert(1))", "50 % off ~ 20 $", "\\[a](C:\\x)",
]  # fmt: skip


def cases():
    for place in PLACES:
        for form, text in FORMS.items():
            if " " in place and form in ("pointed reference",):
                continue
            yield pytest.param(text.format(place=place, secret=SECRET), id=f"{form}: {place}")
    for place in AUTOLINKS:
        yield pytest.param(f"before the words <{place}> after", id=f"autolink: {place}")


def job_of(make_job, text):
    notes = f"## 2026-01-05 Begun\n\nHours: design 1\n\n### For the client\n\n{text}\n"
    return make_job(
        "box",
        **{
            "job.toml": 'title = "A box"\nunits = "mm"\n',
            "notes.md": notes,
            "photos__a.jpg": noise(1, (60, 40)),
        },
    )


def read_as_text(name, content):
    """What a person or a program can read in a file of the handover."""
    if name.endswith(".pdf"):
        reader = pypdf.PdfReader(io.BytesIO(content))
        links = [str(note.get_object()) for page in reader.pages for note in page.get("/Annots", ())]
        return "".join("".join(page.extract_text() for page in reader.pages).split()) + "".join(links)
    return content.decode("utf-8", "replace")


@pytest.mark.parametrize("text", list(cases()))
def test_nothing_of_it_is_left(text):
    """By the pages' own renderer, whatever the form: the words stay, the place does not."""
    left, found = without_local_links(text.split("\n\n## ")[0], "notes.md")
    if "## 2026" not in text:
        assert found
    html = str(prose(left, {"photos/a.jpg": Picture("0", "", 1, 1, "")}, lambda picture: ""))
    assert SECRET not in html
    assert re.search(r"before.*the\s.*words.*after", re.sub(r"<[^>]*>", "", html), re.DOTALL)


@pytest.mark.parametrize("form", sorted(FORMS))
@pytest.mark.parametrize("place", [PLACES[0], PLACES[7], PLACES[10], PLACES[12], PLACES[15], PLACES[20]])
def test_the_files_that_are_written(make_job, tmp_path, form, place):
    folder = job_of(make_job, FORMS[form].format(place=place, secret="a picture"))
    (job,) = bind(folder, tmp_path / "book").jobs
    assert job.bound, (job.fault, list(map(str, job.problems)))
    texts = {
        name: read_as_text(name, content)
        for name, content in every_file(tmp_path / "book" / "handover").items()
        if not name.endswith(".jpg")
    }
    assert [name for name, text in texts.items() if SECRET in text] == []
    for name in ("box/index.html", "box/care-booklet.pdf"):
        assert "before" in texts[name]
        assert "after" in texts[name]
    lines = (folder / "notes.md").read_text().split("\n")
    told = [problem for problem in job.problems if problem.file == "notes.md" and SECRET in problem.message]
    is_no_definition = form == "reference elsewhere" and " " in place  # so nothing of it is in the passage
    assert bool(told) != is_no_definition
    for problem in told:
        part = lines[problem.line - 1]
        assert SECRET in part or "[the" in part


def test_the_log_keeps_what_the_maker_wrote(make_job, tmp_path):
    folder = job_of(make_job, f"[the words](C:\\Users\\{SECRET}\\plan.pdf)")
    bind(folder, tmp_path / "book")
    assert SECRET in (tmp_path / "book" / "jobs" / "box" / "index.html").read_text("utf-8")


def test_it_is_told_once_where_it_stands_and_what_to_do(make_job, tmp_path):
    text = "Hours: design 1\n\n<!-- [a](C:\\hidden) -->\n\nSee [the plan](C:\\plan.pdf).\n\nAnd [the plan](C:\\plan.pdf)."
    (job,) = bind(job_of(make_job, text), tmp_path / "book").jobs
    said = "“C:\\plan.pdf” is a place on one computer, so this link is left out of what the client reads."
    hint = "Give the address of a web page, or delete the link."
    assert [str(problem) for problem in job.problems if "one computer" in problem.message] == [
        f"notes.md, lines 11, 13: {said} {hint}",
    ]


def test_a_picture_is_told_as_a_picture_and_once(make_job, tmp_path):
    text = "words\n\n![a](C:\\My Pictures\\a.jpg)\n\n![b](/home/b.jpg)"
    (job,) = bind(job_of(make_job, text), tmp_path / "book").jobs
    assert [str(problem).split(" Put")[0] for problem in job.problems if problem.file == "notes.md"] == [
        "notes.md, line 9: “C:\\My Pictures\\a.jpg” is a place on one computer.",
        "notes.md, line 11: “/home/b.jpg” is a place on one computer.",
    ]


def test_a_passage_of_nothing_else_is_none(make_job, tmp_path):
    (job,) = bind(job_of(make_job, "[C:\\plan.pdf](C:\\plan.pdf)"), tmp_path / "book").jobs
    assert any("nothing for the client" in problem.message for problem in job.problems)


def test_what_closes_up_is_no_comment_that_leaves():
    from buildbook.job.notes.entries import Known, read_notes
    from buildbook.problems import Problems

    text = f"## 2026-01-05\n\n### For the client\n\nshown <!<C:\\a>-- {SECRET} --> on\n"
    (entry,) = read_notes([("notes.md", text.encode())], Known(None, (), ()), Problems())
    assert SECRET not in entry.for_client[0].markdown


@pytest.mark.parametrize("text", HARMLESS)
def test_what_is_no_local_link_stays_to_the_byte(text):
    assert without_local_links(text, "notes.md") == (text, ())


@pytest.mark.parametrize(
    ("reference", "note", "local"),
    [
        ("../photos/a.jpg", "notes/2026-01-05.md", False),
        ("../photos/a.jpg", "notes.md", True),
        ("../../a.jpg", "notes/2026-01-05.md", True),
        ("..", "notes.md", True),
        ("...", "notes.md", False),
        ("..a/b", "notes.md", False),
        ("a:b", "notes.md", True),
        ("ab:c", "notes.md", False),
    ],
)
def test_where_a_relative_path_leads(reference, note, local):
    assert is_local(reference, note) is local


@given(
    st.lists(
        st.sampled_from(
            [*"[]()!<>`\\*_|~ \n", "file:///q", "C:\\q", "[r]", "[r]: C:\\q", "\n\n", "> ", "- ", "x"]
        ),
        max_size=30,
    ).map("".join)
)
def test_any_mixture_comes_to_an_end_and_no_link_is_local(text):
    left, _ = without_local_links(text, "notes.md")
    again, found = without_local_links(left, "notes.md")
    assert (again, found) == (left, ())
    for href in re.findall(r'href="([^"]*)"', str(prose(left, {}, lambda picture: ""))):
        assert not is_local(href, "notes.md")
