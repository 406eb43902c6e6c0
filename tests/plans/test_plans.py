"""Each line of a plan comes from where its list says."""

import re

import pytest

from tests.plans.needed import JOBS, STATES, log_text, plan, source


@pytest.mark.parametrize("piece", JOBS)
def test_each_line_comes_from_where_its_list_says(piece, tmp_path):
    text = log_text(JOBS[piece], tmp_path / "book")
    lines = plan(piece)
    said = {line.needed: line.source for line in lines}
    assert {line.needed: source(line, text) for line in lines} == said


@pytest.mark.parametrize("piece", JOBS)
def test_a_list_is_whole(piece):
    lines = plan(piece)
    assert len({line.needed for line in lines}) == len(lines)
    for line in lines:
        re.compile(line.found)
        assert {line.source, line.before} <= set(STATES), line
        assert bool(line.quoted) == (line.source == "inferred"), line
        assert bool(line.how) == ("inferred" in (line.source, line.before)), line


def test_the_sample_can_be_made_again_from_its_log():
    """All but a picture of the back, which nobody took."""
    missing = [line.needed for line in plan("sideboard") if line.source != "log"]
    assert missing == ["back or underside"]
