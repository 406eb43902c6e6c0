"""Problems stand in the log where they belong: below the part's row, at the day, beside the picture; the list at the top
leads there and back. What is asked of the page is asked of its HTML by a parser that knows nothing of the model.
"""

import re
from collections import Counter
from dataclasses import replace
from datetime import date, datetime
from html.parser import HTMLParser
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job.folder import read_job
from buildbook.job.log_model import Picture
from buildbook.job.model import Photo
from buildbook.pages.client.handover import client_piece
from buildbook.pages.log.build_log import build_log
from buildbook.pages.phrases import Phrases
from buildbook.problems import Problem
from buildbook.render.html.theme import load_theme
from buildbook.summary import summarise
from tests.pages.made import entry, part, table

PHOTO = Photo("photos/a.jpg", Path("a.jpg"), 60, 40, datetime(2026, 2, 10, 9), "aa11")
NOTES = (
    replace(entry(date(2026, 2, 10), "Sawing"), line=1, pictures=(Picture("photos/a.jpg", "", False, 3, "photos/a.jpg"),)),
    replace(entry(date(2026, 3, 1), "Fitting"), line=12, pictures=(Picture("photos/a.jpg", "", False, 13, "photos/a.jpg"),)),
    replace(entry(date(2026, 4, 2), "Coats"), file="notes/2026-04-02.md", line=1),
)  # fmt: skip
PARTS = (*table().parts, part(9, "Glue", "supply", ""))


def warned(file, message, **where):
    return Problem("warning", file, f"{message} is odd.", f"Put {message} right.", **where)


WITH_A_PLACE = (  # the problem; the words of the row, the day or the caption at which it must stand
    (warned("parts.csv", "Glasgow", row=3, field="country"), "Legs"),
    (warned("parts.xlsx", "Yonder", row=7), "Hinges"),
    (warned("parts.ods", "Pot", row=9), "Glue"),
    (warned("job.toml", "Order", line=40, field="finish[1].coats"), "2026-04-01, 2026-04-03"),
    (warned("notes.md", "Wibble", line=11), "2026-02-10"),
    (warned("notes.md", "Wobble", line=12), "2026-03-01"),
    (warned("notes/2026-04-02.md", "Sign"), "2026-04-02"),
    (warned("photos/a.jpg", "Twin"), "a.jpg"),
)
WITHOUT = (
    warned("parts.csv", "Missing", row=44),
    warned("parts.csv", "Heading"),
    warned("prices.csv", "Dear", row=3),
    warned("job.toml", "Ruritania", line=4, field="goes_to"),
    warned("job.toml", "Third", field="finish[3].coats"),
    warned("notes.md", "Whole"),
    warned("photos/b.jpg", "Broken"),
    warned("photos", "None"),
)


def page_of(problems, language="en"):
    job = table(problems=tuple(problems), entries=NOTES, photos=(PHOTO,), parts=PARTS)
    job = replace(job, shop=replace(job.shop, language=language))
    log = build_log(job, summarise(job), (), Phrases.of(job), lead=None, wood_colours=("#8a6a42", "#c9a878"))
    return load_theme("plain").log_page(log, "../client.html")


class Page(HTMLParser):
    """The ids of a page with the text that each holds, its links by where they stand, its rows and its text in order."""

    VOID = frozenset({"meta", "link", "img", "br", "input", "hr", "rect", "path", "line", "circle", "source"})

    def __init__(self, page):
        super().__init__()
        self.ids, self.links, self.said = Counter(), [], []
        self.text_of, self._open = {}, []
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        facts = dict(attrs)
        if "id" in facts:
            self.ids[facts["id"]] += 1
        if tag == "a" and "href" in facts:
            inside = [one for _, one in self._open if one]
            self.links.append((inside[-1] if inside else "", facts["href"]))
        if tag not in self.VOID:
            self._open.append((tag, facts.get("id", "")))

    def handle_endtag(self, tag):
        while self._open and self._open.pop()[0] != tag:
            pass

    def handle_data(self, data):
        for _, one in self._open:
            if one:
                self.text_of[one] = self.text_of.get(one, "") + data
        if not any(tag in ("style", "script") for tag, _ in self._open):
            self.said.append(data)

    @property
    def text(self):
        return re.sub(r"\s+", " ", "".join(self.said))


@pytest.mark.parametrize(("problem", "at"), WITH_A_PLACE, ids=lambda one: getattr(one, "message", ""))
def test_it_stands_at_its_place_and_the_list_leads_there_and_back(problem, at):
    page = Page(page_of([problem]))
    assert "right." not in page.text_of["problem-1"]  # what to do is said where it is
    assert problem.message in page.text_of["problem-1"]
    assert problem.hint in page.text_of["problem-1-at"]
    assert ("problem-1", "#problem-1-at") in page.links
    assert ("problem-1-at", "#problem-1") in page.links
    before, _, after = page.text.partition(problem.hint)
    assert not after.count(problem.hint)  # once
    ends = before.rfind(at)
    nearer = [one for _, one in WITH_A_PLACE if one != at and before.rfind(one) > ends]
    assert ends > 0
    assert nearer == [], f"{nearer} stand between {at} and what is wrong with it"


@pytest.mark.parametrize("problem", WITHOUT, ids=lambda one: one.message)
def test_what_has_no_place_stays_in_the_list_whole(problem):
    page = Page(page_of([problem]))
    assert f"{problem.message} {problem.hint}" in page.text_of["problem-1"]
    assert not [where for where, _ in page.links if where.startswith("problem-1")]
    assert "problem-1-at" not in page.ids


@pytest.mark.parametrize(("language", "rows"), [("en", "rows 3, 5 and 7"), ("de", "Zeilen 3, 5 und 7")])
def test_one_cause_of_several_rows_is_said_at_the_first_and_marked_at_the_others(language, rows):
    page = Page(page_of([warned("parts.csv", "Wood", row=3, also=(5, 7), field="finish")], language))
    assert f"parts.csv, {rows}, finish" in page.text_of["problem-1"]
    assert [to for where, to in page.links if where == "problem-1"] == [
        "#problem-1-at",
        "#problem-1-at-2",
        "#problem-1-at-3",
    ]
    assert page.text.count("Put Wood right.") == 1
    assert ("problem-1-at-2", "#problem-1-at") in page.links


def test_a_run_of_rows_is_one_link_and_a_day_is_marked_once():
    run = warned("parts.csv", "Wood", row=2, also=(3, 4, 5), field="finish")
    same_day = warned("notes.md", "Sign", line=2, also=(3, 4, 12))
    page = Page(page_of([run, same_day]))
    assert [to for where, to in page.links if where == "problem-1"] == ["#problem-1-at"]
    assert [to for where, to in page.links if where == "problem-2"] == ["#problem-2-at", "#problem-2-at-2"]
    assert page.text.count("Sign is odd.") == 3  # in the list and at both days


EVERY = [problem for problem, _ in WITH_A_PLACE] + list(WITHOUT)


@given(st.lists(st.sampled_from(EVERY), unique=True), st.sampled_from(["en", "de"]))
def test_whatever_is_wrong_each_is_in_the_list_and_every_link_leads_somewhere(problems, language):
    page = Page(page_of(problems, language))
    assert [one for one, so_many in page.ids.items() if so_many > 1] == []
    assert [to for _, to in page.links if to.startswith("#") and to[1:] not in page.ids] == []
    for number, problem in enumerate(problems, 1):
        assert problem.message in page.text_of[f"problem-{number}"]
        assert page.text.count(problem.hint) == 1


def test_nothing_of_it_is_on_the_client_s_page():
    job = table(problems=tuple(EVERY), entries=NOTES, photos=(PHOTO,), parts=PARTS)
    assert "is odd" not in repr(client_piece(job, summarise(job), (), Phrases.of(job)))


def test_a_tally_of_a_wood_that_the_job_has_not_is_told_at_its_working(tmp_path):
    (tmp_path / "job.toml").write_text(
        'title = "Stool"\nunits = "mm"\n[[worked]]\nkind = "lengths"\nstock = "2.4 m"\npiece = 455\ncount = 4\n\n'
        '[[worked]]\nkind = "tally"\n'
        'title = "The yard’s pile"\nwood = "ash"\nboards = ["27 mm x 180 mm x 3 m"]\n'
    )
    (tmp_path / "parts.csv").write_text(
        "part,qty,kind,material,length,width,thickness\nSeat,1,wood,European oak,400,300,27\n"
    )
    job = read_job(tmp_path)
    problem = next(one for one in job.problems if one.field.startswith("worked"))
    assert (problem.field, problem.line) == ("worked[2].wood", 12)
    log = build_log(job, summarise(job), (), Phrases.of(job), lead=None, wood_colours=("#8a6a42", "#c9a878"))
    below = {
        row[0]: here
        for table in log.tables
        if table.below
        for row, here in zip(table.rows, table.below, strict=True)
    }
    assert [one.where for one in below["The yard’s pile"]] == ["job.toml, line 12, worked[2].wood"]
