"""Binds again on every save and shows the book."""

from __future__ import annotations

import argparse

from buildbook.bench import BenchError
from buildbook.bench import run as run_bench
from buildbook.book.bind import Bound
from buildbook.cli.say import say, tell, tell_waiting
from buildbook.cli.terminal import err, out


def run(options: argparse.Namespace) -> int:
    def told(bound: Bound) -> None:
        for job in bound.jobs:
            tell(job, options.to)
        say(bound.problems)

    try:
        run_bench(
            options.folder,
            options.to,
            options.port,
            told=told,
            said=err,
            waits=tell_waiting,
            ready=lambda where: out(f"The book is at {where}  (Ctrl+C ends)"),
        )
    except BenchError as error:
        err(f"error: {error}")
        return 1
    return 0
