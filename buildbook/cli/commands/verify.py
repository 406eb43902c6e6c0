"""Checks a handover against its seal."""

from __future__ import annotations

import argparse

from buildbook.book.sealed.verify import verify
from buildbook.cli.spoken import language_of
from buildbook.cli.terminal import print_json
from buildbook.cli.verdict import tell_verdict, verdict_facts


def run(options: argparse.Namespace) -> int:
    verdict = verify(options.folder, options.fingerprint or "")
    if options.json:
        print_json(verdict_facts(verdict))
    tell_verdict(options.folder, verdict, quiet=options.json, language=language_of(options.folder))
    return 0 if verdict.ok else 1
