"""Lets every file operation of a binding fail, one at a time, and kills the program before each that changes the disk.

`python -m tests.bench.faults [FAULTS]` tries so many of the faults that a system knows at each operation (1: one after the
other in turn; 6: all of them), and prints how many bindings were tried and what was not as it must be after each.
"""

import errno
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.book.faults import FAULTS, NOT_READ, Operation, failing, killed
from tests.book.trials import Attempt, Before, Scene, made_scene, pages_made_quickly, place_in_memory

Wanted = Callable[[Operation], bool]


def attempts(scene: Scene, place: Path, edition: str, faults: int) -> Iterator[tuple[str, list[str]]]:
    """What was tried, in words, and what was wrong after it."""
    kinds: dict[str, tuple[Wanted, tuple[int, ...]]] = {
        "change": (lambda one: one.changes, FAULTS),
        "look": (lambda one: not one.changes, NOT_READ),
    }
    whole = _run(scene, place / "whole", edition, lambda one: None)[0].seen
    for what, (wanted, numbers) in kinds.items():
        for at in range(1, sum(map(wanted, whole)) + 1):
            for number in [numbers[(at + turn) % len(numbers)] for turn in range(min(faults, len(numbers)))]:
                wrong = _run(scene, place / f"{what}{at}-{number}", edition, failing(at, number, wanted))[1]
                yield f"{what} {at}, {errno.errorcode[number]}", wrong
    for at in range(1, sum(one.changes for one in whole) + 1):
        before = killed(at, lambda one: one.changes)
        yield f"kill {at}", _run(scene, place / f"kill{at}", edition, before, dies=True)[1]


def _run(scene: Scene, place: Path, edition: str, before: Before, *, dies: bool = False):
    place.mkdir()
    attempt = Attempt(scene, place, edition)
    outcome = attempt.run(before)
    return outcome, attempt.wrong(outcome, killed=dies)


def main(faults: int) -> int:
    bad = 0
    with pages_made_quickly(), place_in_memory() as place:
        scene = made_scene(place)
        for edition, name in (("old", "an edited job"), ("", "a new book")):
            (place / name).mkdir()
            count = 0
            for what, wrong in attempts(scene, place / name, edition, faults):
                count += 1
                bad += bool(wrong)
                if wrong:
                    print(f"{name}, {what}: {wrong}", flush=True)
            print(f"{name}: {count} bindings, each with one fault or killed", flush=True)
    print(f"{bad} of them left something that must not be")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(*(int(text) for text in (sys.argv[1:] + ["1"][len(sys.argv) - 1 :]))))
