"""The [[finish]] tables of job.toml: families by any name that makers use, layers, days of coats.

In: the table of job.toml, with what else it says. Out: `Finish`es by their keys.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from buildbook.job.model import Finish
from buildbook.job.text import shown
from buildbook.job.toml import keys
from buildbook.job.toml.file import TomlTable
from buildbook.problems import did_you_mean, listed
from buildbook.trade import finish_names, tables
from buildbook.trade.finish import coats_too_near
from buildbook.trade.finish_rows import kinds_of
from buildbook.trade.records import FinishFamily

OTHER = "other"
_OR_OTHER = 'Or write family = "other", and its product.'

Read = dict[str, tuple[Finish, TomlTable]]


def read_finishes(top: TomlTable, job: Mapping[str, Any]) -> Read:
    """The finishes by their keys, each with its table."""
    read: Read = {}
    for table in top.tables("finish", keys.FINISH):
        finish = _finish(table, job)
        if finish is None:
            continue
        if finish.key in read:
            table.error(
                f"There are two finishes with the key {shown(finish.key)}.", "Give each its own key.", "key"
            )
            continue
        read[finish.key] = (finish, table)
    return _layered(read)


def _finish(table: TomlTable, job: Mapping[str, Any]) -> Finish | None:
    found = table.read()
    if not found.get("key") or not found.get("family"):
        return None
    known = tables.finishes().find(found["family"])
    if known is None:
        table.error(
            f"{shown(found['family'])} is not a family of finishes that is known here.",
            _near(found["family"]),
            "family",
        )
        return None
    family = known.record
    if known.assumed:
        table.warn(f"{known.assumed}.", "See that it is.", "family")
    if family.key == OTHER and not found.get("product"):
        table.warn(
            "A finish that is not in the list is told by its product alone, and there is none.",
            "Write product, as it stands on the tin: the page sends the client to its data sheet.",
            "product",
        )
    _check_coats(table, found, job, family)
    return Finish(**{**found, "family": family.key})


def _near(name: str) -> str:
    """What may have been meant: a slip of the pen, else every family of that kind, else every family."""
    if near := finish_names.meant(name, 1):
        return f"Did you mean “{near[0].name}”?"
    of_kind = finish_names.of_kinds(kinds_of(name)) or tuple(tables.finishes())
    return f"Known here: {listed([family.key for family in of_kind], 'and')}. {_OR_OTHER}"


# -- layers --------------------------------------------------------------------------------------


def _layered(read: Read) -> Read:
    """The finishes, each over one of this job or over bare wood; what is not so is told, and left out."""
    by_name = {key.casefold(): key for key in read}
    layered: Read = {}
    for key, (finish, table) in read.items():
        beneath = by_name.get(finish.over.casefold(), "") if finish.over else ""
        if finish.over and not beneath:
            hint = did_you_mean(finish.over, read) or "Write a [[finish]] with this key."
            table.error(f"{shown(finish.over)} is not a finish of this job.", hint, "over")
        layered[key] = (replace(finish, over=beneath), table)
    return {key: _without_ring(key, layered) for key in layered}


def _without_ring(key: str, layered: Read) -> tuple[Finish, TomlTable]:
    finish, table = layered[key]
    seen, below = {key}, finish.over
    while below:
        if below == key:
            table.error(
                f"{shown(key)} lies over {shown(finish.over)}, which lies over it.",
                "Leave `over` out of the one on the bare wood.",
                "over",
            )
            return replace(finish, over=""), table
        if below in seen:
            break
        seen.add(below)
        below = layered[below][0].over
    return finish, table


# -- coats ---------------------------------------------------------------------------------------


def _check_coats(
    table: TomlTable, found: Mapping[str, Any], job: Mapping[str, Any], family: FinishFamily
) -> None:
    coats: tuple[date, ...] = found.get("coats", ())
    begun, delivered = job.get("begun"), job.get("delivered")
    if list(coats) != sorted(coats):
        table.warn("The days of the coats are not in order.", "See that each is right.", "coats")
    for coat in coats:
        if begun and coat < begun:
            table.warn(
                f"A coat on {coat.isoformat()}, before the job was begun on {begun.isoformat()}.",
                "See that both days are right.",
                "coats",
            )
        if delivered and coat > delivered:
            table.warn(
                f"A coat on {coat.isoformat()}, after the piece was delivered on {delivered.isoformat()}.",
                "See that both days are right.",
                "coats",
            )
    if family.recoat_h and (near := coats_too_near(coats, family.recoat_h.low)):
        table.warn(
            f"A coat on {near[0].isoformat()} and the next on {near[1].isoformat()}: {family.name} usually waits"
            f" {family.recoat_h.low:g} hours or more ({family.basis}).",
            "See that both days are right, and what its data sheet says.",
            "coats",
        )
