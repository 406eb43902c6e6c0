"""Reads everything, says what is wrong or missing, writes nothing."""

from __future__ import annotations

import argparse
from dataclasses import asdict

from buildbook.care.duties import before_sale
from buildbook.cli.say import count, problem_facts, say, spoken
from buildbook.cli.spoken import language_of
from buildbook.cli.terminal import out, print_json
from buildbook.job.lacks.gaps import Readiness
from buildbook.job.proof import proof
from buildbook.summary.held import held_together


def run(options: argparse.Namespace) -> int:
    language = language_of(options.folder)
    report = proof(options.folder, also=(held_together, before_sale))
    if options.json:
        print_json(
            [
                {"job": key, "problems": problem_facts(problems)} | _readiness_facts(ready)
                for (key, problems), ready in zip(report.jobs, report.readiness, strict=True)
            ]
        )
    for (key, problems), ready in zip(report.jobs, report.readiness, strict=True):
        say(problems, f"{key}: {count(problems, language)}", language)
        if options.json:
            continue
        if not problems:
            out(f"{key}: {count(problems, language)}")
        if ready:
            _tell_readiness(key, ready, language)
    return 0 if report.ok else 1


def _tell_readiness(key: str, ready: Readiness, language: str) -> None:
    """The end of a proof: how far the job is, and what is missing, the weightiest first."""
    if not ready.missing:
        out(f"{key}: {spoken(f'All {ready.of} things that a handover needs are there.', language)}")
        return
    far = spoken(
        f"{ready.there} of {ready.of} things that a handover needs are there. Still missing:", language
    )
    out(f"{key}: {far}", *(f"  {gap}" for gap in ready.missing))


def _readiness_facts(ready: Readiness | None) -> dict[str, object]:
    """How far a job is, for another program; nothing of one that could not be read."""
    if ready is None:
        return {}
    missing = [asdict(gap) | {"text": str(gap)} for gap in ready.missing]
    return {"missing": missing, "there": ready.there, "of": ready.of}
