"""Real programs killed at moments of chance; `python -m tests.bench.kills 200` kills more of them."""

import random

import pytest

from tests.book.kills import Kills, figures
from tests.book.trials import made_scene, place_in_memory

COUNT = 3


@pytest.mark.parametrize("processes", [1, 2])
def test_a_binding_killed_at_any_moment_leaves_whole_editions_and_the_next_a_fresh_book(processes):
    with place_in_memory() as place:
        found = list(Kills(made_scene(place), place, processes, random.Random(processes)).each(COUNT))
    assert not any(kill.wrong for kill in found), figures(found)
