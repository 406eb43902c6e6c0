"""What is left of a folder after a power cut at any moment, by the order in which a program changed and synced it.

A disk keeps what it was told to keep: the content of a file that was synced, the names in a folder that was synced. What
came after may be there or not. `Kept` goes along with a program's operations and tells, for the moment that it has come
to, three kinds of what may be left.
"""

import io
import os
import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from tests.book.faults import Operation

_open = io.open


@dataclass(eq=False)
class File:
    """`safe`: what a power cut cannot take; None before the file was ever synced."""

    now: bytes = b""
    safe: bytes | None = None

    def left(self, chance: random.Random | None) -> bytes:
        if self.now == self.safe:
            return self.now
        if chance is None:
            return self.safe or b""
        return chance.choice(
            [self.safe or b"", b"", b"\0" * len(self.now), self.now[: len(self.now) // 2], self.now]
        )


@dataclass(eq=False)
class Folder:
    """`since`: the names in it when it was last synced, and after each change from then on."""

    now: "dict[str, File | Folder]" = field(default_factory=dict)
    since: "list[dict[str, File | Folder]]" = field(default_factory=lambda: [{}])

    def changed(self) -> None:
        self.since.append(dict(self.now))

    def synced(self) -> None:
        self.since = [dict(self.now)]


class Kept:
    """A folder as the system shows it, and what of it is safe."""

    def __init__(self, top: Path) -> None:
        self.top = str(top)
        self.root = self._found(top)

    def _found(self, folder: Path) -> Folder:
        made = Folder()
        for path in folder.iterdir():
            content = None if path.is_dir() else path.read_bytes()
            made.now[path.name] = self._found(path) if content is None else File(content, content)
        made.synced()
        return made

    def at(self, path: str) -> "File | Folder":
        found: File | Folder = self.root
        for name in self._names(path):
            assert isinstance(found, Folder)
            found = found.now[name]
        return found

    def around(self, path: str) -> tuple[Folder, str]:
        *names, last = self._names(path)
        folder = self.at("/".join([self.top, *names]))
        assert isinstance(folder, Folder)
        return folder, last

    def _names(self, path: str) -> list[str]:
        inside = os.path.relpath(path, self.top)
        return [] if inside == "." else inside.split("/")

    # -- what the program does

    def __call__(self, one: Operation) -> None:
        if one.changes:
            getattr(self, f"_{one.name}")(*one.paths)

    def _mkdir(self, path: str) -> None:
        folder, name = self.around(path)
        folder.now[name] = Folder()
        folder.changed()

    def _create(self, path: str) -> None:
        folder, name = self.around(path)
        there = folder.now.get(name)
        if isinstance(there, File):
            there.now = b""
        else:
            folder.now[name] = File()
            folder.changed()

    def _write(self, path: str) -> None:
        file = self.at(path)
        assert isinstance(file, File)
        with _open(path, "rb") as now:
            file.now = now.read()

    _copy = _write

    def _times(self, path: str) -> None:
        pass

    def _fsync(self, path: str) -> None:
        found = self.at(path)
        if isinstance(found, Folder):
            found.synced()
        else:
            found.safe = found.now

    def _unlink(self, path: str) -> None:
        folder, name = self.around(path)
        del folder.now[name]
        folder.changed()

    _rmdir = _remove = _unlink

    def _link(self, source: str, target: str) -> None:
        folder, name = self.around(target)
        folder.now[name] = self.at(source)
        folder.changed()

    def _rename(self, source: str, target: str) -> None:
        (one, name), (other, new) = self.around(source), self.around(target)
        other.now[new] = one.now.pop(name)
        one.changed()
        if one is not other:
            other.changed()

    _replace = _rename

    def _exchange(self, source: str, target: str) -> None:
        (one, name), (other, new) = self.around(source), self.around(target)
        assert one is other
        one.now[name], one.now[new] = one.now[new], one.now[name]
        one.changed()

    # -- what a power cut leaves

    def in_order(self) -> dict[str, bytes]:
        """Every change of names up to now, but of contents only what was synced: a disk with a journal of names."""
        return dict(self._walk(self.root, "", lambda folder: folder.now, None))

    def only_what_was_synced(self) -> dict[str, bytes]:
        return dict(self._walk(self.root, "", lambda folder: folder.since[0], None))

    def by_chance(self, chance: random.Random) -> dict[str, bytes]:
        """Of each folder and each file more or less of what it was not waited for."""
        return dict(self._walk(self.root, "", lambda folder: chance.choice(folder.since), chance))

    def files(self) -> "dict[str, File]":
        """Every file that is seen now, by name."""
        return dict(self._files(self.root, ""))

    def _files(self, folder: Folder, start: str) -> "Iterator[tuple[str, File]]":
        for name, found in folder.now.items():
            if isinstance(found, File):
                yield start + name, found
            else:
                yield from self._files(found, f"{start}{name}/")

    def _walk(self, folder: Folder, start: str, names, chance) -> Iterator[tuple[str, bytes]]:
        for name, found in names(folder).items():
            if isinstance(found, File):
                yield start + name, found.left(chance)
            else:
                yield from self._walk(found, f"{start}{name}/", names, chance)


def laid(files: dict[str, bytes], place: Path) -> None:
    """Lay out what is left."""
    for name, content in files.items():
        path = place / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
