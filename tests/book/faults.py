"""A disk that fails: every file operation of the program below some folders passes through here, and may be made to fail,
to be the last one before the program is killed, or to be written down.

What is patched is what Python calls the system by, in `os`, `io`, `builtins` and `fcntl`, whoever calls it; and the one
call that goes past Python (`swap._exchange`). Of a read or written file each read and write counts.
"""

import builtins
import errno
import fcntl
import io
import os
import shutil
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from buildbook.book.disk import swap
from buildbook.book.lock import OWN

FULL = (errno.ENOSPC, errno.EDQUOT)
"""What a system says to a write; half of what was to be written is, before."""

NOT_ALLOWED = (errno.EROFS, errno.EACCES)
FAULTS = (*FULL, *NOT_ALLOWED, errno.EIO, errno.EXDEV)

NOT_READ = (errno.EIO, errno.ESTALE, errno.EMFILE)
"""What a system says where it is not the file that cannot be read."""

OF_A_PATH = (
    "stat",
    "lstat",
    "mkdir",
    "unlink",
    "remove",
    "rmdir",
    "scandir",
    "listdir",
    "readlink",
    "truncate",
)
OF_TWO = ("rename", "replace", "link", "symlink")
OF_A_HANDLE = ("fsync", "fstat")
WRITES = frozenset(
    {
        "mkdir", "unlink", "remove", "rmdir", "truncate", "rename", "replace", "link", "symlink", "exchange",
        "fsync", "write", "create", "copy", "times",
    }
)  # fmt: skip
"""Operations that change what is on the disk, or wait for it."""


class Killed(BaseException):
    """The program ends here: nothing that it would still have done to the disk is done."""


class Operation(NamedTuple):
    """One call of the system: its name, the files that it is about, and where in the binding it comes."""

    number: int
    name: str
    paths: tuple[str, ...]
    content: bytes = b""

    @property
    def changes(self) -> bool:
        return self.name in WRITES


class Disk:
    """Passes file operations below `roots` on to the system; `before` may raise, `after` sees those that were done."""

    def __init__(
        self,
        *roots: Path,
        before: Callable[[Operation], None] = lambda one: None,
        after: Callable[[Operation], None] = lambda one: None,
    ) -> None:
        self._roots = tuple(f"{os.path.abspath(root)}" for root in roots)
        self._before, self._after = before, after
        self._handles: dict[int, str] = {}
        self._lock = threading.RLock()
        self._count = 0
        self._is_inside = False
        self.seen: list[Operation] = []

    def is_watched(self, path: Any) -> bool:
        return isinstance(path, str) and any(path == r or path.startswith(f"{r}/") for r in self._roots)

    def path_of(self, path: Any, folder: int | None = None) -> str | None:
        """The whole path of what a call is given: a path, a handle, or a name in the folder of a handle."""
        if isinstance(path, int):
            return self._handles.get(path)
        text = os.fsdecode(path)
        if folder is not None and not os.path.isabs(text):
            around = self._handles.get(folder)
            return f"{around}/{text}" if around else None
        return os.path.abspath(text)

    def call(
        self, name: str, paths: tuple[str | None, ...], real: Callable[[], Any], content: bytes = b""
    ) -> Any:
        """Let one call happen, or not."""
        with self._lock:
            if self._is_inside or not any(map(self.is_watched, paths)):
                return real()
            self._count += 1
            one = Operation(self._count, name, tuple(path or "" for path in paths), content)
            self.seen.append(one)
            self._is_inside = True  # what is done to see to one is none
            try:
                self._before(one)
                result = real()
                self._after(one)
            finally:
                self._is_inside = False
            return result

    # -- what takes the place of the system's calls

    def patches(self) -> Iterator[tuple[Any, str, Any]]:
        for name in OF_A_PATH:
            yield os, name, self._of_path(name, getattr(os, name))
        for name in OF_TWO:
            yield os, name, self._of_two(name, getattr(os, name))
        for name in OF_A_HANDLE:
            yield os, name, self._of_handle(name, getattr(os, name))
        yield os, "open", self._os_open(os.open)
        yield os, "sendfile", self._sendfile(os.sendfile)
        yield io, "open", self._open(io.open)
        yield builtins, "open", self._open(io.open)
        yield shutil, "copystat", self._copystat(shutil.copystat)
        yield fcntl, "flock", self._of_handle("flock", fcntl.flock)
        yield swap, "_exchange", self._exchange(swap._exchange)

    def _of_path(self, name: str, real: Any) -> Any:
        def run(path: Any = ".", *args: Any, **how: Any) -> Any:
            whole = self.path_of(path, how.get("dir_fd"))
            return self.call(name, (whole,), lambda: real(path, *args, **how))

        return run

    def _of_two(self, name: str, real: Any) -> Any:
        def run(one: Any, other: Any, *args: Any, **how: Any) -> Any:
            paths = self.path_of(one, how.get("src_dir_fd")), self.path_of(other, how.get("dst_dir_fd"))
            return self.call(name, paths, lambda: real(one, other, *args, **how))

        return run

    def _of_handle(self, name: str, real: Any) -> Any:
        def run(handle: Any, *args: Any) -> Any:
            path = self._handles.get(handle if isinstance(handle, int) else handle.fileno())
            return self.call(name, (path,), lambda: real(handle, *args))

        return run

    def _os_open(self, real: Any) -> Any:
        def run(path: Any, flags: int, *args: Any, **how: Any) -> int:
            whole = self.path_of(path, how.get("dir_fd"))
            new = flags & os.O_CREAT and whole and not os.path.lexists(whole)
            handle: int = self.call(
                "create" if new else "open", (whole,), lambda: real(path, flags, *args, **how)
            )
            self._learn(handle, whole)
            return handle

        return run

    def _sendfile(self, real: Any) -> Any:
        def run(out: int, source: int, *args: Any) -> Any:
            return self.call("copy", (self._handles.get(out),), lambda: real(out, source, *args))

        return run

    def _copystat(self, real: Any) -> Any:
        def run(source: Any, target: Any, **how: Any) -> Any:
            return self.call("times", (self.path_of(target),), lambda: real(source, target, **how))

        return run

    def _exchange(self, real: Any) -> Any:
        def run(one: Path, other: Path) -> bool:
            try:
                return bool(self.call("exchange", (str(one), str(other)), lambda: real(one, other)))
            except OSError:
                return False  # as the call says that it could not

        return run

    def _open(self, real: Any) -> Any:
        def run(file: Any, mode: str = "r", buffering: int = -1, *args: Any, **how: Any) -> Any:
            whole = self.path_of(file)
            if not self.is_watched(whole):
                handle = real(file, mode, buffering, *args, **how)
                if not isinstance(file, int):
                    self._learn(handle.fileno(), None)
                return handle
            makes = any(sign in mode for sign in "wxa")
            name = "create" if makes else "open"
            plain = mode.replace("b", "").replace("t", "")
            raw = _Raw(self, whole, lambda: self.call(name, (whole,), lambda: (file, plain)))
            self._learn(raw.fileno(), whole)
            kind = io.BufferedRandom if "+" in mode else io.BufferedWriter if makes else io.BufferedReader
            buffered = kind(raw)
            return buffered if "b" in mode else io.TextIOWrapper(buffered, *args, **how)

        return run

    def _learn(self, handle: int, path: str | None) -> None:
        """A number of a handle is used again once the file is closed."""
        if self.is_watched(path) and path is not None:
            self._handles[handle] = path
        else:
            self._handles.pop(handle, None)


class _Raw(io.FileIO):
    """A watched file, of which each read and write is an operation."""

    def __init__(self, disk: Disk, path: str | None, opens: Callable[[], tuple[Any, str]]) -> None:
        self._disk, self._path = disk, path
        super().__init__(*opens())

    def readinto(self, buffer: Any) -> Any:
        return self._disk.call("read", (self._path,), lambda: io.FileIO.readinto(self, buffer))

    def readall(self) -> bytes:
        read: bytes = self._disk.call("read", (self._path,), lambda: io.FileIO.readall(self))
        return read

    def close(self) -> None:
        if self.closed:
            return
        try:
            self._disk.call("close", (self._path,), lambda: None)
        finally:
            io.FileIO.close(self)

    def write(self, content: Any) -> int:
        data = bytes(content)
        try:
            written: int = self._disk.call("write", (self._path,), lambda: io.FileIO.write(self, data), data)
        except OSError as fault:
            if fault.errno in FULL:
                io.FileIO.write(self, data[: len(data) // 2])
            raise
        return written


@contextmanager
def watched(disk: Disk) -> Iterator[Disk]:
    with pytest.MonkeyPatch.context() as patch:
        for owner, name, replacement in list(disk.patches()):
            patch.setattr(owner, name, replacement)
        yield disk


def fault(number: int, one: Operation) -> OSError:
    path = one.paths[-1] if one.name in OF_TWO else one.paths[0]
    named = one.name not in ("write", "read", "fsync", "copy", "fstat", "flock", "close")
    return OSError(number, os.strerror(number), path) if named else OSError(number, os.strerror(number))


def failing(at: int, number: int, wanted: Callable[[Operation], bool]) -> Callable[[Operation], None]:
    """Lets the `at`th operation that is wanted fail, and no other. To be handed to `Disk` as `before`."""
    left = at

    def before(one: Operation) -> None:
        nonlocal left
        if wanted(one):
            left -= 1
            if left == 0:
                raise fault(number, one)

    return before


def killed(at: int, wanted: Callable[[Operation], bool]) -> Callable[[Operation], None]:
    """Ends the program at the `at`th operation that is wanted: neither it nor any that would follow is done. But the
    system frees the lock of a program that ends.
    """
    left = at

    def before(one: Operation) -> None:
        nonlocal left
        over = left <= 0
        left -= wanted(one)
        if left <= 0 and not (over and one.paths[0].endswith(f"/{OWN}/lock")):
            raise Killed

    return before


def refuses(name, number, of=lambda path: True):
    def before(one):
        if one.name == name and of(one.paths[0]):
            raise OSError(
                number, os.strerror(number), *(one.paths[:1] if name not in ("fsync", "flock") else ())
            )

    return before


LESS = {
    "no links": refuses("link", errno.EPERM),
    "links to nowhere else": refuses("link", errno.EXDEV),
    "no more links of a file": refuses("link", errno.EMLINK),
    "folders are not exchanged": refuses("exchange", errno.EINVAL),
    "folders are not waited for": refuses("fsync", errno.EINVAL, os.path.isdir),
    "no locks": refuses("flock", errno.ENOLCK),
}
"""Disks that can less than others, by what they cannot."""
