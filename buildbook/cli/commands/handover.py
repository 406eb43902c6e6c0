"""Packs what the client gets."""

from __future__ import annotations

import argparse

from buildbook.book.sealed.pack import pack
from buildbook.cli.bar import Bar
from buildbook.cli.say import problem_facts, say, spoken
from buildbook.cli.spoken import language_of
from buildbook.cli.terminal import err, out, print_json


def run(options: argparse.Namespace) -> int:
    language = language_of(options.folder)
    with Bar() as bar:
        packed = pack(options.folder, options.to, bar.show)
    if options.json:
        names = {"archive": packed.archive, "single": packed.single}
        facts = {key: str(path) if path else None for key, path in names.items()}
        sealed = {"fingerprint": packed.sealed.record, "whole": packed.sealed.whole}
        print_json(facts | sealed | {"problems": problem_facts(packed.problems)})
    elif packed.ok:
        for name, value, remark in (
            ("the whole handover", packed.archive, ""),
            ("one page to mail", packed.single, f"({packed.single_bytes / 1e6:.1f} MB)"),
            ("record fingerprint", packed.sealed.record, "on page and card; all but the prints"),
            ("whole fingerprint", packed.sealed.whole, "the prints too: note it, it stands on none of them"),
        ):
            out(f"{spoken(name, language):<18}  {value}  {spoken(remark, language)}".rstrip())
    if packed.fault:
        err(spoken("buildbook itself failed on this job.", language), *packed.fault.splitlines())
    say(packed.problems, language=language)
    return 0 if packed.ok else 1
