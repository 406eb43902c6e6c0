"""Compiles a job, or every job of a shelf, into a book."""

from __future__ import annotations

import argparse

from buildbook.book.bind import bind
from buildbook.book.workers import cores
from buildbook.cli.bar import Bar
from buildbook.cli.say import bound_facts, say, tell, tell_waiting
from buildbook.cli.terminal import err, print_json

STOPPED = 130  # as a shell says of a program that was stopped from the keyboard


def run(options: argparse.Namespace) -> int:
    bar = Bar(quiet=options.quiet)
    try:
        with bar:
            bound = bind(
                options.folder,
                options.to,
                progress=bar.show,
                waits=tell_waiting,
                again=options.again,
                processes=cores(),
            )
    except KeyboardInterrupt:
        done, of = bar.done.get("jobs", (0, 0))
        err(
            f"Stopped: {done} of {of} jobs are done; the others, and the pages across jobs, are as they were.",
            "Bind again to go on from there.",
        )
        return STOPPED
    if options.json:
        print_json(bound_facts(bound))
    for job in bound.jobs:
        tell(job, options.to, quiet=options.json or options.quiet, why=options.why)
    say(bound.problems)
    return 0 if bound.ok else 1
