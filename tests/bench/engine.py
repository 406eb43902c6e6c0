"""What a binding costs when nothing, or one note, has changed, beside a bare walk of the tree.

`python -m tests.bench.engine [JOBS] [PHOTOS]` makes a shelf of so many jobs with so many photos each, binds it, and
prints seconds of processor and clock of each step, and their ratio to the floor: a walk of shelf and book with stat,
and the start of an interpreter with the same imports. Best of several, each in a process of its own.
"""

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

from PIL import Image

from tests.make_shelf import made_jobs, write_shelf

TIMES = 3
WALK = """
import os, sys
def walk(folder):
    with os.scandir(folder) as entries:
        for entry in entries:
            entry.stat(follow_symlinks=False)
            if entry.is_dir(follow_symlinks=False):
                walk(entry.path)
for folder in sys.argv[1:]:
    walk(folder)
"""
IMPORTS = "import buildbook.cli.commands.bind"
BIND = ("-m", "buildbook", "bind")


class Cost(NamedTuple):
    """Seconds."""

    processor: float
    clock: float

    def __str__(self) -> str:
        return f"{self.processor:8.3f} s processor {self.clock:8.3f} s clock"


def cost_of(*arguments: object) -> Cost:
    """One run of Python with these arguments."""
    before, begun = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run(
        [sys.executable, *map(str, arguments)],
        check=True,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    clock, after = time.perf_counter() - begun, resource.getrusage(resource.RUSAGE_CHILDREN)
    return Cost(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, clock)


def best(*arguments: object, times: int = TIMES) -> Cost:
    return min(cost_of(*arguments) for _ in range(times))


def add_photos(shelf: Path, count: int) -> None:
    for number, job in enumerate(sorted(path for path in shelf.iterdir() if path.is_dir())):
        (job / "photos").mkdir()
        for photo in range(count):
            colour = (number % 256, photo % 256, (number // 256) % 256)
            Image.new("RGB", (48, 36), colour).save(job / "photos" / f"IMG_{photo:04}.jpg")


def note_of(shelf: Path) -> Path:
    return next(path for path in sorted(shelf.glob("*/notes.md")))


def main(jobs: int, photos: int) -> None:
    with tempfile.TemporaryDirectory(prefix="engine-") as place:
        shelf, book = Path(place, "shelf"), Path(place, "book")
        write_shelf(shelf, made_jobs(jobs))
        add_photos(shelf, photos)
        cold = cost_of(*BIND, shelf, "--to", book)
        files = sum(len(names) for top in (shelf, book) for _, _, names in os.walk(top))
        print(
            f"{jobs} jobs, {files} files in shelf and book, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}"
        )
        print(f"cold                {cold}   {cold.processor / jobs * 1000:.0f} ms of processor a job")
        cost_of(*BIND, shelf, "--to", book)  # what was too fresh to trust is read once
        walk, imports, nothing = best("-c", WALK, shelf, book), best("-c", IMPORTS), best("-c", "")
        floor = Cost(
            walk.processor + imports.processor - nothing.processor, walk.clock + imports.clock - nothing.clock
        )
        unchanged = best(*BIND, shelf, "--to", book)
        print(f"walk                {walk}\nimports             {imports}\nfloor of both       {floor}")
        print(f"unchanged           {unchanged}   {unchanged.processor / floor.processor:.2f} × the floor")
        costs = []
        for number in range(TIMES):
            with note_of(shelf).open("a") as note:
                note.write(f"\nOne more line, the {number}th.\n")
            costs.append(cost_of(*BIND, shelf, "--to", book))
        changed = min(costs)
        print(
            f"one note changed    {changed}   {changed.processor - unchanged.processor:.2f} s more than unchanged"
        )


if __name__ == "__main__":
    main(*(int(text) for text in (sys.argv[1:] + ["200", "4"][len(sys.argv) - 1 :])))
