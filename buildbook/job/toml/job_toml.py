"""job.toml -> the fields of `Job` that it states. In: its bytes. Out: a dict by the names of `Job`.

Checks what one file can be checked for; what takes other files is in `cross_checks`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from buildbook.job.holding_model import Fastener, Hanging, Wall
from buildbook.job.model import Size, Working
from buildbook.job.table.countries import find_country
from buildbook.job.text import shown
from buildbook.job.toml import keys
from buildbook.job.toml.air import read_climate, read_made_at
from buildbook.job.toml.as_typed import units_said
from buildbook.job.toml.deliveries import read_deliveries
from buildbook.job.toml.file import TomlTable, named, read_toml
from buildbook.job.toml.finishes import read_finishes
from buildbook.job.toml.workings import read_workings
from buildbook.problems import Problems, did_you_mean
from buildbook.quantity import Length

FILE = "job.toml"


@dataclass(frozen=True)
class Stated:
    """What job.toml says, by the names of `Job`.

    lines          of each key that has one, by its name in a problem (`finish[2].coats`).
    finish_fields  that name of each finish, by the finish's own key.
    is_read        the file is TOML; where it is none, nothing can be said of what hangs on it.
    """

    fields: dict[str, Any]
    lines: dict[str, int] = field(default_factory=dict)
    finish_fields: dict[str, str] = field(default_factory=dict)
    is_read: bool = True


def read_job_toml(data: bytes, shop_units: str, problems: Problems, *, decimal_comma: bool = False) -> Stated:
    """What job.toml says; what is missing or wrong is left out, and told. `decimal_comma`: see `read_value`."""
    file = read_toml(data, FILE, problems)
    if file is None:
        return Stated({"units": shop_units}, is_read=False)
    file.decimal_comma = decimal_comma
    top = file.top(keys.JOB, units_said(file.values.get("units"), keys.UNITS, shop_units))
    found = top.read()
    found |= read_deliveries(top, found)
    _check_days(top, found)
    _find_country(top, found)
    finishes = read_finishes(top, found)
    workings = read_workings(top)
    _check_counted(workings, tuple(finishes))
    overall = top.table("overall", keys.OVERALL)
    if overall:
        _called_otherwise(overall)
    photos = top.table("photos", keys.PHOTOS)
    fields = {
        **found,
        **(photos.read() if photos else {}),
        "units": top.units,
        "overall": Size(**overall.read()) if overall else Size(),
        "climate": read_climate(top.table("climate", keys.CLIMATE)),
        "made_at": read_made_at(top.table("made_at", keys.MADE_AT)),
        "finishes": tuple(finish for finish, _ in finishes.values()),
        "hanging": _hanging(top.table("hanging", keys.HANGING)),
        "workings": tuple(working for working, _ in workings),
    }
    lines = {named(path): line for path, line in file.lines.items()}
    return Stated(fields, lines, {key: f"{named(table.path)}.key" for key, (_, table) in finishes.items()})


_SIZES_TOO = {"thickness": "depth", "length": "width"}
"""What a gate or a bench is measured by, and which of the three outer sizes that is."""


def _called_otherwise(overall: TomlTable) -> None:
    """The outer sizes by the names that a piece has for them."""
    for said, name in _SIZES_TOO.items():
        if said in overall.values and name not in overall.values:
            overall.values[name] = overall.values.pop(said)


def _check_days(top: TomlTable, found: dict[str, Any]) -> None:
    begun, delivered = found.get("begun"), _first_gone(found)
    if begun and delivered and delivered < begun:
        top.error(
            f"Delivered on {delivered.isoformat()}, before it was begun on {begun.isoformat()}.",
            "Put right whichever day is wrong.",
            "delivered" if "delivered" in top.values else "delivery",
        )


def _first_gone(found: dict[str, Any]) -> date | None:
    """The first day that a piece went."""
    days = [sent.day for sent in found.get("deliveries", ())]
    return min(days, default=found.get("delivered"))


def _find_country(top: TomlTable, found: dict[str, Any]) -> None:
    """Where it goes, by its code; left out, and told, where no such country is known."""
    if not found.get("goes_to_code"):
        return
    said = found.pop("goes_to_code")
    known = find_country(said)
    if known.country is None:
        top.warn(f"{shown(said)} is not a country that is known here.", known.hint, "goes_to")
    else:
        found["goes_to_code"] = known.country.code


def _check_counted(workings: Iterable[tuple[Working, TomlTable]], finishes: Sequence[str]) -> None:
    """Workings that count the coats of a finish name one of this job."""
    for working, table in workings:
        key = str(working.inputs.get("finish", ""))
        if key and key not in finishes:
            hint = did_you_mean(key, finishes) or "Write a [[finish]] with this key."
            table.error(f"{shown(key)} is not a finish of this job.", hint, "finish")


# -- hanging -------------------------------------------------------------------------------------


def _hanging(table: TomlTable | None) -> Hanging | None:
    if table is None:
        return None
    found = _in_metres(table.read())
    if not found.get("method"):
        return None
    return Hanging(
        **found,
        fastener=_fastener(table.table("fastener", keys.FASTENER)),
        wall=_wall(table.table("wall", keys.WALL)),
    )


def _fastener(table: TomlTable | None) -> Fastener | None:
    if table is None:
        return None
    found = _in_metres(table.read())
    if len(found) < len(table.spec.keys):
        return None
    if found["in_wall_m"] > found["length_m"]:
        table.error(
            "More of the fastener is in the wall than it is long.", "Put right length or in_wall.", "in_wall"
        )
    return Fastener(**found)


def _wall(table: TomlTable | None) -> Wall | None:
    found = table.read() if table else {}
    return Wall(**found) if found.get("kind") else None


def _in_metres(found: dict[str, Any]) -> dict[str, Any]:
    return {name: value.m if isinstance(value, Length) else value for name, value in found.items()}
