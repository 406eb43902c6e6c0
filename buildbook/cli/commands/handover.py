"""Packs what the client gets."""

from __future__ import annotations

import argparse

from buildbook.book.sealed.pack import pack
from buildbook.cli.bar import Bar
from buildbook.cli.say import problem_facts, say
from buildbook.cli.terminal import err, out, print_json


def run(options: argparse.Namespace) -> int:
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
