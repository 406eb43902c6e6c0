"""Whole jobs, unlike one another, and the client's page of each as text that a person can read from end to end.

The jobs lie in tests/jobs, a shelf a shop. `<shelf>/<job>.txt` is what a reader reads of the page; `marks.toml` says
what a client, a conservator and a safety officer found to be needed in it, and what must not stand there.
`python -m tests.care.pages` writes the texts anew.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

from buildbook.book.bind_job import pages_of
from buildbook.book.themes import theme_of
from buildbook.care import choose
from buildbook.job import find_jobs, read_job
from buildbook.job.model import Job
from buildbook.summary import summarise
from buildbook.words import Words

HERE = Path(__file__).resolve().parent
JOBS = HERE.parent.parent / "jobs"
SHELVES = ("alder-yard", "holzapfel", "quarry-street")
UNREAD = {"style", "script", "svg", "nav", "head", "template"}
HEADINGS = {f"h{depth}": "#" * depth + " " for depth in range(1, 7)}
BLOCKS = {
    "p",
    "li",
    "dt",
    "dd",
    "tr",
    "figcaption",
    "caption",
    "summary",
    "div",
    "section",
    "header",
    "footer",
}
VOID = {"br", "img", "hr", "input", "link", "meta", "source", "wbr", "col"}


@cache
def jobs() -> Mapping[str, Job]:
    """Each job by shelf and folder: `alder-yard/cot`."""
    return {f"{shelf}/{path.name}": read_job(path) for shelf in SHELVES for path in find_jobs(JOBS / shelf)}


@cache
def page_text(name: str) -> str:
    """What a reader reads of a job's page: headings with their depth, a line for each line, a table row on one."""
    job = jobs()[name]
    piece, *_ = pages_of(job)
    reader = _Reader()
    reader.feed(theme_of(job.shop, None).client_page(piece))
    return reader.text()


@cache
def advice_text(name: str) -> str:
    """The instructions of a page alone, in its language: not what the maker wrote, and not the figures."""
    job = jobs()[name]
    items = choose(job, summarise(job), Words(job.shop.language))
    told = (f"{i.title}. {i.text} {i.why} {i.short}" for i in items if i.for_client)
    return "\n".join(" ".join(text.split()) for text in told)


@cache
def maker_text(name: str) -> str:
    """What the maker is told besides: the instructions of the build log, and what proof says of the files."""
    job = jobs()[name]
    items = choose(job, summarise(job), Words("en"))
    told = [f"{item.title}. {item.text} {item.why}" for item in items if item.audience != "client"]
    return "\n".join([*told, *map(str, job.problems)])


def golden(name: str) -> Path:
    """Where the text of a page lies."""
    return HERE / f"{name}.txt"


class _Reader(HTMLParser):
    """The words of a page as they are read, a block a line."""

    def __init__(self) -> None:
        super().__init__()
        self._lines: list[str] = []
        self._now: list[str] = []
        self._unread = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in VOID:
            return
        if self._unread or tag in UNREAD:
            self._unread += 1
        elif tag in HEADINGS:
            self._end()
            self._lines.append("")
            self._now.append(HEADINGS[tag])
        elif tag in BLOCKS:
            self._end()
            self._now.append("- " if tag == "li" else "    " if tag == "dd" else "")
        elif tag in ("td", "th"):
            self._now.append(" | ")

    def handle_endtag(self, tag: str) -> None:
        if self._unread:
            self._unread -= 1
        elif tag in BLOCKS or tag in HEADINGS:
            self._end()

    def handle_data(self, data: str) -> None:
        if not self._unread:
            self._now.append(data)

    def _end(self) -> None:
        line = "".join(self._now)
        indent = "    " if line.startswith("    ") else ""
        words = " ".join(line.split()).removeprefix("| ")
        if words and words != "-":
            self._lines.append(indent + words)
        self._now = []

    def text(self) -> str:
        self._end()
        return "\n".join(self._lines).strip() + "\n"
