"""A power cut at any moment: what the disk was not made to keep is gone, or is not.

Each folder of a job is then that of one edition, whole; nothing of the maker's is lost; no record claims what is not
there; and the next binding makes a fresh book. What was said to be bound is on the disk.
"""

import random
import shutil

import pytest

from buildbook.book.bind import bind
from buildbook.book.lock import OWN
from buildbook.book.redo.made import read_made
from buildbook.book.sealed.pack import pack
from tests.book.faults import LESS, Disk, watched
from tests.book.power import Kept, laid
from tests.book.trials import (
    JOBS,
    THEIRS,
    Attempt,
    below,
    differing,
    files_of,
    made_scene,
    pages_made_quickly,
    place_in_memory,
    visible,
)
from tests.conftest import every_file

CHANCES = 3  # of what a power cut leaves at one moment
BOUND_AGAIN = 6  # states after which it is bound again


@pytest.fixture(scope="module")
def scene():
    with pages_made_quickly(), place_in_memory() as place:
        yield made_scene(place)


@pytest.fixture
def place():
    with place_in_memory() as place:
        yield place


def states(scene, place, edition, before=lambda one: None):
    """What may be left of a book at each moment of a binding, each state once, by name; and what is left of it when the
    binding is done and nothing more was waited for.
    """
    attempt = Attempt(scene, place, edition)
    kept = Kept(place)
    chance = random.Random(1)
    found, lies = {}, []

    def after(one):
        if not one.changes:
            return
        kept(one)
        for left in (
            kept.in_order(),
            kept.only_what_was_synced(),
            *(kept.by_chance(chance) for _ in range(CHANCES)),
        ):
            book = below_book(left)
            found.setdefault(frozenset(book.items()), (one.number, one.name, one.paths[0]))
        lies.extend(false_claims(kept, place))

    outcome = attempt.run(before, after)
    assert outcome.code == 0, outcome.said
    assert lies == []
    return {where: dict(items) for items, where in found.items()}, below_book(kept.only_what_was_synced())


def below_book(files):
    return {
        name.removeprefix("book/"): content for name, content in files.items() if name.startswith("book/")
    }


def false_claims(kept, place):
    """Files that a record says were made, and whose content a power cut could take without a change of size or time."""
    files = kept.files()
    for name in list(files):
        if f"{OWN}/made/" in name and ".laying-" not in name and (made := read_made(place / name)):
            for one in made.outputs:
                file = files.get(f"book/{one.name}")
                if file is not None and file.now != file.safe:
                    yield name, one.name


def wrong(scene, edition, left):
    found = visible(left)
    old = every_file(scene.old) if edition else {}
    new = {n: c for n, c in every_file(scene.new).items() if edition or n not in THEIRS}
    if edition:
        yield from (f"{name} is lost" for name in THEIRS if found.get(name) != THEIRS[name])
    for job in JOBS:
        for part in (f"jobs/{job}/", f"handover/{job}/"):
            if below(found, part) not in (below(old, part), below(new, part)):
                yield f"{part} is of no edition: {differing(below(found, part), below(new, part))}"
    for name, content in found.items():
        if "/" not in name and content not in scene.tops.get(name, ()):
            yield f"{name} is of no edition"


def wrong_in_the_next(scene, edition, left, place):
    """After the next binding: the shelf is as it was, the book what is left."""
    laid(left, place / "book")
    shutil.copytree(scene.shelf, place / "shelf")
    bound = bind(place / "shelf", place / "book")
    if not bound.ok:
        yield str(bound)
    new = {n: c for n, c in every_file(scene.new).items() if edition or n not in THEIRS}
    yield from differing(files_of(place / "book"), new)


@pytest.mark.parametrize("less", [None, "no links", "folders are not exchanged"])
@pytest.mark.parametrize("edition", ["old", ""])
def test_a_power_cut_leaves_whole_editions_and_the_next_binding_a_fresh_book(scene, place, edition, less):
    (place / "run").mkdir()
    every, last = states(scene, place / "run", edition, LESS[less] if less else lambda one: None)
    found = {where: list(wrong(scene, edition, left)) for where, left in every.items()}
    assert {where: said for where, said in found.items() if said} == {}
    new = {n: c for n, c in every_file(scene.new).items() if edition or n not in THEIRS}
    last = {name: content for name, content in last.items() if not name.startswith(f"{OWN}/made/")}
    assert differing(visible(last), new) == [], "what was said to be bound is not on the disk"
    step = max(1, len(every) // BOUND_AGAIN)
    for number, (where, left) in enumerate(list(every.items())[::step]):
        here = place / f"{number}"
        assert list(wrong_in_the_next(scene, edition, left, here)) == [], where
        shutil.rmtree(here)


def test_what_was_packed_is_on_the_disk(scene, place):
    kept = Kept(place)
    with watched(Disk(place, after=kept)):
        packed = pack(scene.shelf / "a", place / "out", lambda *_: None)
    assert packed.ok
    left = kept.only_what_was_synced()
    assert left == {f"out/{path.name}": path.read_bytes() for path in (packed.archive, packed.single)}
