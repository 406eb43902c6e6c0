"""Checks a handover against its seal."""

from __future__ import annotations

import argparse
from dataclasses import replace

from buildbook.book.sealed.verify import verify
from buildbook.cli.say import spoken
from buildbook.cli.spoken import language_of
from buildbook.cli.terminal import err, print_json
from buildbook.cli.verdict import Slip, fingerprint_read_out, tell_verdict, verdict_facts


def run(options: argparse.Namespace) -> int:
    language = language_of(options.folder)
    try:
        given = fingerprint_read_out(options.fingerprint) if options.fingerprint is not None else ""
    except Slip as slip:
        err(f"{spoken('error', language)}: --fingerprint: {spoken(str(slip), language)}")
        return 2
    verdict = verify(options.folder, given)
    if verdict.broken:
        from buildbook.cli.no_handover import instead_of_handover  # only where something is wrong

        if instead := instead_of_handover(options.folder):
            verdict = replace(verdict, broken=instead)
    if options.json:
        print_json(verdict_facts(verdict))
    tell_verdict(options.folder, verdict, quiet=options.json, language=language)
    return 0 if verdict.ok else 1
