"""The seal of a handover: the SHA-256 of its files, and two short fingerprints that can be read out.

`seal.json` lists every file. The record's fingerprint is made of all files but the prints, which show it, with the
page taken as it was before it was written into it; it stands on the page and on the card. The whole fingerprint is
made of every file as it is, prints and all; nothing that is handed over can show it, so the maker keeps it. Either,
compared with one that did not come along with the files, proves that they are those that were bound then. It does not
prove who bound them, nor that what they say is true.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass

from buildbook.book.disk.write import listing
from buildbook.book.sealed.names import PRINTS, SEAL, is_ours, shown

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # digits and letters without I, L, O, U, which are misread
BLANK = "0000-0000-0000-0000-0"  # what stands in the page while its fingerprint is made
SYMBOLS = 16  # 80 bits: nobody finds a second set of files with the same ones
_GROUP = 4
_WHOLE = "whole\n"  # what is hashed for the one can never be what is hashed for the other
_DIGEST = re.compile(r"[0-9a-f]{64}")


def check_symbol(symbols: str) -> str:
    """One more symbol that a slip of a single symbol, or of two neighbours swapped, does not fit (Luhn mod N)."""
    base, factor, total = len(ALPHABET), 2, 0
    for symbol in reversed(symbols):
        product = factor * ALPHABET.index(symbol)
        total += product // base + product % base
        factor = 3 - factor
    return ALPHABET[-total % base]


def grouped(symbols: str) -> str:
    """`7F3K-9QWM-2XAB-4TZ8-V`: in fours, the check symbol last."""
    parts = [symbols[i : i + _GROUP] for i in range(0, len(symbols), _GROUP)]
    return "-".join((*parts, check_symbol(symbols)))


def read_out(text: str) -> str | None:
    """A fingerprint as somebody typed it, in its proper form; None when its check symbol does not fit."""
    misread = str.maketrans({"I": "1", "L": "1", "O": "0"})
    symbols = "".join(sign for sign in text.upper().translate(misread) if sign.isalnum())
    if len(symbols) != SYMBOLS + 1 or not set(symbols) <= set(ALPHABET):
        return None
    return grouped(symbols[:-1]) if check_symbol(symbols[:-1]) == symbols[-1] else None


@dataclass(frozen=True)
class Fingerprints:
    """Of the record (all but the prints), and of the whole; empty where there is none."""

    record: str
    whole: str


NOT_SEALED = Fingerprints("", "")


def fingerprint(digests: Mapping[str, str]) -> str:
    """The record's short fingerprint, of files by name and SHA-256; prints and the seal itself are not in it."""
    return _short(_lines({name: value for name, value in digests.items() if name not in PRINTS}))


def whole(digests: Mapping[str, str]) -> str:
    """The short fingerprint of every file, by name and SHA-256; only the seal itself is not in it."""
    return _short(_WHOLE + _lines(digests))


def _lines(digests: Mapping[str, str]) -> str:
    return "".join(f"{value}  {name}\n" for name, value in sorted(digests.items()) if name != SEAL)


def _short(text: str) -> str:
    number = int.from_bytes(hashlib.sha256(text.encode()).digest(), "big")
    number >>= hashlib.sha256().digest_size * 8 - 5 * SYMBOLS  # the first 80 bits, five to a symbol
    return grouped(
        "".join(ALPHABET[(number >> (5 * place)) % len(ALPHABET)] for place in reversed(range(SYMBOLS)))
    )


def blanked(page: bytes, fingerprint: str) -> bytes | None:
    """The page as it was before its fingerprint was written into it; None for one that we cannot have written so."""
    mark, blank = fingerprint.encode(), BLANK.encode()
    before = page.replace(mark, blank)
    return before if before.replace(blank, mark) == page else None


# -- seal.json ----------------------------------------------------------------------------------------


class BadSeal(Exception):
    """What is wrong with a seal, to follow “seal.json”."""


@dataclass(frozen=True)
class Seal:
    """What seal.json says."""

    stated: Fingerprints
    files: Mapping[str, str]


def read_seal(content: bytes) -> Seal:
    """Raises `BadSeal` for anything but what we write, to the byte: what else it says would be sealed by nothing."""
    try:
        facts = json.loads(content)
        files, stated = dict(facts["files"]), Fingerprints(facts["fingerprint"], facts["whole"])
        for name, value in files.items():
            if name == SEAL or not is_ours(name):
                raise BadSeal(f"lists {shown(name)}, which no handover holds")
            if not (isinstance(value, str) and _DIGEST.fullmatch(value)):
                raise BadSeal(f"gives no SHA-256 for {name}")
        for short in (stated.record, stated.whole):
            if read_out(short) != short:
                raise BadSeal("states a fingerprint that is none")
        known = listing(files, fingerprint=stated.record, whole=stated.whole) == content
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise BadSeal("cannot be read") from error
    if not known:
        raise BadSeal("is not written as this program writes it")
    return Seal(stated, files)
