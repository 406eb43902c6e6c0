"""Reads everything, says what is wrong or missing, writes nothing."""

from __future__ import annotations

import argparse

from buildbook.care.duties import before_sale
from buildbook.cli.say import count, problem_facts, say
from buildbook.cli.spoken import language_of
from buildbook.cli.terminal import out, print_json
from buildbook.job.proof import proof
from buildbook.summary.held import held_together


def run(options: argparse.Namespace) -> int:
    language = language_of(options.folder)
    report = proof(options.folder, also=(held_together, before_sale))
    if options.json:
        print_json([{"job": key, "problems": problem_facts(problems)} for key, problems in report.jobs])
    for key, problems in report.jobs:
        say(problems, f"{key}: {count(problems, language)}", language)
        if not problems and not options.json:
            out(f"{key}: {count(problems, language)}")
    return 0 if report.ok else 1
