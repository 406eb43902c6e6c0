"""Writes folders and files of a book, each whole or not at all. With `swap`, the only module that writes output.

Each folder that is ours holds a list of its files with their SHA-256 (`LIST`, or `seal.json` in a handover). What the
list does not name is not ours: it is carried over to the new folder as it is, and nothing of ours is written over it.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
from collections.abc import Mapping
from pathlib import Path, PurePosixPath
from types import TracebackType

from buildbook.book.disk import swap

LIST = "contents.json"
SEAL = "seal.json"
_LAYING = ".laying-"


class NotOurs(Exception):
    """A file stands where one of ours belongs. `path` is where."""

    def __init__(self, path: Path) -> None:
        super().__init__(str(path))
        self.path = path


def sha256(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def listed_files(folder: Path, list_name: str) -> dict[str, str]:
    """What the list in a folder names: path and SHA-256; empty where there is no list to be read."""
    try:
        facts = json.loads((folder / list_name).read_text("utf-8"))
        return {str(name): str(digest) for name, digest in facts["files"].items()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}


class Staging:
    """A folder being written beside its place. Use as a context: what is not `put` in place is removed.

    `keep` takes over an unchanged file of the last edition without reading it.
    """

    def __init__(self, place: Path, list_name: str) -> None:
        self.place = place
        self.list_name = list_name
        self.folder = place.with_name(_LAYING + place.name)
        self.old = listed_files(place, list_name)
        self._files: dict[str, str] = {}

    def __enter__(self) -> Staging:
        self.place.parent.mkdir(parents=True, exist_ok=True)
        swap.mend(self.place.parent)
        if self.folder.exists():
            shutil.rmtree(self.folder)
        self.folder.mkdir()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        shutil.rmtree(self.folder, ignore_errors=True)

    def write(self, name: str, content: bytes) -> None:
        """Write a file of this folder and remember its fingerprint."""
        _write_new(self.folder / name, content)
        self._files[name] = sha256(content)

    @property
    def digests(self) -> dict[str, str]:
        """Name and SHA-256 of every file of this folder so far."""
        return dict(self._files)

    def keep(self, name: str) -> bool:
        """Take over a file that the last edition had, by a second link to it; False when it is not there."""
        digest, source = self.old.get(name), self.place / name
        if digest is None or not source.is_file() or source.is_symlink():
            return False
        if source.stat().st_size == 0 or _digest_of(source) != digest:
            return False  # changed or damaged since: make it again
        _link(source, self.folder / name)
        self._files[name] = digest
        return True

    def copy_from(self, other: Staging, name: str) -> None:
        """Copy a file of another folder being written."""
        target = self.folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(other.folder / name, target)
        self._files[name] = other._files[name]

    def put(self, **more: object) -> None:
        """Write the list and put the folder in its place. Raises `NotOurs` and OSError; then all is as it was."""
        _write_new(self.folder / self.list_name, listing(self._files, **more))
        self._carry_over()
        swap.put_in_place(self.folder, self.place)

    def _carry_over(self) -> None:
        if not self.place.is_dir():
            if self.place.exists() or self.place.is_symlink():
                raise NotOurs(self.place)
            return
        ours = {*self.old, self.list_name} if self.old else set()
        for path in sorted(self.place.rglob("*")):
            name = PurePosixPath(path.relative_to(self.place)).as_posix()
            if name in ours or (path.is_dir() and not path.is_symlink()):
                continue
            target = self.folder / name
            if target.exists() or target.is_symlink():
                raise NotOurs(path)
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(path, target, follow_symlinks=False)


def write_whole(path: Path, content: bytes) -> None:
    """Replace one file by writing a new one beside it. Raises OSError."""
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(_LAYING + path.name)
    beside.unlink(missing_ok=True)
    try:
        _write_new(beside, content)
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
    swap.sync_folder(path.parent)


def listing(files: Mapping[str, str], **more: object) -> bytes:
    """The list of a folder's files, name and SHA-256, as it is written: the same facts, the same bytes."""
    facts = {"schema": 1, **more, "files": dict(sorted(files.items()))}
    return (json.dumps(facts, ensure_ascii=False, indent=1) + "\n").encode()


def _write_new(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("xb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _digest_of(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _link(source: Path, target: Path) -> None:
    target.parent.mkdir(parents=True, exist_ok=True)
    try:
        os.link(source, target)
    except OSError:  # a disk without links
        shutil.copyfile(source, target)
