"""Checks a handover against its seal."""

from __future__ import annotations

import argparse
from dataclasses import replace

from buildbook.book.sealed.verify import verify
from buildbook.cli.spoken import language_of
from buildbook.cli.terminal import print_json
from buildbook.cli.verdict import tell_verdict, verdict_facts


def run(options: argparse.Namespace) -> int:
    verdict = verify(options.folder, options.fingerprint or "")
    if verdict.broken:
        from buildbook.cli.no_handover import instead_of_handover  # only where something is wrong

        if instead := instead_of_handover(options.folder):
            verdict = replace(verdict, broken=instead)
    if options.json:
        print_json(verdict_facts(verdict))
    tell_verdict(options.folder, verdict, quiet=options.json, language=language_of(options.folder))
    return 0 if verdict.ok else 1
