"""Whatever file operation fails, or is the last before the program is killed: what is wrong is told with what to do, the
pages of each job are those of one edition, nothing of the maker's is touched, and the next binding makes a fresh book.

One of each kind of operation in each folder is tried; `python -m tests.bench.faults` tries every one with every fault.
"""

import errno
from itertools import cycle

import pytest

from tests.book.faults import FAULTS, LESS, NOT_READ, Killed, failing, killed
from tests.book.trials import Attempt, made_scene, pages_made_quickly, place_in_memory

OF_LOOKS, OF_KILLS = 3, 2  # one of so many kinds is tried


@pytest.fixture(scope="module")
def scene():
    with pages_made_quickly(), place_in_memory() as place:
        yield made_scene(place)


@pytest.fixture
def place():
    with place_in_memory() as place:
        yield place


def without_fault(scene, place, edition="old", before=lambda one: None):
    """An attempt at which nothing fails, and what it did."""
    (place / "whole").mkdir()
    attempt = Attempt(scene, place / "whole", edition)
    outcome = attempt.run(before)
    assert outcome.code == 0, outcome.said
    assert attempt.wrong(outcome) == []
    return outcome, list(dict.fromkeys((attempt.kind(one), one.changes) for one in outcome.seen))


def tried(scene, place, edition, kind, make, *, dies=False):
    """What is not as it must be after the first operation of a kind went wrong."""
    place.mkdir()
    attempt = Attempt(scene, place, edition)
    outcome = attempt.run(make(lambda one: attempt.kind(one) == kind))
    return attempt.wrong(outcome, killed=dies)


@pytest.mark.parametrize("edition", ["old", ""])
def test_each_change_of_the_disk_may_fail(scene, place, edition):
    _, kinds = without_fault(scene, place, edition)
    wrong = {}
    for count, ((kind, _), number) in enumerate(zip((k for k in kinds if k[1]), cycle(FAULTS), strict=False)):
        if edition or not count % 3:
            found = tried(
                scene, place / f"{count}", edition, kind, lambda is_it, n=number: failing(1, n, is_it)
            )
            if found:
                wrong[kind, errno.errorcode[number]] = found
    assert wrong == {}


@pytest.mark.parametrize("where", ["shelf", "book"])
def test_each_look_at_the_disk_may_fail(scene, place, where):
    _, kinds = without_fault(scene, place)
    faults = NOT_READ if where == "shelf" else (*NOT_READ, errno.EACCES)
    looks = [kind for kind, changes in kinds if not changes and f"{kind[1]}/".startswith((where, "/"))]
    wrong = {}
    for count, (kind, number) in enumerate(zip(looks[::OF_LOOKS], cycle(faults), strict=False)):
        found = tried(scene, place / f"{count}", "old", kind, lambda is_it, n=number: failing(1, n, is_it))
        if found:
            wrong[kind, errno.errorcode[number]] = found
    assert wrong == {}


def test_it_may_be_killed_before_each_change(scene, place):
    _, kinds = without_fault(scene, place)
    wrong = {}
    for count, kind in enumerate([kind for kind, changes in kinds if changes][::OF_KILLS]):
        if found := tried(scene, place / f"{count}", "old", kind, lambda is_it: killed(1, is_it), dies=True):
            wrong[kind] = found
    assert wrong == {}


# -- disks that can less -----------------------------------------------------------------------------


@pytest.mark.parametrize("less", LESS)
@pytest.mark.parametrize("edition", ["old", ""])
def test_a_disk_that_can_less_holds_the_same_book(scene, place, less, edition):
    without_fault(scene, place, edition, LESS[less])


@pytest.mark.parametrize("dies", [False, True])
def test_where_folders_are_not_exchanged_each_step_of_the_two_renames_may_fail(scene, place, dies):
    less = LESS["folders are not exchanged"]
    outcome, _ = without_fault(scene, place, "old", less)
    renames = sum(one.name in ("rename", "exchange") for one in outcome.seen)
    assert renames == 2 * 4
    wrong = {}
    for step in range(1, renames + 1):
        (place / f"{step}").mkdir()
        attempt = Attempt(scene, place / f"{step}")
        is_it = lambda one: one.name in ("rename", "exchange")  # noqa: E731
        fails = killed(step, is_it) if dies else failing(step, errno.EIO, is_it)

        def before(one, fails=fails):
            fails(one)
            less(one)

        if found := attempt.wrong(attempt.run(before), killed=dies):
            wrong[step] = found
    assert wrong == {}


# -- the trials themselves ---------------------------------------------------------------------------


def test_a_trial_sees_what_is_wrong(scene, place):
    """Each thing that must hold, broken by hand after a binding that went well."""
    harms = {
        "half a page": lambda a: (a.book / "jobs" / "a" / "index.html").write_text("half"),
        "a log of another edition": lambda a: swap_in(a, "jobs/a"),
        "a page that the seal does not know": lambda a: (a.book / "handover" / "b" / "care.ics").write_text(
            "x"
        ),
        "a file of the maker's": lambda a: (a.book / "handover" / "a" / "scans" / "1.png").unlink(),
        "the shelf": lambda a: (a.shelf / "a" / "notes.md").touch(),
        "half a list": lambda a: (a.book / "index.html").write_text("half"),
    }
    for number, (name, harm) in enumerate(harms.items()):
        (place / f"{number}").mkdir()
        attempt = Attempt(scene, place / f"{number}")
        outcome = attempt.run(lambda one: None)
        harm(attempt)
        assert list(attempt.wrong_in_the_book(outcome, killed=False)), name


def swap_in(attempt, name):
    """The old edition of a folder, in the place of the new one."""
    for path in (attempt.scene.old / name).rglob("*"):
        if path.is_file():
            (attempt.book / name / path.relative_to(attempt.scene.old / name)).write_bytes(path.read_bytes())


def test_an_operation_that_fails_or_kills_does_so_once_and_for_all():
    class One:
        name, paths = "write", ("x",)

    fails, dies = failing(2, errno.EIO, lambda one: True), killed(2, lambda one: True)
    fails(One)
    with pytest.raises(OSError, match="Input/output"):
        fails(One)
    fails(One)
    dies(One)
    for _ in range(2):
        with pytest.raises(Killed):
            dies(One)
