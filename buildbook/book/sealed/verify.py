"""Checks a handover against its seal, and says what was checked by what.

A forger can make a list as well as a file. So nothing is said to be as it was sealed but on the word of a fingerprint
that did not come along with the files: the record's, off the printed card, for all but the prints; the whole one, kept
by the maker, for everything. Whatever else is in there is told and refused, because a reader may be shown it.
"""

from __future__ import annotations

import hashlib
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from buildbook.book.disk.write import sha256
from buildbook.book.sealed import seal
from buildbook.book.sealed.archive import archive_contents
from buildbook.book.sealed.contents import Contents, Refused, folder_contents, plain_file
from buildbook.book.sealed.names import ALWAYS, PAGE, SEAL

By = Literal["list", "record", "whole"]
"""By what files were checked: by the list that came with them, or by a fingerprint that was given."""


@dataclass(frozen=True)
class Verdict:
    """What a check of a handover found. `ok` when nothing was changed, is missing or was added, and all fits.

    `fingerprint` and `whole` are computed from the files; empty where those do not fit their list. `by` is the
    fingerprint that was given and fits; without one nothing is vouched for but that the files fit their own list.
    `broken` is a sentence without its subject, the handover.
    """

    fingerprint: str = ""
    whole: str = ""
    by: By = "list"
    changed: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    added: tuple[str, ...] = ()
    broken: str = ""

    @property
    def ok(self) -> bool:
        return not (self.changed or self.missing or self.added or self.broken)

    @property
    def checked(self) -> dict[str, By] | None:
        """By what the record and the prints were checked; None where they failed."""
        if not self.ok:
            return None
        return {"record": self.by, "prints": "whole" if self.by == "whole" else "list"}


def verify(handover: Path, given: str = "") -> Verdict:
    """Check a handover: its folder, or the archive of it. Never raises for what is in it.

    given  a fingerprint in its proper form (`seal.read_out`), the record's or the whole one; empty for none
    """
    try:
        with _opened(handover) as contents:
            return _against_its_list(contents, given)
    except Refused as error:
        return Verdict(broken=str(error))
    except seal.BadSeal as error:
        return Verdict(broken=f"has a {SEAL} that {error}")


@contextmanager
def _opened(handover: Path) -> Iterator[Contents]:
    try:
        is_folder = stat.S_ISDIR(handover.stat().st_mode)
    except FileNotFoundError:
        raise Refused("is not there") from None
    except (OSError, ValueError) as error:
        raise Refused(f"cannot be looked at: {getattr(error, 'strerror', None) or error}") from error
    if is_folder:
        yield folder_contents(handover)
        return
    with plain_file(handover) as (file, length):
        yield archive_contents(file, length)


def _against_its_list(contents: Contents, given: str) -> Verdict:
    if SEAL not in contents.sizes:
        raise Refused(f"is no handover: there is no {SEAL} in it")
    sealed = seal.read_seal(contents.content(SEAL))
    found = contents.sizes.keys() - {SEAL}
    missing = tuple(sorted((sealed.files.keys() | ALWAYS - {SEAL}) - found))
    added = tuple(sorted((*(found - sealed.files.keys()), *contents.strays)))
    digests: dict[str, str] = {}
    page = b""
    for name in sorted(found & sealed.files.keys()):
        if name == PAGE:
            page = contents.content(name)
            digests[name] = sha256(page)
        else:
            digests[name] = _digest(contents.pieces(name))
    changed = tuple(name for name, value in digests.items() if sealed.files[name] != value)
    if changed or missing or added:
        return Verdict(changed=changed, missing=missing, added=added)
    return _against_its_fingerprints(sealed, digests, page, given)


def _digest(pieces: Iterator[bytes]) -> str:
    running = hashlib.sha256()
    for piece in pieces:
        running.update(piece)
    return running.hexdigest()


def _against_its_fingerprints(sealed: seal.Seal, digests: dict[str, str], page: bytes, given: str) -> Verdict:
    before = seal.blanked(page, sealed.stated.record)
    if before is None:
        return Verdict(
            broken=f"has a page that does not bear its fingerprint, {sealed.stated.record}, where it belongs"
        )
    record = seal.fingerprint(digests | {PAGE: sha256(before)})
    whole = seal.whole(digests)
    if (record, whole) != (sealed.stated.record, sealed.stated.whole):
        return Verdict(broken=f"has a {SEAL} whose own fingerprints do not fit its files")
    by: By = "record" if given == record else "whole" if given == whole else "list"
    broken = (
        f"does not fit the fingerprint {given}: it is not what was sealed under that"
        if by == "list" and given
        else ""
    )
    return Verdict(record, whole, by, broken=broken)
