"""Prints of a job: one that would be made from the same as in the last edition is kept, the others are made."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

import msgspec

from buildbook.book.disk.write import Staging, sha256
from buildbook.book.redo.made import KeptPrint
from buildbook.pages.shared import Picture
from buildbook.render.copies import copies_of
from buildbook.render.html.theme import Theme, ThemeError
from buildbook.render.print.typeset import Printed, TypesetError


class WantedPrint(NamedTuple):
    """A print: its file name, what it is made from, as one digest, and how it is made."""

    name: str
    made_from: str
    printing: Callable[[], Printed]


def lay_prints(
    wanted: Iterable[WantedPrint], theme: Theme, folder: Staging, before: Mapping[str, KeptPrint]
) -> dict[str, KeptPrint]:
    """Write them into a folder, and say what each was made from. Raises `ThemeError`.

    before  what the prints of the last edition were made from
    """
    prints: dict[str, KeptPrint] = {}
    try:
        for name, of, printing in wanted:
            kept = before.get(name)
            if kept is None or kept.made_from != of or not folder.keep(name):
                printed = printing()
                folder.write(name, printed.pdf)
                kept = KeptPrint(of, printed.problems, printed.left_out)
            prints[name] = kept
    except TypesetError as error:
        raise ThemeError(f"theme {theme.name}, {error}") from error
    return prints


def made_from(parts: object) -> str:
    """One digest of all that decides the bytes of a print."""
    return sha256(msgspec.json.encode(parts))


def copy_within(picture: Picture, folder: Staging, edge: int) -> str:
    """The name of the copy of a picture whose long edge is the largest of at most so many pixels."""
    copies = copies_of(picture.digest, picture.width, picture.height)
    small = next((copy for copy in copies if max(copy.width, copy.height) <= edge), copies[-1])
    return f"photos/{small.name}"


def content_of(folder: Staging, name: str) -> bytes:
    """What a file of the folder holds."""
    return (folder.folder / name).read_bytes()
