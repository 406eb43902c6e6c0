"""Writes folders and files of a book, each whole or not at all. With `swap`, the only module that writes output.

Each folder that is ours holds a list of its files with their SHA-256 (`LIST`, or `seal.json` in a handover). What the
list does not name is not ours: it is carried over to the new folder as it is, and nothing of ours is written over it.
"""

from __future__ import annotations

import errno
import hashlib
import json
import os
import shutil
from collections.abc import Callable, Collection, Mapping, Sequence
from contextlib import suppress
from pathlib import Path, PurePosixPath
from types import TracebackType

from buildbook import limits
from buildbook.book.disk import swap
from buildbook.job.places import BOOK_LIST
from buildbook.job.plain_file import NotRead, open_plain, read_plain

LIST = BOOK_LIST
SEAL = "seal.json"
_LAYING = ".laying-"
_SYNCED_AT_ONCE = 8


class NotOurs(Exception):
    """A file stands where one of ours belongs. `path` is where."""

    def __init__(self, path: Path) -> None:
        super().__init__(str(path))
        self.path = path


def sha256(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def listed_files(folder: Path, list_name: str, second: Path | None = None) -> dict[str, str]:
    """What the list in a folder names: path and SHA-256. Where it is none to be read, what its second copy names;
    empty where there is neither.
    """
    found = _files_of(folder / list_name)
    return _files_of(second) if second and not found else found


def _files_of(path: Path) -> dict[str, str]:
    try:
        facts = json.loads(read_plain(path, limits.LEFT_BYTES))
        return {str(name): str(digest) for name, digest in facts["files"].items()}
    except (NotRead, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return {}


def is_as_written(path: Path, digest: str) -> bool:
    """Whether a plain file, no link, has this SHA-256 already."""
    try:
        with open_plain(path, limits.PICTURE_BYTES) as file:
            return hashlib.file_digest(file, "sha256").hexdigest() == digest
    except (NotRead, OSError):
        return False


class Staging:
    """A folder being written beside its place. Use as a context: what is not `put` in place is removed.

    `keep` takes over an unchanged file of the last edition. `second` is where a copy of the list is kept, by which the
    files are known to be ours if the list is damaged. `sure`: names of files of the last edition that are known to be
    as the list says, and need not be read for it. Without `keeps` nothing is taken over: all of it is made anew.
    """

    def __init__(
        self,
        place: Path,
        list_name: str,
        second: Path | None = None,
        sure: Collection[str] = (),
        *,
        keeps: bool = True,
    ) -> None:
        self.place = place
        self.list_name = list_name
        self.second = second
        self.sure = sure
        self.keeps = keeps
        self.folder = place.with_name(_LAYING + place.name)
        self.old = listed_files(place, list_name, second)
        self.list_digest = ""
        self._files: dict[str, str] = {}
        self._fresh: list[Path] = []

    def __enter__(self) -> Staging:
        make_folder(self.place.parent)
        self._refuse_what_is_no_folder()
        swap.mend(self.place.parent)
        if self.folder.exists():
            swap.remove(self.folder)
        self.folder.mkdir()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        with suppress(OSError):  # then it is swept away the next time
            if self.second:
                self._second_beside.unlink(missing_ok=True)
            swap.remove(self.folder)

    def write(self, name: str, content: bytes) -> None:
        """Write a file of this folder and remember its fingerprint. The disk is waited for in `finish`."""
        self._make_folder_of(name)
        self._write_new(self.folder / name, content)
        self._files[name] = sha256(content)

    def _write_new(self, path: Path, content: bytes) -> None:
        with path.open("xb") as file:
            file.write(content)
        self._fresh.append(path)

    def __contains__(self, name: str) -> bool:
        """Whether this folder has a file of ours by that name already."""
        return name in self._files

    @property
    def digests(self) -> dict[str, str]:
        """Name and SHA-256 of every file of this folder so far."""
        return dict(self._files)

    def keep(self, name: str) -> bool:
        """Take over a file that the last edition had, by a second link to it; False when it is not there."""
        digest, source = self.old.get(name) if self.keeps else None, self.place / name
        if digest is None or not (name in self.sure or is_as_written(source, digest)):
            return False  # not there, or changed or damaged since: make it again
        self._make_folder_of(name)
        _link(source, self.folder / name)
        self._files[name] = digest
        return True

    def take_from(self, other: Staging, name: str) -> None:
        """Take over a file of another folder being written, by a second link to it."""
        self._make_folder_of(name)
        _link(other.folder / name, self.folder / name)
        self._files[name] = other._files[name]

    def _make_folder_of(self, name: str) -> None:
        """The folder itself is not made again: if it is gone, so is what was written."""
        for around in reversed(PurePosixPath(name).parents[:-1]):
            (self.folder / around).mkdir(exist_ok=True)

    def finish(self, **more: object) -> None:
        """Write the list and its second copy, and take over what is not ours. The disk is waited for in `put_all`.

        Raises `NotOurs` and OSError.
        """
        content = listing(self._files, **more)
        self.list_digest = sha256(content)
        self._write_new(self.folder / self.list_name, content)
        self._carry_over()
        if self.second:
            make_folder(self.second.parent)
            self._second_beside.unlink(missing_ok=True)
            self._write_new(self._second_beside, content)

    @property
    def _second_beside(self) -> Path:
        assert self.second
        return self.second.with_name(_LAYING + self.second.name)

    def not_yet_on_disk(self) -> tuple[list[Path], list[Path]]:
        """The files that were written, and every folder of this one. Raises OSError, so too where one has been lost."""
        folders: list[Path] = []
        found: set[str] = set()
        for here, _, files in os.walk(self.folder, topdown=False, onerror=_raise):
            folders.append(Path(here))
            found.update(os.path.join(here, name) for name in files)
        for name in self._files:
            if (lost := os.path.join(self.folder, name)) not in found:
                raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), lost)
        return self._fresh, folders

    def put_second(self) -> list[Path]:
        """Put the second copy of the list in its place; the folder that it is in, to be waited for. Raises OSError."""
        if not self.second:
            return []
        self._second_beside.replace(self.second)
        return [self.second.parent]

    def _refuse_what_is_no_folder(self) -> None:
        if self.place.is_symlink() or (os.path.lexists(self.place) and not self.place.is_dir()):
            raise NotOurs(self.place)

    def _carry_over(self) -> None:
        """Copy what is not ours. A file is ours if the list names it, or if it is just as we would write it."""
        self._refuse_what_is_no_folder()
        ours, theirs = bool(self.old), []
        for path in _files_below(self.place):
            name = PurePosixPath(path.relative_to(self.place)).as_posix()
            if name in self._files and name not in self.old and is_as_written(path, self._files[name]):
                ours = True
            elif name not in self.old:
                theirs.append((name, path))
        if theirs and not ours:
            raise NotOurs(self.place)
        for name, path in theirs:
            if name == self.list_name:
                continue
            target = self.folder / name
            if target.exists() or target.is_symlink():
                raise NotOurs(path)
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, target, follow_symlinks=False)
            sync(target)
            shutil.copystat(path, target, follow_symlinks=False)


def put_all(*folders: Staging) -> None:
    """Put finished folders in their places, when the disk has them whole. Raises OSError; then each is as it was.

    The disk is waited for three times, however many files there are: for what was written, for the second copies of the
    lists, by which a folder with a damaged list is known to be ours, and for the folders in their places.
    """
    files: list[Path] = []
    around: list[Path] = []
    for one in folders:
        its_files, its_folders = one.not_yet_on_disk()
        files += its_files
        around += its_folders
    _sync_all(files, around)
    _sync_all((), [parent for one in folders for parent in one.put_second()])
    done: list[Staging] = []
    try:
        for one in folders:
            swap.put_in_place(one.folder, one.place)
            done.append(one)
        _sync_all((), [one.place.parent for one in folders])
    except BaseException:  # stopped, too
        for one in reversed(done):
            swap.take_back(one.folder, one.place)
        raise


def make_folder(folder: Path) -> None:
    """Make a folder, and those around it, where there is none; it outlives a power cut. Raises OSError."""
    if not folder.is_dir():
        make_folder(folder.parent)
        folder.mkdir(exist_ok=True)
        swap.sync_folder(folder.parent)


def write_whole(path: Path, content: bytes) -> None:
    """Replace one file by writing a new one beside it; it outlives a power cut. Raises OSError."""
    make_folder(path.parent)
    write_or_lose(path, content)
    swap.sync_folder(path.parent)


def write_or_lose(path: Path, content: bytes) -> None:
    """Replace one file; a power cut leaves the old one, none or the new one whole, never half of it. Raises OSError."""
    _replace(path, content, _write_new)


def write_lightly(path: Path, content: bytes) -> None:
    """The same, but that a power cut may leave half of it: the disk is not waited for. Raises OSError."""
    _replace(path, content, Path.write_bytes)


def _replace(path: Path, content: bytes, write: Callable[[Path, bytes], object]) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(_LAYING + path.name)
    beside.unlink(missing_ok=True)
    try:
        write(beside, content)
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)


def write_where_it_differs(path: Path, content: bytes) -> None:
    """Replace one file, but for one that is so already. Raises OSError."""
    if not is_as_written(path, sha256(content)):
        write_whole(path, content)


def sweep(folder: Path) -> None:
    """Remove what stopped programs were writing in a folder, and put back the folders that they set aside.

    Raises OSError.
    """
    try:
        names = os.listdir(folder)
    except FileNotFoundError:
        return
    if any(name.startswith(swap.ASIDE) for name in names):
        swap.mend(folder)
    for left in (folder / name for name in names if name.startswith(_LAYING)):
        if left.is_dir() and not left.is_symlink():
            swap.remove(left)
        else:
            left.unlink()


def meant_for(path: Path) -> Path:
    """The place that a file is written for, of one that is being written or is set aside."""
    return Path(*(part.removeprefix(_LAYING).removeprefix(swap.ASIDE) for part in path.parts))


def listing(files: Mapping[str, str], **more: object) -> bytes:
    """The list of a folder's files, name and SHA-256, as it is written: the same facts, the same bytes."""
    facts = {"schema": 1, **more, "files": dict(sorted(files.items()))}
    return (json.dumps(facts, ensure_ascii=False, indent=1) + "\n").encode()


def _write_new(path: Path, content: bytes) -> None:
    with path.open("xb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _link(source: Path, target: Path) -> None:
    try:
        os.link(source, target)
    except OSError:  # a disk without links
        shutil.copyfile(source, target)
        sync(target)


def sync(path: Path) -> None:
    """Wait until the disk has a plain file. Raises OSError."""
    if path.is_symlink():
        return
    handle = os.open(path, os.O_RDWR | getattr(os, "O_BINARY", 0))
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _sync_all(files: Sequence[Path], folders: Sequence[Path]) -> None:
    """Wait until the disk has all of these, at once: a disk takes hardly longer for many than for one. Raises the
    OSError of the first that has one.
    """
    from concurrent.futures import ThreadPoolExecutor  # of no use to what writes nothing

    with ThreadPoolExecutor(_SYNCED_AT_ONCE) as threads:
        waited = [
            *(threads.submit(sync, path) for path in files),
            *(threads.submit(swap.sync_folder, path) for path in folders),
        ]
        for one in waited:
            one.result()


def _files_below(folder: Path) -> list[Path]:
    """All in a folder but folders, links to them too. Raises OSError: what is not seen now must not be left behind."""
    found: list[Path] = []
    try:
        folder.lstat()
    except FileNotFoundError:
        return found
    for here, folders, files in os.walk(folder, onerror=_raise):
        found += [Path(here, name) for name in files]
        found += [path for name in folders if (path := Path(here, name)).is_symlink()]
    return sorted(found)


def _raise(fault: OSError) -> None:
    raise fault
