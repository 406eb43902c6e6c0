"""Compiles a job, or every job of a shelf, into a book."""

from __future__ import annotations

import argparse
from functools import partial

from buildbook.book.bind import bind
from buildbook.book.workers import cores
from buildbook.cli.bar import Bar
from buildbook.cli.say import bound_facts, say, spoken, tell, tell_waiting
from buildbook.cli.spoken import language_of
from buildbook.cli.terminal import err, print_json

STOPPED = 130  # as a shell says of a program that was stopped from the keyboard


def run(options: argparse.Namespace) -> int:
    language = language_of(options.folder)
    bar = Bar(quiet=options.quiet)
    try:
        with bar:
            bound = bind(
                options.folder,
                options.to,
                progress=bar.show,
                waits=partial(tell_waiting, language=language),
                again=options.again,
                processes=cores(),
            )
    except KeyboardInterrupt:
        done, of = bar.done.get("jobs", (0, 0))
        err(
            spoken(
                f"Stopped: {done} of {of} jobs are done; the others, and the pages across jobs, are as they were.",
                language,
            ),
            spoken("Bind again to go on from there.", language),
        )
        return STOPPED
    if options.json:
        print_json(bound_facts(bound))
    for job in bound.jobs:
        tell(job, options.to, quiet=options.json or options.quiet, why=options.why, language=language)
    say(bound.problems, language=language)
    return 0 if bound.ok else 1
