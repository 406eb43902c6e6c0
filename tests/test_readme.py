"""The README is short and true: its commands are those that there are, its examples bind, its words are counted."""

import re
import shutil

import pytest

from buildbook.book.bind import bind
from buildbook.cli.parser import parser
from buildbook.job.keys_page import PAGE, keys_page
from tests.conftest import ROOT, noise

README = ROOT / "README.md"
MOST_WORDS = 2000


@pytest.fixture(scope="module")
def text():
    return README.read_text("utf-8")


FENCED = re.compile(r"^```(\w*)\n(.*?)^```$", re.DOTALL | re.MULTILINE)


def blocks(text, language):
    return [block[2] for block in FENCED.finditer(text) if block[1] == language]


def test_it_is_read_in_ten_minutes(text):
    assert len(text.split()) <= MOST_WORDS


def test_it_opens_with_one_paragraph_that_states_the_job(text):
    paragraphs = text.split("\n\n")
    assert paragraphs[0] == "# buildbook"
    for word in ("care-and-provenance page", "build log", "commissioned piece"):
        assert word in paragraphs[1]


def test_set_up_commands_are_one_line_each(text):
    first, second, *_ = blocks(text, "sh")
    assert first.count("\n") == second.count("\n") == 1
    assert "bind sample_job" in first
    assert "pytest" in second


def test_every_command_is_shown_and_can_be_typed(text):
    top = parser()
    there = set(top._subparsers._group_actions[0].choices)
    typed = [line.split("#")[0].split() for line in blocks(text, "sh")[2].splitlines()]
    assert {words[1] for words in typed} == there
    for words in typed:
        assert words[0] == "buildbook"
        top.parse_args(words[1:])


def test_what_it_links_to_is_there(text):
    for place in re.findall(r"\]\(([^)#]+)\)", FENCED.sub("", text)):
        assert (ROOT / place).is_file(), place


def test_its_examples_make_a_job_that_binds_without_a_word(text, tmp_path):
    job = tmp_path / "shelf" / "2026-014-record-cabinet"
    (job / "photos").mkdir(parents=True)
    (parts,) = [block for block in blocks(text, "") if block.startswith("part,")]
    (job / "job.toml").write_text(*blocks(text, "toml"))
    (job / "parts.csv").write_text(parts)
    (job / "notes.md").write_text(*blocks(text, "markdown"))
    for number, name in enumerate(("front", "20260302_102233")):
        (job / "photos" / f"{name}.jpg").write_bytes(noise(number))
    shutil.copy(ROOT / "sample_job" / "shop.toml", job.parent)
    bound = bind(job.parent, tmp_path / "book")
    assert [str(problem) for problem in (*bound.problems, *bound.jobs[0].problems)] == []
    assert bound.ok
    page = (tmp_path / "book" / "handover" / job.name / "index.html").read_text("utf-8")
    for said in ("Record cabinet", "Black walnut", "clear satin hardwax oil", "dovetailed by hand"):
        assert said in page


def test_the_list_of_keys_is_that_of_the_tables():
    """`python -m buildbook.job.keys_page` writes it again."""
    assert PAGE.read_text("utf-8") == keys_page()
