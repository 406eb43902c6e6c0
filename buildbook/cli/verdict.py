"""What `verify` says: which files were checked, and by what. It never says more than was checked."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path

from buildbook.book.sealed import seal
from buildbook.book.sealed.names import BOOKLET, CARD
from buildbook.book.sealed.verify import Verdict
from buildbook.cli.say import spoken
from buildbook.cli.spoken import ENGLISH
from buildbook.cli.terminal import err, out

NAMES_TOLD = 20
"""Of files that were changed, are missing or were added, one line each; of the rest, how many."""

_WHOLE = "Every file is as it was sealed, the prints too: the whole fingerprint is the one that was given."
_RECORD = f"""The page, its pictures, the dates and the record for programs are as they were sealed: their
fingerprint is the one that was given.
The prints ({CARD}, {BOOKLET}) are only as the list that came with them says: to check them too
takes the whole fingerprint, which the maker keeps."""
_LIST = """The files are as the list that came with them says; nothing is missing, nothing was added.
Whoever changes files can change their list. Compare with what did not come along with them, never with the
{card} in there:
  record fingerprint  {record}  on the printed card; all but the prints
  whole fingerprint   {whole}  kept by the maker; the prints too
Give the one that you hold with --fingerprint, and it is compared for you."""
_PROVES = "It does not show who sealed them, nor that what they say is true."


class Slip(ValueError):
    """A fingerprint that was read or typed wrong: what is wrong with it, in sentences."""


def fingerprint_read_out(text: str) -> str:
    """A fingerprint of the command line, in its proper form. Raises `Slip`, with words for it."""
    if known := seal.read_out(text):
        return known
    symbols, count = sum(sign.isalnum() for sign in text), seal.SYMBOLS + 1
    if symbols != count:
        said = f"It has {symbols} letters and digits: a fingerprint has {count}."
    else:
        said = "It holds a slip: its last sign does not fit the others. Read it again, sign by sign."
    raise Slip(said)


def verdict_facts(verdict: Verdict) -> dict[str, object]:
    """For another program: what was found, and by what the record and the prints were checked."""
    facts = asdict(verdict) | {"ok": verdict.ok, "checked": verdict.checked}
    return {key: value for key, value in facts.items() if key != "by"}  # `checked` tells it for each


def tell_verdict(handover: Path, verdict: Verdict, *, quiet: bool = False, language: str = ENGLISH) -> None:
    """Faults on standard error; what was checked by what on standard output, unless `quiet`."""
    lines = list(_differences(verdict, language))
    error = spoken("error", language)
    for line in lines[:NAMES_TOLD]:
        err(line)
    if len(lines) > NAMES_TOLD:
        err(f"  {spoken(f'and {len(lines) - NAMES_TOLD} more', language)}")
    if lines:
        err(f"{error}: {handover}: {spoken('is not as it was sealed.', language)}")
    if verdict.broken:
        err(f"{error}: {handover}: {spoken(verdict.broken, language)}.")
    if quiet or not verdict.ok:
        return
    said = {"whole": _WHOLE, "record": _RECORD}.get(verdict.by) or _LIST.format(
        card=CARD, record=verdict.fingerprint, whole=verdict.whole
    )
    out(handover, *spoken(said, language).splitlines(), spoken(_PROVES, language))


def _differences(verdict: Verdict, language: str) -> Iterator[str]:
    for word, names in (("changed", verdict.changed), ("missing", verdict.missing), ("added", verdict.added)):
        for name in names:
            yield f"  {spoken(word, language)}: {name}"
