"""photos.toml -> what the maker chose of the pictures. In: its bytes. Out: names as they are written, with their lines.

Which photo a name means, and what follows from a choice, is found in `chosen`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from buildbook.job.toml.file import read_toml
from buildbook.job.toml.photo_keys import CHOSEN, PHOTO
from buildbook.problems import Problems

FILE = "photos.toml"
TURNS = (0, 90, 180, 270)
"""Degrees clockwise that a picture may be turned."""


@dataclass(frozen=True)
class PhotoChoice:
    """What is said of one picture; None where it is not said. `number`: of its table, from 1."""

    file: str
    client: bool | None = None
    caption: str | None = None
    turn: int = 0
    aside: bool = False
    day: date | None = None
    number: int = 0
    line: int | None = None


@dataclass(frozen=True)
class PhotoChoices:
    """All that photos.toml says. `instead_of`: the lead of job.toml that `lead` was chosen over, empty if not said."""

    lead: str = ""
    instead_of: str = ""
    photos: tuple[PhotoChoice, ...] = ()
    lead_line: int | None = None


NOTHING_CHOSEN = PhotoChoices()


def read_choices(data: bytes, problems: Problems) -> PhotoChoices:
    """What photos.toml says; what is wrong is left out, and told with its line."""
    file = read_toml(data, FILE, problems)
    if file is None:
        return NOTHING_CHOSEN
    top = file.top(CHOSEN, "mm")
    found = top.read()
    photos = []
    for number, table in enumerate(top.tables("photo", PHOTO), 1):
        said = table.read()
        turn = said.pop("turn", 0)
        if turn in TURNS:
            said["turn"] = int(turn)
        else:
            table.error(f"{turn:g} is no quarter of a turn.", "Write turn = 0, 90, 180 or 270.", "turn")
        if said.get("file"):
            photos.append(PhotoChoice(**said, number=number, line=file.lines.get(table.path)))
    return PhotoChoices(
        found.get("lead", ""), found.get("instead_of", ""), tuple(photos), file.lines.get(("lead",))
    )
