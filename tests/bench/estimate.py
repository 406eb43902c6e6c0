"""What an estimate costs, in seconds of processor: of a shelf that is bound, with its start, its pages and its print.

Run as `python -m tests.bench.estimate [JOBS …]`. Shelves of 200, 800 and 2,000 jobs are made by tests/make_shelf.py and
bound first, which takes minutes; the enquiry is a job of another shelf without its days. Beside it stand, of shops of as
many jobs of ten stages, a third of them sets in the second, the quotes of past jobs alone (`hours/backtest.py`).
"""

import random
import re
import sys
import tempfile
import time
from pathlib import Path

from buildbook.estimate.hours.backtest import backtest_of, quotes
from tests.bench.engine import BIND, best
from tests.estimate.hours.test_learning import sets_of
from tests.estimate.shops import make
from tests.make_shelf import made_jobs, write_shelf

JOBS = (200, 800, 2000)
WORDS = (100, 300)  # of the notes: no estimate reads them
RATE = 0.85
DAYS = re.compile(r"^(begun|delivered) = .*\n", re.MULTILINE)


def write_enquiry(folder: Path) -> Path:
    """A piece that is asked for: a job without notes and days."""
    made = next(made_jobs(1, seed=2, words=WORDS))
    folder.mkdir(parents=True)
    (folder / "job.toml").write_text(DAYS.sub("", made.files["job.toml"]), "utf-8")
    (folder / "parts.csv").write_text(made.files["parts.csv"], "utf-8")
    return folder


def quoting_s(past: list) -> float:
    begun = time.process_time()
    backtest_of(quotes(past))
    return time.process_time() - begun


def main(counts: tuple[int, ...]) -> None:
    print("jobs   estimate   quotes alone: single pieces   with sets")
    for count in counts:
        with tempfile.TemporaryDirectory() as place:
            shelf, book = Path(place) / "shelf", Path(place) / "shelf" / "book"
            write_shelf(shelf, made_jobs(count, words=WORDS))
            for _ in range(2):  # the second notes what the first could not be sure of
                best(*BIND, shelf, "--to", book, times=1)
            asked = ("-m", "buildbook", "estimate", write_enquiry(Path(place) / "asked"), "--from", shelf)
            cost = best(*asked, "--to", Path(place) / "out", "--on", "2026-11-27")
        jobs = make(count, 0)
        alone, sets = quoting_s(jobs), quoting_s(sets_of(jobs, RATE, random.Random(0)))
        print(f"{count:5} {cost.processor:8.2f} s {alone:26.2f} s {sets:9.2f} s", flush=True)


if __name__ == "__main__":
    main(tuple(map(int, sys.argv[1:])) or JOBS)
