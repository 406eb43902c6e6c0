"""What the system tells of all files of a job and of its pages, as one digest.

Where it is that of the record, nothing of the job has changed, and its files need neither be told apart nor held
against what was noted of each. Where it is not, or there is none, that is done (`seen`): a state only saves time. There
is none where a file is no plain one, or so fresh that it might have changed since without showing it.
"""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Iterable, Sequence

import msgspec

from buildbook.book.redo.noted import FILE, FOLDER, INODE_BITS, LINK, FoundFile, Noted, is_settled

NO_STATE = ""
_Fact = tuple[str | int, ...]
"""Name, size, mode, the two times and the inode of a file; of a folder its name alone."""


class _NotPlain(Exception):
    """What is neither a plain file nor a folder is to be looked at by itself."""


def state_noted(
    own: Sequence[Noted], shared: Sequence[Noted], outputs: Sequence[Noted], begun_ns: int, done_ns: int
) -> str:
    """The state of what was noted. own: what lies in the job folder; shared: what jobs have in common."""
    settled = all(is_settled(one.facts, begun_ns) for one in (*own, *shared) if one.facts.kind == FILE)
    plain = all(one.facts.kind in (FILE, FOLDER) for one in own) and all(
        one.facts.kind == FILE for one in outputs
    )
    around = shared_state(shared)
    if (
        not plain
        or around is None
        or not settled
        or not all(is_settled(one.facts, done_ns) for one in outputs)
    ):
        return NO_STATE
    return _digest(map(_fact, own), around, map(_fact, outputs))


def state_found(
    job: tuple[str, str],
    around: bytes | None,
    folders: Iterable[tuple[str, str]],
    files: Iterable[tuple[str, str]],
) -> str:
    """The state of what lies there now; none where it cannot be told.

    job      what its names begin with, and where it lies; around: `shared_state` of what is there now
    folders  likewise, those of its pages; files: others that were made of it
    """
    if around is None:
        return NO_STATE
    own: list[_Fact] = []
    outputs: list[_Fact] = []
    try:
        _walk(*job, own)
        for name, folder in folders:
            _walk(name, folder, outputs)
        for name, path in files:
            outputs.append(_told(name, os.lstat(path)))
        return _digest(own, around, (fact for fact in outputs if len(fact) > 1))
    except (OSError, ValueError, _NotPlain):  # ValueError: a name that is no text
        return NO_STATE


def shared_state(shared: Iterable[FoundFile] | Iterable[Noted]) -> bytes | None:
    """What the system tells of files that jobs have in common; None where one is a link."""
    facts = [(one.name, one.facts) for one in shared]
    return None if any(each.kind == LINK for _, each in facts) else msgspec.json.encode(facts)


def _walk(name: str, top: str, found: list[_Fact]) -> None:
    """All that is below a folder. One loop with no calls to others of ours: it runs for every file of a shelf."""
    with os.scandir(top) as entries:
        for entry in entries:
            seen = entry.stat(follow_symlinks=False)
            kind = stat.S_IFMT(seen.st_mode)
            if kind == stat.S_IFREG:
                found.append(_told(name + entry.name, seen))
            elif kind == stat.S_IFDIR:
                found.append((name + entry.name,))
                _walk(f"{name}{entry.name}/", entry.path, found)
            else:
                raise _NotPlain


def _told(name: str, seen: os.stat_result) -> _Fact:
    return name, seen.st_size, seen.st_mode, seen.st_mtime_ns, seen.st_ctime_ns, seen.st_ino & INODE_BITS


def _fact(noted: Noted) -> _Fact:
    return (noted.name, *noted.facts[1:]) if noted.facts.kind == FILE else (noted.name,)


def _digest(own: Iterable[_Fact], around: bytes, outputs: Iterable[_Fact]) -> str:
    return hashlib.sha256(
        b"\n".join((msgspec.json.encode(sorted(own)), around, msgspec.json.encode(sorted(outputs))))
    ).hexdigest()
