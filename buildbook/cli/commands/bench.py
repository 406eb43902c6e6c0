"""Binds again on every save and shows the book."""

from __future__ import annotations

import argparse
from functools import partial

from buildbook.bench import BenchError
from buildbook.bench import run as run_bench
from buildbook.book.bind import Bound
from buildbook.cli.say import say, spoken, tell, tell_waiting
from buildbook.cli.spoken import language_of
from buildbook.cli.terminal import err, out


def run(options: argparse.Namespace) -> int:
    language = language_of(options.folder)

    def told(bound: Bound) -> None:
        for job in bound.jobs:
            tell(job, options.to, language=language)
        say(bound.problems, language=language)

    try:
        run_bench(
            options.folder,
            options.to,
            options.port,
            told=told,
            said=lambda text: err(spoken(text, language)),
            waits=partial(tell_waiting, language=language),
            ready=lambda where: out(spoken(f"The book is at {where}  (Ctrl+C ends)", language)),
        )
    except BenchError as error:
        err(f"{spoken('error', language)}: {spoken(str(error), language)}")
        return 1
    return 0
