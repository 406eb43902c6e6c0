"""Which photo of the job a picture in a note means."""

from __future__ import annotations

import posixpath
import re
import unicodedata
from collections.abc import Iterable, Iterator
from urllib.parse import unquote

from buildbook.job.model import Photo
from buildbook.job.text import shown
from buildbook.problems import Problems, listed

WHOLE_PATH = "Name it by its whole path from the job folder."
NAMED = 3  # photos that a problem names: those of one file name, or all that there are
_DRIVE = re.compile(r"[A-Za-z]:[\\/]")
_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]+:")


class Names:
    """The names that photos of a job have, and which of them are one picture under several names."""

    def __init__(self, photos: Iterable[Photo | str]) -> None:
        self._picture: dict[str, str] = {}
        for photo in photos:
            first, *others = (photo,) if isinstance(photo, str) else (photo.name, *photo.also)
            self._picture |= dict.fromkeys((first, *others), first)
        self._by_path: dict[str, list[str]] = {}
        self._by_file_name: dict[str, list[str]] = {}
        for name in self._picture:
            self._by_path.setdefault(_folded(name), []).append(name)
            self._by_file_name.setdefault(_folded(posixpath.basename(name)), []).append(name)

    def __iter__(self) -> Iterator[str]:
        return iter(self._picture)

    def __contains__(self, name: object) -> bool:
        return name in self._picture

    def alike(self, path: str) -> list[str]:
        """The pictures of a path but for capitals and the spelling of accents."""
        return self.pictures(self._by_path.get(_folded(path), ()))

    def so_called(self, file_name: str) -> list[str]:
        """The pictures that have a file name, in whatever folder; those whose capitals are the same come alone."""
        found = self._by_file_name.get(_folded(file_name), ())
        just_so = [name for name in found if posixpath.basename(name) == file_name]
        return self.pictures(just_so or found)

    def pictures(self, names: Iterable[str]) -> list[str]:
        """These names, but only the first of each picture."""
        return list({self._picture[name]: name for name in reversed(list(names))}.values())[::-1]


def resolve(reference: str, note_file: str, names: Names) -> str | None:
    """The photo that a reference in a note means, by its path in the job folder; None when it means none.

    Looked for beside the note, then in the job folder; %20 is a blank. Nothing outside the job folder is ever
    meant. Spelling of accents makes no difference, nor do capitals where only one photo can be meant. A file name
    alone means the photo that has it, in whatever folder, where only one has it.
    """
    for path in _paths(reference, note_file):
        if path in names:
            return path
    for path in _paths(reference, note_file):
        alike = names.alike(path)
        if len(alike) == 1:
            return alike[0]
    so_called = _so_called(reference, names)
    return so_called[0] if len(so_called) == 1 else None


def _so_called(reference: str, names: Names) -> list[str]:
    """The photos that have a file name, in whatever folder; none for what is more than a file name."""
    plain = unquote(reference)
    if _is_elsewhere(reference) or "/" in plain or "\\" in plain:
        return []
    for form in dict.fromkeys((plain, re.split(r"[?#]", plain)[0])):
        if found := names.so_called(form):
            return found
    return []


def _folded(name: str) -> str:
    return unicodedata.normalize("NFC", name).casefold()


def _paths(reference: str, note_file: str) -> list[str]:
    """The paths in the job folder that a reference may mean, likeliest first."""
    if _is_elsewhere(reference):
        return []
    found = []
    plain = unquote(reference).replace("\\", "/")
    for form in dict.fromkeys((plain, re.split(r"[?#]", plain)[0])):
        for folder in (posixpath.dirname(note_file), ""):
            path = posixpath.normpath(posixpath.join(folder, form))
            if form and path != "." and not path.startswith(("../", "/")) and path != "..":
                found.append(path)
    return list(dict.fromkeys(found))


def _is_elsewhere(reference: str) -> bool:
    plain = unquote(reference).strip()
    return bool(_DRIVE.match(plain) or _SCHEME.match(plain) or plain.startswith(("/", "\\")))


def several(reference: str, names: Names) -> str:
    """What to say of a file name that several photos have; "" for what is none."""
    found = _so_called(reference, names)
    if len(found) < 2:
        return ""
    more = [f"{len(found) - NAMED} more"] if len(found) > NAMED else []
    return f"{shown(unquote(reference))} may be {listed([*found[:NAMED], *more], 'or')}."


def tell_missing(reference: str, note_file: str, line: int, names: Names, problems: Problems) -> None:
    """Why a reference means no photo of the job, as a warning. `line` counts from 1."""
    plain = unquote(reference).strip()
    hint = "Put the picture in the folder photos and name it from there."
    if not plain:
        message = "A picture here names no photo."
    elif _DRIVE.match(plain):
        message = f"{shown(plain)} is a place on one computer."
    elif _SCHEME.match(plain) or plain.startswith("//"):
        message = f"{shown(plain)} is an address outside the job folder; it is not shown."
    elif plain.startswith(("/", "\\")):
        message = f"{shown(plain)} is a place on one computer."
    elif not _paths(reference, note_file):
        message = f"{shown(plain)} is outside the job folder."
    elif message := several(reference, names):
        hint = WHOLE_PATH
    else:
        message = f"{shown(plain)} is not a photo of this job."
        hint = problems.near(plain, names, NAMED) or hint
    problems.warn(note_file, message, hint, line=line)
