"""What is known of files without reading them: enough to see that one is still the same, and its SHA-256 for when in
doubt.

A file whose size, times and identity are as noted is taken for unchanged. One that was written so shortly before it
was noted that the system's clock may not have moved on since is not: it is read again. Linux and macOS give each file a
time that no program can put back (`ctime`); with it an edit is seen that leaves size and time of change as they were.
"""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from buildbook.job.plain_file import NotRead, open_plain

FILE, FOLDER, LINK, OTHER, MISSING = "file", "folder", "link", "other", "missing"

_GRAIN_NS = 20_000_000  # a system stamps files by a clock that moves on every 1 to 16 ms
_COARSE_NS = 2_000_000_000  # some disks keep only whole seconds, FAT every other
_SECOND_NS = 1_000_000_000
_NO_TEXT = "\0"  # begins the name of a file whose bytes are no text; no name of a file holds it
_TARGET = "\0target"  # follows the name of a link, for the file that it leads to
INODE_BITS = (1 << 63) - 1  # what a record holds of an identity


class FileFacts(NamedTuple):
    """What the system tells of a file. A folder has a kind only: what is in it is noted by name."""

    kind: str
    size: int = 0
    mode: int = 0
    mtime_ns: int = 0
    ctime_ns: int = 0
    inode: int = 0


class Noted(NamedTuple):
    """A file by its name, what the system told of it, and its content: SHA-256; of one that was not read, why."""

    name: str
    facts: FileFacts
    content: str = ""


class FoundFile(NamedTuple):
    """A file that was found: its name for us, its place, and what the system tells of it."""

    name: str
    path: str
    facts: FileFacts


def facts_of(seen: os.stat_result) -> FileFacts:
    kind = stat.S_IFMT(seen.st_mode)
    if kind == stat.S_IFDIR:
        return FileFacts(FOLDER)
    name = FILE if kind == stat.S_IFREG else LINK if kind == stat.S_IFLNK else OTHER
    times = (seen.st_mtime_ns, seen.st_ctime_ns)
    return FileFacts(name, seen.st_size, seen.st_mode, *times, seen.st_ino & INODE_BITS)


def found_at(name: str, path: str) -> FoundFile:
    """What is at a place, a link not followed."""
    try:
        return FoundFile(name, path, facts_of(os.lstat(path)))
    except (OSError, ValueError):
        return FoundFile(name, path, FileFacts(MISSING))


def found_below(name: str, top: str) -> Iterator[FoundFile]:
    """All that is below a folder, folders too; links are not followed, but the file that one leads to comes after it.

    name  what the names begin with: that of the folder and a stroke, or nothing
    """
    try:
        with os.scandir(top) as entries:
            inside = sorted(entries, key=lambda entry: entry.name)
    except OSError as fault:
        yield FoundFile(f"{name}?", top, FileFacts(OTHER, mode=fault.errno or 0))
        return
    for entry in inside:
        own = name + plain_name(entry.name)
        try:
            facts = facts_of(entry.stat(follow_symlinks=False))
        except OSError:  # gone in between
            facts = FileFacts(MISSING)
        yield FoundFile(own, entry.path, facts)
        if facts.kind == FOLDER:
            yield from found_below(f"{own}/", entry.path)
        elif facts.kind == LINK:
            yield from target_of(own, entry.path)


def target_of(name: str, link: str) -> Iterator[FoundFile]:
    """The file that a link leads to; nothing for one that leads to a folder, or nowhere."""
    try:
        facts = facts_of(os.stat(link))
    except (OSError, ValueError):
        return
    if facts.kind == FILE:
        yield FoundFile(name + _TARGET, os.path.realpath(link), facts)


def plain_name(name: str) -> str:
    """The name of a file as text; of one that is none, its bytes."""
    try:
        name.encode("utf-8")
    except UnicodeEncodeError:
        return _NO_TEXT + os.fsencode(name).hex()
    return name


def shown_name(name: str) -> str:
    """A name as a person may read it."""
    return name.replace(_TARGET, "").replace(_NO_TEXT, "")


# -- still the same ----------------------------------------------------------------------------------


def is_settled(facts: FileFacts, noted_ns: int) -> bool:
    """Whether a file that changes after it was noted must show it: its times lie far enough before that moment."""
    coarse = facts.mtime_ns % _SECOND_NS == 0
    last = max(facts.mtime_ns, facts.ctime_ns)
    return last + (_COARSE_NS if coarse else _GRAIN_NS) < noted_ns


def is_surely_as(facts: FileFacts, before: Noted | None, noted_ns: int) -> bool:
    """Whether a file is as it was noted at that moment, by what the system tells alone."""
    if before is None or before.facts != facts or facts.kind == LINK:
        return False
    return facts.kind != FILE or is_settled(facts, noted_ns)


def content_of(found: FoundFile, most: int, root: str) -> str:
    """SHA-256 of a file; of a link, of where it leads as seen from `root`; of what is not read, why not."""
    if found.facts.kind == LINK:
        return hashlib.sha256(_leads_to(found.path, root).encode("utf-8", "surrogateescape")).hexdigest()
    if found.facts.kind != FILE:
        return oct(stat.S_IFMT(found.facts.mode)) if found.facts.kind == OTHER else ""
    if found.facts.size > most:
        return f"{found.facts.size} bytes"  # a reader tells how large it is, and reads nothing
    try:
        with open_plain(Path(found.path), most) as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except NotRead as why:
        return why.message
    except OSError as fault:
        return f"not read: {fault.strerror}"


def _leads_to(link: str, root: str) -> str:
    try:
        text = os.readlink(link)
        real = os.path.relpath(os.path.realpath(link), os.path.realpath(root))
        kind = facts_of(os.stat(link)).kind
    except (OSError, ValueError) as fault:
        return f"{fault.args[0]}"
    return f"{text}\n{real}\n{kind}"
