"""The command line: arguments, exit codes, and the only place that prints.

Exit codes: 0 all well, 1 something in the input is wrong (said on standard error), 2 the command line is wrong.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TaskID, TextColumn
from rich.table import Table
from rich.text import Text

from buildbook import __version__
from buildbook.book.bind import Bound, BoundJob, bind
from buildbook.book.pack import pack
from buildbook.book.seal import verify
from buildbook.book.search import FoundJob, NothingToAsk, find_in
from buildbook.job.begin import BeginError, begin
from buildbook.job.proof import proof
from buildbook.problems import Problem
from buildbook.summary.as_json import plain

DEFAULT_BOOK = "book"
DEFAULT_PORT = 8571
HITS_SHOWN = 20
PIPE_WIDTH = 160  # characters of a line that goes to a file or another program


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns the exit code."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(
                encoding="utf-8", errors="replace"
            )  # the words hold ×, ¾ and “ whatever the locale
    parser = _parser()
    options = parser.parse_args(arguments)
    try:
        return int(options.run(options))
    except KeyboardInterrupt:
        return 0 if options.command == "bench" else 130


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="buildbook",
        description="Turns a furniture maker's job folder into a client's care-and-provenance page and a build log.",
    )
    parser.add_argument("--version", action="version", version=f"buildbook {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")

    def command(
        name: str, run: Callable[[argparse.Namespace], int], words: str, folder: str
    ) -> argparse.ArgumentParser:
        sub = commands.add_parser(name, help=words, description=words)
        sub.add_argument("folder", type=Path, metavar="FOLDER", help=folder)
        sub.set_defaults(run=run)
        return sub

    command("begin", _begin, "lay out a new job folder", "the folder to make; it must not exist yet")
    sub = command(
        "proof",
        _proof,
        "read everything, say what is wrong or missing, write nothing",
        "a job folder or a shelf of them",
    )
    sub.add_argument("--json", action="store_true", help="print the problems as JSON")
    sub = command(
        "bind",
        _bind,
        "compile a job, or every job of a shelf, into a book",
        "a job folder or a shelf of them",
    )
    sub.add_argument(
        "--to", type=Path, default=Path(DEFAULT_BOOK), metavar="BOOK", help="the book (default: ./book)"
    )
    sub.add_argument("--json", action="store_true", help="print what was bound and the problems as JSON")
    sub = command(
        "handover", _handover, "pack what the client gets: an archive, and one page to mail", "a job folder"
    )
    sub.add_argument(
        "--to", type=Path, default=Path(), metavar="FOLDER", help="where to put them (default: here)"
    )
    sub.add_argument("--json", action="store_true", help="print what was packed as JSON")
    sub = command(
        "verify",
        _verify,
        "check a handover against its seal",
        "a handover: its folder, or the packed archive",
    )
    sub.add_argument("--json", action="store_true", help="print what was found as JSON")
    sub = commands.add_parser(
        "find",
        help="search past work",
        description="Lists the jobs that have all of the words, the likeliest first.",
    )
    sub.add_argument(
        "words", nargs="+", metavar="WORDS", help="words, '\"words in quotes\"', or a size: 1200 mm, 4 ft"
    )
    sub.add_argument(
        "--in",
        dest="place",
        type=Path,
        default=Path(),
        metavar="SHELF",
        help="a shelf or a book (default: here)",
    )
    sub.add_argument("--json", action="store_true", help="print every job that was found as JSON")
    sub.set_defaults(run=_find)
    sub = command(
        "bench",
        _bench,
        "bind again on every save and show the book while you work",
        "a job folder or a shelf of them",
    )
    sub.add_argument(
        "--to", type=Path, default=Path(DEFAULT_BOOK), metavar="BOOK", help="the book (default: ./book)"
    )
    sub.add_argument(
        "--port",
        type=int,
        default=DEFAULT_PORT,
        metavar="N",
        help=f"on this machine only (default: {DEFAULT_PORT})",
    )
    return parser


# -- saying what happened ----------------------------------------------------------------------------


def _say(problems: Iterable[Problem], heading: str = "") -> None:
    """Problems on standard error, most serious first, under the job's name."""
    lines = [f"  {'error' if p.severity == 'error' else 'warning'}: {p}" for p in problems]
    if lines:
        print("\n".join(([heading] if heading else []) + lines), file=sys.stderr)


def _count(problems: Sequence[Problem]) -> str:
    errors = sum(p.severity == "error" for p in problems)
    warnings = len(problems) - errors

    def some(number: int, word: str) -> str:
        return f"{number} {word}{'' if number == 1 else 's'}"

    return (
        ", ".join(some(n, w) for n, w in ((errors, "error"), (warnings, "warning")) if n)
        or "nothing to put right"
    )


def _print_json(facts: object) -> None:
    print(json.dumps(facts, ensure_ascii=False, indent=1))


def _problem_facts(problems: Iterable[Problem]) -> list[dict[str, object]]:
    return [plain(problem) | {"text": str(problem)} for problem in problems]


# -- commands ----------------------------------------------------------------------------------------


def _begin(options: argparse.Namespace) -> int:
    try:
        made = begin(options.folder)
    except BeginError as error:
        print(f"error: {error}", file=sys.stderr)
        return 1
    print(f"{options.folder} is laid out: {', '.join(made)}.")
    print(f"Fill in job.toml, put pictures into photos/, and try: buildbook proof {options.folder}")
    return 0


def _proof(options: argparse.Namespace) -> int:
    report = proof(options.folder)
    if options.json:
        _print_json([{"job": key, "problems": _problem_facts(problems)} for key, problems in report.jobs])
    for key, problems in report.jobs:
        _say(problems, f"{key}: {_count(problems)}")
        if not problems and not options.json:
            print(f"{key}: {_count(problems)}")
    return 0 if report.ok else 1


def _bind(options: argparse.Namespace) -> int:
    with _Bar() as bar:
        bound = bind(options.folder, options.to, progress=bar.show)
    if options.json:
        _print_json(_bound_facts(bound))
    for job in bound.jobs:
        _tell(job, options.to, quiet=options.json)
    _say(bound.problems)
    return 0 if bound.ok else 1


def _bound_facts(bound: Bound) -> dict[str, object]:
    return {
        "jobs": [
            {"job": job.key, "bound": job.bound, "problems": _problem_facts(job.problems)}
            for job in bound.jobs
        ],
        "problems": _problem_facts(bound.problems),
    }


def _tell(job: BoundJob, book: Path, *, quiet: bool = False) -> None:
    if job.fault:
        print(
            f"{job.key}: buildbook itself failed on this job; its last good pages stay.\n{job.fault}",
            file=sys.stderr,
        )
        return
    if not job.bound:
        _say(job.problems, f"{job.key}: not bound, {_count(job.problems)}")
        return
    if not quiet:
        print(f"{job.key}: bound, {_count(job.problems)}")
        print(f"  for the client  {book / 'handover' / job.key / 'index.html'}")
        print(f"  build log       {book / 'jobs' / job.key / 'index.html'}")
    _say(job.problems)


def _handover(options: argparse.Namespace) -> int:
    with _Bar() as bar:
        packed = pack(options.folder, options.to, bar.show)
    if options.json:
        names = {"archive": packed.archive, "single": packed.single}
        facts = {key: str(path) if path else None for key, path in names.items()}
        _print_json(facts | {"fingerprint": packed.fingerprint, "problems": _problem_facts(packed.problems)})
    elif packed.ok:
        print(f"the whole handover  {packed.archive}")
        print(f"one page to mail    {packed.single}  ({packed.single_bytes / 1e6:.1f} MB)")
        print(f"fingerprint         {packed.fingerprint}")
    if packed.fault:
        print(f"buildbook itself failed on this job.\n{packed.fault}", file=sys.stderr)
    _say(packed.problems)
    return 0 if packed.ok else 1


_PROVES = """This shows that the files are those that were sealed, if the fingerprint is the one on the printed card.
It does not show who sealed them, nor that what they say is true."""


def _verify(options: argparse.Namespace) -> int:
    verdict = verify(options.folder)
    if options.json:
        _print_json(plain(verdict) | {"ok": verdict.ok})
    for word, names in (("changed", verdict.changed), ("missing", verdict.missing), ("added", verdict.added)):
        for name in names:
            print(f"  {word}: {name}", file=sys.stderr)
    if verdict.broken:
        print(f"error: {options.folder}: {verdict.broken}.", file=sys.stderr)
    if verdict.ok and not options.json:
        print(f"{options.folder}: nothing was changed, nothing is missing, nothing was added.")
        print(f"fingerprint {verdict.fingerprint}\n{_PROVES}")
    return 0 if verdict.ok else 1


def _find(options: argparse.Namespace) -> int:
    try:
        count, found = find_in(options.place, " ".join(options.words), None if options.json else HITS_SHOWN)
    except NothingToAsk as error:
        print(f"error: {error}", file=sys.stderr)
        return 1
    if options.json:
        _print_json([_found_facts(job) for job in found])
    elif not found:
        print("No job has all of this. Leave out a word.")
    else:
        _print_found(found)
        if count > len(found):
            print(f"and {count - len(found)} more: add a word.")
    return 0


def _found_facts(job: FoundJob) -> dict[str, object]:
    passage = job.passages[0].text if job.passages else ""
    return {"job": job.key, "title": job.title, "page": job.page, "score": job.score, "passage": passage}


def _print_found(found: Sequence[FoundJob]) -> None:
    """A plain table; what matched is set bold where a person is looking."""
    console = Console(highlight=False)
    if not console.is_terminal:
        console = Console(highlight=False, width=PIPE_WIDTH)
    table = Table("job", "title", "date", "why", box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for job in found:
        why = Text()
        for shown in job.passages:
            text = Text(shown.text)
            for start, end in shown.marks:
                text.stylize("bold", start, end)
            why.append("\n" if why else "").append(f"{shown.where}: " if shown.where else "", "dim").append(
                text
            )
        table.add_row(Text(job.key), Text(job.title), job.day, why)
    console.print(table)


def _bench(options: argparse.Namespace) -> int:
    from buildbook.bench import BenchError, run

    def told(bound: Bound) -> None:
        for job in bound.jobs:
            _tell(job, options.to)
        _say(bound.problems)

    try:
        run(
            options.folder,
            options.to,
            options.port,
            told=told,
            ready=lambda where: print(f"The book is at {where}  (Ctrl+C ends)", flush=True),
        )
    except BenchError as error:
        print(f"error: {error}", file=sys.stderr)
        return 1
    return 0


class _Bar:
    """A progress bar on standard error, only where a person is looking."""

    def __init__(self) -> None:
        console = Console(stderr=True)
        self._bar = Progress(
            TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), console=console, transient=True,
            disable=not console.is_terminal,
        )  # fmt: skip
        self._task: TaskID | None = None

    def __enter__(self) -> _Bar:
        self._bar.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._bar.stop()

    def show(self, what: str, done: int, of: int) -> None:
        """A line for each job's photos; nothing where nothing is to be made."""
        if done == 0:
            self._task = self._bar.add_task(what, total=of) if of else None
        elif self._task is not None:
            self._bar.update(self._task, completed=done)
