"""What binding costs, each figure beside its floor in the same run, best of several. Everything in processes of its own.

`python -m tests.bench.engine [JOBS] [PHOTOS] [LARGE]` makes a shelf of so many jobs with so many small photos each, and
a job with so many photos of 12 megapixels, and prints seconds of clock and of processor, and these ratios:

unchanged     to a walk of shelf and book with stat and the start of an interpreter with the same imports
one note      seconds more than unchanged
cold photos   to a loop around Pillow that does nothing else, on the same cores
cold jobs     to one job's own work divided by the cores; the exponent by which time grows with the jobs; peak memory
start         `--help` and `find` to the bare interpreter
"""

import io
import math
import os
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import NamedTuple

from PIL import Image

from buildbook.book.workers import cores
from buildbook.render.copies import LONG_EDGES, SMALL_EDGE
from tests.make_shelf import made_jobs, write_shelf

TIMES = 3
FEW_JOBS = 100
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
IMPORTS = "import buildbook.cli.commands.bind, buildbook.book.past.top"
BIND = ("-m", "buildbook", "bind", "--quiet")
ALONE = """
import sys, time
from pathlib import Path
from buildbook.book.bind import bind
shelf, book = map(Path, sys.argv[1:])
bind(shelf, book)
begun = time.process_time()
bind(shelf, book, again=True)
print(time.process_time() - begun)
"""
PILLOW = (
    "import sys; from pathlib import Path; from tests.bench.engine import pillow; pillow(Path(sys.argv[1]))"
)


class Cost(NamedTuple):
    """Seconds, and the peak memory of the largest process in bytes."""

    clock: float
    processor: float
    memory: int = 0

    def __str__(self) -> str:
        return f"{self.clock:8.3f} s clock {self.processor:8.3f} s processor"


def cost_of(*arguments: object) -> Cost:
    """One run of Python with these arguments, its children included."""
    begun = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, *map(str, arguments)], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0, arguments
    return Cost(time.perf_counter() - begun, used.ru_utime + used.ru_stime, used.ru_maxrss * 1024)


def best(*arguments: object, times: int = TIMES) -> Cost:
    return min(cost_of(*arguments) for _ in range(times))


def say(name: str, cost: Cost, more: str = "") -> None:
    print(f"{name:18} {cost}   {more}", flush=True)


def add_photos(shelf: Path, count: int) -> None:
    for number, job in enumerate(sorted(path for path in shelf.iterdir() if path.is_dir())):
        (job / "photos").mkdir()
        for photo in range(count):
            colour = (number % 256, photo % 256, (number // 256) % 256)
            Image.new("RGB", (48, 36), colour).save(job / "photos" / f"IMG_{photo:04}.jpg")


def write_large_photos(folder: Path, count: int) -> None:
    """Pictures of 12 megapixels with as much in them as a photo has, each another one."""
    folder.mkdir(parents=True)
    noise = Image.effect_noise((4032 // 4, 3024 // 4), 60).resize((4032, 3024), Image.Resampling.BICUBIC)
    base = Image.merge("RGB", (noise, noise.rotate(180), noise.transpose(Image.Transpose.FLIP_LEFT_RIGHT)))
    for number in range(count):
        base.paste((number % 256, 99, 99), (0, 0, 64, 64))
        base.save(folder / f"IMG_{number:04}.jpg", quality=90)


def pillow(folder: Path) -> None:
    """The tightest loop: each photo decoded once at half its size, shrunk step by step, saved."""

    def shrink(path: Path) -> int:
        made = 0
        with Image.open(path) as picture:
            edge = LONG_EDGES[0]
            picture.draft("RGB", (edge, round(edge * picture.height / picture.width)))
            small = picture.convert("RGB")
        for edge in (*LONG_EDGES, SMALL_EDGE):
            size = (edge, round(edge * small.height / small.width))
            if small.size != size:
                small = small.resize(size, Image.Resampling.LANCZOS, reducing_gap=2.0)
            out = io.BytesIO()
            small.save(out, "JPEG", quality=80, progressive=True, optimize=True)
            made += len(out.getvalue())
        return made

    with ThreadPoolExecutor(cores()) as pool:
        assert sum(pool.map(shrink, sorted(folder.iterdir())))


def unchanged_and_one_note(shelf: Path, book: Path) -> None:
    cost_of(*BIND, shelf, "--to", book)  # what was too fresh to trust is read once
    files = sum(len(names) for top in (shelf, book) for _, _, names in os.walk(top))
    walk, imports, nothing = best("-c", WALK, shelf, book), best("-c", IMPORTS), best("-c", "")
    floor = Cost(
        walk.clock - nothing.clock + imports.clock, walk.processor - nothing.processor + imports.processor
    )
    say(
        "floor",
        floor,
        f"walk of {files:,} files {walk.clock - nothing.clock:.3f}, imports {imports.clock:.3f}",
    )
    unchanged = best(*BIND, shelf, "--to", book)
    say("unchanged", unchanged, f"{unchanged.clock / floor.clock:.2f} × the floor (goal 2)")
    changed = min(after_a_note(shelf, book, number) for number in range(TIMES))
    say("one note", changed, f"{changed.clock - unchanged.clock:.2f} s more than unchanged (goal 1)")


def after_a_note(shelf: Path, book: Path, number: int) -> Cost:
    with next(path for path in sorted(shelf.glob("*/notes.md"))).open("a") as note:
        note.write(f"\nOne more line, the {number}th.\n")
    return cost_of(*BIND, shelf, "--to", book)


def cold_photos(place: Path, count: int) -> None:
    write_shelf(place / "large", made_jobs(1))
    (job,) = (path for path in (place / "large").iterdir() if path.is_dir())
    write_large_photos(job / "photos", count)
    floor = best("-c", PILLOW, job / "photos", times=2)
    say("Pillow alone", floor, f"{count / floor.clock:.1f} photos of 12 megapixels a second")
    without = best(*BIND, "--again", place / "large", "--to", place / "kept", times=1)
    again = best(*BIND, "--again", place / "large", "--to", place / "kept", times=2)
    del without
    say("cold photos", again, f"{again.clock / floor.clock:.2f} × Pillow (goal 1.10), a job's pages included")


def cold_jobs(place: Path, many: Path, book: Path, jobs: int) -> None:
    few = place / "few"
    write_shelf(few, made_jobs(FEW_JOBS))
    some = cost_of(*BIND, few, "--to", place / "few-book")
    own = own_work(few, place / "own-book")
    say(f"cold, {FEW_JOBS} jobs", some)
    every = cost_of(*BIND, many, "--to", book)
    ideal = own / FEW_JOBS * jobs / cores()
    exponent = math.log(every.clock / some.clock) / math.log(jobs / FEW_JOBS)
    say(
        f"cold, {jobs} jobs",
        every,
        f"{every.clock / ideal:.2f} × a job's own work on {cores()} cores (goal 1.15)",
    )
    print(f"growth             exponent {exponent:.3f} (goal 1.05); memory of the largest process {every.memory / 2**20:.0f} "
          f"MB against {some.memory / 2**20:.0f}: {every.memory / some.memory:.2f} × (goal 1.5)", flush=True)  # fmt: skip


def own_work(shelf: Path, book: Path) -> float:
    """Seconds of processor to bind a shelf in one process that is warm."""
    done = subprocess.run(
        [sys.executable, "-c", ALONE, shelf, book], capture_output=True, text=True, check=True
    )
    return float(done.stdout)


def start(book: Path) -> None:
    nothing = best("-c", "", times=5)
    for name, goal, arguments in (
        ("--help", 2.5, ["--help"]),
        ("find", 8.0, ["find", "walnut", "glass", "--in", book]),
    ):
        cost = best("-m", "buildbook", *arguments, times=5)
        say(
            name,
            cost,
            f"{cost.clock / nothing.clock:.1f} × the interpreter, {nothing.clock:.3f} s (goal {goal})",
        )


def main(jobs: int, photos: int, large: int) -> None:
    print(f"{cores()} cores, load {os.getloadavg()[0]:.1f}, {jobs} jobs with {photos} photos each")
    with tempfile.TemporaryDirectory(prefix="engine-") as folder:
        place = Path(folder)
        write_shelf(place / "shelf", made_jobs(jobs))
        cold_jobs(place, place / "shelf", place / "book", jobs)
        add_photos(place / "shelf", photos)
        cost_of(*BIND, place / "shelf", "--to", place / "book")
        unchanged_and_one_note(place / "shelf", place / "book")
        start(place / "book")
        cold_photos(place, large)


if __name__ == "__main__":
    main(*(int(text) for text in (sys.argv[1:] + ["2000", "26", "200"][len(sys.argv) - 1 :])))
