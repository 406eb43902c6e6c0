"""The commands: each takes its options, does its work, says what came of it, and gives the exit code."""

from __future__ import annotations

import argparse
from datetime import date

from buildbook.book.bind import Bound, bind
from buildbook.book.estimate import estimate
from buildbook.book.past.search import NothingToAsk, find_in
from buildbook.book.sealed.pack import pack
from buildbook.book.sealed.verify import verify
from buildbook.care.duties import before_sale
from buildbook.cli.say import (
    Bar,
    bound_facts,
    count,
    found_facts,
    print_found,
    problem_facts,
    say,
    tell,
    tell_estimate,
    tell_waiting,
)
from buildbook.cli.terminal import err, out, print_json
from buildbook.cli.verdict import tell_verdict, verdict_facts
from buildbook.estimate.as_json import estimate_facts
from buildbook.job.begin import BeginError, begin
from buildbook.job.proof import proof
from buildbook.problems import Problems

HITS_SHOWN = 20


def run_begin(options: argparse.Namespace) -> int:
    try:
        made = begin(options.folder)
    except BeginError as error:
        err(f"error: {error}")
        return 1
    out(f"{options.folder} is laid out: {', '.join(made)}.")
    out(f"Fill in job.toml, put pictures into photos/, and try: buildbook proof {options.folder}")
    return 0


def run_proof(options: argparse.Namespace) -> int:
    report = proof(options.folder, also=(before_sale,))
    if options.json:
        print_json([{"job": key, "problems": problem_facts(problems)} for key, problems in report.jobs])
    for key, problems in report.jobs:
        say(problems, f"{key}: {count(problems)}")
        if not problems and not options.json:
            out(f"{key}: {count(problems)}")
    return 0 if report.ok else 1


def run_bind(options: argparse.Namespace) -> int:
    with Bar() as bar:
        bound = bind(options.folder, options.to, progress=bar.show, waits=tell_waiting, again=options.again)
    if options.json:
        print_json(bound_facts(bound))
    for job in bound.jobs:
        tell(job, options.to, quiet=options.json, why=options.why)
    say(bound.problems)
    return 0 if bound.ok else 1


def run_handover(options: argparse.Namespace) -> int:
    with Bar() as bar:
        packed = pack(options.folder, options.to, bar.show)
    if options.json:
        names = {"archive": packed.archive, "single": packed.single}
        facts = {key: str(path) if path else None for key, path in names.items()}
        sealed = {"fingerprint": packed.sealed.record, "whole": packed.sealed.whole}
        print_json(facts | sealed | {"problems": problem_facts(packed.problems)})
    elif packed.ok:
        out(f"the whole handover  {packed.archive}")
        out(f"one page to mail    {packed.single}  ({packed.single_bytes / 1e6:.1f} MB)")
        out(f"record fingerprint  {packed.sealed.record}  on page and card; all but the prints")
        out(f"whole fingerprint   {packed.sealed.whole}  the prints too: note it, it stands on none of them")
    if packed.fault:
        err("buildbook itself failed on this job.", *packed.fault.splitlines())
    say(packed.problems)
    return 0 if packed.ok else 1


def run_estimate(options: argparse.Namespace) -> int:
    made = estimate(options.folder, options.shelf, options.to, options.on or date.today())
    if made.fault:
        err("buildbook itself failed on this enquiry.", *made.fault.splitlines())
    if made.estimate and options.json:
        print_json(estimate_facts(made.estimate))
    elif made.estimate and made.folder:
        tell_estimate(made.estimate, made.folder)
    say(made.problems)
    return 0 if made.ok else 1


def run_verify(options: argparse.Namespace) -> int:
    verdict = verify(options.folder, options.fingerprint or "")
    if options.json:
        print_json(verdict_facts(verdict))
    tell_verdict(options.folder, verdict, quiet=options.json)
    return 0 if verdict.ok else 1


def run_find(options: argparse.Namespace) -> int:
    problems = Problems()
    try:
        most = None if options.json else HITS_SHOWN
        hits, found = find_in(options.place, " ".join(options.words), most, problems)
    except NothingToAsk as error:
        err(f"error: {error}")
        return 1
    if options.json:
        print_json([found_facts(job) for job in found])
    elif not found:
        out("No job has all of this. Leave out a word.")
    else:
        print_found(found)
        if hits > len(found):
            out(f"and {hits - len(found)} more: add a word.")
    say(problems.ordered())
    return 0


def run_bench(options: argparse.Namespace) -> int:
    from buildbook.bench import BenchError, run

    def told(bound: Bound) -> None:
        for job in bound.jobs:
            tell(job, options.to)
        say(bound.problems)

    try:
        run(
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
