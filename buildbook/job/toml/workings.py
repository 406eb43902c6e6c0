"""[[worked]] tables of job.toml -> `Working`s."""

from __future__ import annotations

from functools import cache
from typing import Any

from buildbook.folding import folded
from buildbook.job.model import Working
from buildbook.job.text import shown
from buildbook.job.toml.file import TomlTable
from buildbook.job.toml.key import Table
from buildbook.job.toml.said import written
from buildbook.job.toml.working_keys import COMMON, WORKED
from buildbook.problems import did_you_mean, listed
from buildbook.quantity import Length
from buildbook.words import Words, languages

_COMMON_NAMES = tuple(key.name for key in COMMON)


def read_workings(top: TomlTable) -> list[tuple[Working, TomlTable]]:
    """The workings of a job with their tables, in the order written; what is not whole is told, left out."""
    read = [(_working(table), table) for table in top.tables("worked", Table("[[worked]]", "", ()))]
    return [(working, table) for working, table in read if working]


def _working(table: TomlTable) -> Working | None:
    kind = _kind(table)
    if kind is None:
        return None
    table.spec = WORKED[kind]
    found = table.read()
    if any(key.needed and key.target not in found for key in table.spec.keys):
        return None
    if not _whole(kind, table, found):
        return None
    return Working(
        kind=kind,
        title=found.pop("title", ""),
        note=found.pop("note", ""),
        inputs={name: _plain(value) for name, value in found.items() if name != "kind"},
        written={name: written(value) for name, value in table.values.items() if name not in _COMMON_NAMES},
    )


def _kind(table: TomlTable) -> str | None:
    """The kind of a working; None when it has none that is known, which is told."""
    written = table.values.get("kind")
    if not isinstance(written, str):
        kinds = listed((f"“{name}”" for name in WORKED), "or")
        table.error("It has no kind in words.", f"Write kind = one of {kinds}.")
        return None
    kind = _called().get(folded(written), folded(written))
    if kind not in WORKED:
        table.error(f"{shown(written)} is not a kind of working.", did_you_mean(kind, WORKED), "kind")
        return None
    return kind


@cache
def _called() -> dict[str, str]:
    """The kinds by what each language calls them: `auftrennen`."""
    return {
        folded(name): key.replace("_", " ")
        for language in languages()
        for key, name in Words(language).section("workings.kinds").items()
    }


def _plain(value: Any) -> Any:
    return value.m if isinstance(value, Length) else value


def _whole(kind: str, table: TomlTable, found: dict[str, Any]) -> bool:
    """Whether what a kind needs beyond its needed keys is there."""
    if kind == "holes":
        spacing = found.pop("spacing_m", None)
        if spacing:
            found.setdefault("row_spacing_m", spacing)
            found.setdefault("column_spacing_m", spacing)
        if not {"row_spacing_m", "column_spacing_m"} <= set(found):
            table.error("There is no spacing.", 'Write spacing = "32 mm", or row_spacing and column_spacing.')
            return False
    if kind == "coat count" and not {"coats", "finish"} & set(found):
        table.error("There are no coats to count.", "Write coats = 3, or finish = the key of a finish.")
        return False
    if kind == "taper" and found["narrow_m"].m > found["wide_m"].m:
        table.error("The narrow end is wider than the wide end.", "Put right wide or narrow.", "narrow")
        return False
    return True
