"""Which photo of the job a picture in a note means."""

from __future__ import annotations

import posixpath
import re
import unicodedata
from collections.abc import Iterable
from urllib.parse import unquote

from buildbook.job.text import shown
from buildbook.problems import Problems, did_you_mean

_DRIVE = re.compile(r"[A-Za-z]:[\\/]")
_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]+:")


def resolve(reference: str, note_file: str, names: Iterable[str]) -> str | None:
    """The photo that a reference in a note means, by its path in the job folder; None when it means none.

    Looked for beside the note, then in the job folder; %20 is a blank. Nothing outside the job folder is ever
    meant. Spelling of accents makes no difference, nor do capitals where only one photo can be meant.
    """
    known = list(names)
    for path in _paths(reference, note_file):
        if path in known:
            return path
    for path in _paths(reference, note_file):
        alike = [name for name in known if _folded(name) == _folded(path)]
        if len(alike) == 1:
            return alike[0]
    return None


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


def tell_missing(reference: str, note_file: str, line: int, names: Iterable[str], problems: Problems) -> None:
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
    else:
        message = f"{shown(plain)} is not a photo of this job."
        hint = did_you_mean(plain, names) or hint
    problems.warn(note_file, message, hint, line=line)
