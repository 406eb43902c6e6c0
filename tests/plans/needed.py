"""What a maker needs to make the matching piece, held against the text of a log's page.

In: `<piece>.csv`, written from the maker's side before the page was: area, what is needed, a pattern that finds it in
the page's text in small letters, where it comes from today and came from before, how it is inferred and the words of
the page from which it is. Out: what each line is by the page, and the counts.
"""

import csv
import html
import re
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from buildbook.book.bind import bind
from tests.conftest import ROOT, SAMPLE

HERE = Path(__file__).parent
SHELF = ROOT / "tests" / "shelf"
JOBS = {
    "sideboard": SAMPLE,
    "bookcase": SHELF / "2022-006-glazed-bookcase",
    "dresser": SHELF / "2024-003-kitchen-dresser",
    "extending": SHELF / "2025-002-extending-table",
    "chair": SHELF / "2023-017-reading-chair",
}
STATES = ("log", "inferred", "missing")


@dataclass(frozen=True)
class Needed:
    """A line of a plan. `source` and `before` are one of `STATES`; `quoted` is what the page must say for `how`."""

    area: str
    needed: str
    found: str
    source: str
    before: str
    how: str
    quoted: str


def plan(piece: str) -> list[Needed]:
    """The lines of a piece."""
    with (HERE / f"{piece}.csv").open(encoding="utf-8", newline="") as file:
        return [
            Needed(
                row["area"],
                row["needed"],
                row["found"],
                row["from"],
                row["before"],
                row["how"],
                row["quoted"],
            )
            for row in csv.DictReader(file)
        ]


def log_text(job: Path, book: Path) -> str:
    """The words of the log's page, bound into `book`, in small letters."""
    bound = bind(job, book)
    assert bound.ok, [str(problem) for one in bound.jobs for problem in one.problems]
    (page,) = (book / "jobs").glob("*/index.html")
    words = re.sub(r"<(script|style).*?</\1>", " ", page.read_text("utf-8"), flags=re.S)
    words = re.sub(r"</?a\b[^>]*>", "", words)  # a link parts no words
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", words)).casefold().split())


def source(line: Needed, text: str) -> str:
    """Where a line comes from by the page: its own words, or words that it can be inferred from."""
    if re.search(line.found, text):
        return "log"
    return "inferred" if line.quoted and line.quoted in text else "missing"


def counted(states: list[str]) -> str:
    """`74 in the log, 0 inferred, 1 missing`."""
    counts = Counter(states)
    return f"{counts['log']:3} in the log, {counts['inferred']:2} inferred, {counts['missing']:3} missing"
