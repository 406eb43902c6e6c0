"""photos.toml with changes of the contact sheet: comments, order and whatever else stands in it are kept. Pure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

import msgspec
import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AoT

HEAD = "What was chosen of the pictures. The contact sheet of the bench writes it; you may too."


class Changed(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """What was chosen anew of one picture, by its path in the job folder. UNSET is as it was; an empty caption or day
    takes the words or the day away again.
    """

    file: str
    client: bool | msgspec.UnsetType = msgspec.UNSET
    caption: str | msgspec.UnsetType = msgspec.UNSET
    turn: int | msgspec.UnsetType = msgspec.UNSET
    aside: bool | msgspec.UnsetType = msgspec.UNSET
    day: date | msgspec.UnsetType | None = msgspec.UNSET


class Sent(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """What the page sends. `seen`: the digest of photos.toml as it shows it; `lead`: another one, empty for none."""

    seen: str
    photos: tuple[Changed, ...] = ()
    lead: str | msgspec.UnsetType = msgspec.UNSET


class NotToml(Exception):
    """The file as it stands cannot be read."""


_NOTHING = {"caption": "", "turn": 0, "aside": False, "day": None}
"""What need not be written, since it is so where nothing is said."""


def with_changes(text: str, sent: Sent, means: Callable[[str], str | None], lead_of_job: str) -> str:
    """The file's text with the changes. `means`: the photo that a name in the file means; `lead_of_job`: the lead that
    job.toml names, empty where it names none. Raises `NotToml`.
    """
    try:
        document = tomlkit.parse(text)
    except (TOMLKitError, ValueError) as error:
        raise NotToml(str(error)) from error
    if not text.strip():
        document.add(tomlkit.comment(HEAD))
        document.add(tomlkit.nl())
    if sent.lead is not msgspec.UNSET:
        _set_lead(document, sent.lead, lead_of_job)
    tables = document.get("photo")
    if tables is None:
        tables = tomlkit.aot()
    elif not isinstance(tables, list):
        raise NotToml("photo is no row of tables")
    own: dict[str, Any] = {}
    for table in tables:
        if (name := means(str(table.get("file", "")))) is not None:
            own.setdefault(name, table)
    for change in sent.photos:
        values = msgspec.structs.asdict(change)
        said = {k: v for k, v in values.items() if k != "file" and v is not msgspec.UNSET}
        if change.file in own:
            _set(own[change.file], said)
        elif any(value != _NOTHING.get(key) for key, value in said.items()):
            new = tomlkit.table() if isinstance(tables, AoT) else tomlkit.inline_table()
            new["file"] = change.file
            _set(new, said)
            tables.append(new)
    for place in reversed(range(len(tables))):
        if set(tables[place]) == {"file"}:
            del tables[place]
    if len(tables) and "photo" not in document:
        document["photo"] = tables
    return tomlkit.dumps(document)


def _set_lead(document: tomlkit.TOMLDocument, lead: str, lead_of_job: str) -> None:
    for key, value in (("lead", lead), ("instead_of", lead_of_job if lead_of_job != lead and lead else "")):
        if value:
            document[key] = value
        else:
            document.pop(key, None)


def _set(table: Any, said: Mapping[str, Any]) -> None:
    for key, value in said.items():
        if key in _NOTHING and value == _NOTHING[key]:
            table.pop(key, None)
        elif table.get(key) != value:
            table[key] = value
