"""The seal of a handover: the fingerprints of its files, and a short one of the whole that can be read out.

Every file has its SHA-256 in `seal.json`. The short fingerprint is made of those of all files but the printed ones
(which show it), with the page taken as it was before it was written into it. Compared with the one on the printed card
it proves that the files are those that were bound then. It does not prove who bound them, nor that what they say is
true.
"""

from __future__ import annotations

import hashlib
import json
import tempfile
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from buildbook.book.disk.write import SEAL
from buildbook.book.disk.write import sha256 as digest

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # digits and letters without I, L, O, U, which are misread
PAGE = "index.html"
BLANK = "0000-0000-0000-0000-0"  # what stands in the page while its fingerprint is made
_SYMBOLS = 16  # 80 bits: nobody finds a second set of files with the same ones
_GROUP = 4
_PRINTED = (".pdf",)


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
    if len(symbols) != _SYMBOLS + 1 or not set(symbols) <= set(ALPHABET):
        return None
    return grouped(symbols[:-1]) if check_symbol(symbols[:-1]) == symbols[-1] else None


def fingerprint(digests: Mapping[str, str]) -> str:
    """The short fingerprint of files by name and SHA-256; printed files and the seal itself are not in it."""
    lines = [f"{value}  {name}\n" for name, value in sorted(digests.items()) if _counts(name)]
    number = int.from_bytes(hashlib.sha256("".join(lines).encode()).digest(), "big")
    number >>= hashlib.sha256().digest_size * 8 - 5 * _SYMBOLS  # the first 80 bits, five to a symbol
    symbols = "".join(
        ALPHABET[(number >> (5 * place)) % len(ALPHABET)] for place in reversed(range(_SYMBOLS))
    )
    return grouped(symbols)


def _counts(name: str) -> bool:
    return name != SEAL and not name.endswith(_PRINTED)


@dataclass(frozen=True)
class Verdict:
    """What a check of a handover found. `ok` when nothing was changed, is missing or was added."""

    fingerprint: str
    changed: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    added: tuple[str, ...] = ()
    broken: str = ""

    @property
    def ok(self) -> bool:
        return not (self.changed or self.missing or self.added or self.broken)


def verify(handover: Path) -> Verdict:
    """Check a handover (its folder, or a packed archive of it) against its seal. Never raises for what is in it."""
    if handover.is_dir():
        return _verify_folder(handover)
    if not handover.exists():
        return Verdict("", broken="is not there")
    with tempfile.TemporaryDirectory() as place:
        try:
            with zipfile.ZipFile(handover) as archive:
                archive.extractall(place)
        except (
            OSError,
            ValueError,
            RuntimeError,
            NotImplementedError,
            zipfile.BadZipFile,
            zlib.error,
        ) as error:
            return Verdict("", broken=f"is neither a folder nor an archive that can be opened ({error})")
        seals = sorted(Path(place).rglob(SEAL))
        return _verify_folder(seals[0].parent if seals else Path(place))


def _verify_folder(folder: Path) -> Verdict:
    try:
        facts = json.loads((folder / SEAL).read_text("utf-8"))
        sealed = {str(name): str(value) for name, value in facts["files"].items()}
        stated = str(facts["fingerprint"])
    except (OSError, ValueError, KeyError, TypeError, AttributeError) as error:
        return Verdict("", broken=f"there is no seal that can be read ({type(error).__name__})")
    found: dict[str, bytes | None] = {}
    for path in sorted(folder.rglob("*")):
        if path.is_file() or path.is_symlink():
            found[path.relative_to(folder).as_posix()] = _content(path)
    found.pop(SEAL, None)
    digests = {name: digest(content) if content is not None else "" for name, content in found.items()}
    changed = tuple(sorted(name for name in sealed.keys() & digests.keys() if sealed[name] != digests[name]))
    broken = (
        ""
        if _of_seal(sealed, found, stated) == stated
        else "the seal’s own fingerprint does not fit its files"
    )
    return Verdict(
        fingerprint=stated,
        changed=changed,
        missing=tuple(sorted(sealed.keys() - digests.keys())),
        added=tuple(sorted(digests.keys() - sealed.keys())),
        broken=broken if not changed and sealed.keys() == digests.keys() else "",
    )


def _content(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:
        return None


def _of_seal(sealed: Mapping[str, str], found: Mapping[str, bytes | None], stated: str) -> str:
    """The fingerprint of the files as they are, the page taken with its own blanked."""
    digests = {
        name: digest(content) for name, content in found.items() if content is not None and name in sealed
    }
    page = found.get(PAGE)
    if page is not None:
        digests[PAGE] = digest(page.replace(stated.encode(), BLANK.encode()))
    return fingerprint(digests)
