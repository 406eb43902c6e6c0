"""What the piece weighs and what carbon its wood holds, part by part."""

from __future__ import annotations

import math

from buildbook.job.model import Job, Part
from buildbook.summary.model import Air, Carbon, Mass, PartMass, SpeciesCarbon
from buildbook.summary.volume import net_m3
from buildbook.trade import carbon, mass, tables, woods
from buildbook.trade.records import NotKnown

_FIELDS = {"wood": "wood", "panel": "panels", "glass": "glass", "stone": "stone", "hardware": "hardware"}


def _density(part: Part) -> float | None:
    if part.kind == "panel" and part.key in tables.sheets():
        return tables.sheets()[part.key].density_kg_m3
    if part.kind == "glass":
        known = tables.glass()
        return known[part.key].density_kg_m3 if part.key in known else tables.constant("glass_density")
    if part.kind == "stone" and part.key in tables.stones():
        return tables.stones()[part.key].density_kg_m3
    return None


def part_kg(part: Part, made_mc_pct: float) -> float | None:
    """Mass of a row: what the row says, else volume times density; None when neither is known."""
    if part.mass_kg is not None:
        return part.qty * part.mass_kg
    volume_m3 = net_m3(part)
    if volume_m3 is None:
        return None
    if part.kind == "wood" and part.key:
        gravity = woods.sg_12(tables.species()[part.key])
        return None if isinstance(gravity, NotKnown) else mass.wood_kg(volume_m3, gravity.value, made_mc_pct)
    density = _density(part)
    return None if density is None else mass.mass_kg(volume_m3, density)


def mass_of(job: Job, air: Air) -> Mass:
    """Mass by kind and by part. Supplies (glue, abrasives) are not weighed unless their row says a mass."""
    rows, unknown = [], []
    totals = dict.fromkeys((*_FIELDS.values(), "other"), 0.0)
    for part in job.parts:
        kg = part_kg(part, air.made_mc_pct)
        if kg is None:
            if part.kind != "supply":
                unknown.append(part.name)
            continue
        rows.append(PartMass(part.name, part.row, kg))
        totals[_FIELDS.get(part.kind, "other")] += kg
    total = math.fsum(totals.values())
    assumed = []
    if totals["wood"]:
        assumed.append(f"wood at {air.made_mc_pct:.1f} % moisture, as made")
    counted = [part for part in job.parts if part.mass_kg is None]
    if any(part.round and not part.wall for part in counted):
        assumed.append(
            "what is round was counted as full rods and discs; turned to a profile it is less, and what is hollow"
            " is told by its wall"
        )
    if any(part.wall for part in counted):
        assumed.append(
            "what is hollow was counted with straight walls and a floor as thick; curved inside or out it is less"
        )
    return Mass(
        wood_kg=totals["wood"],
        panels_kg=totals["panels"],
        glass_kg=totals["glass"],
        stone_kg=totals["stone"],
        hardware_kg=totals["hardware"],
        other_kg=totals["other"],
        total_kg=total,
        loaded_kg=total + job.quantity * job.contents_kg if job.contents_kg is not None else None,
        parts=tuple(rows),
        unknown=tuple(dict.fromkeys(unknown)),
        assumed=tuple(assumed),
    )


def carbon_of(job: Job, air: Air) -> Carbon:
    """Carbon dioxide whose carbon the wood and the sheets hold (EN 16449), by material."""
    stored: dict[str, float] = {}
    for part in job.parts:
        volume_m3 = net_m3(part)
        if volume_m3 is None:
            continue
        if part.kind == "wood" and part.key:
            wood = tables.species()[part.key]
            gravity = woods.sg_12(wood)
            if not isinstance(gravity, NotKnown):
                kg = mass.wood_kg(volume_m3, gravity.value, air.made_mc_pct)
                stored[wood.name] = stored.get(wood.name, 0.0) + carbon.stored_kg_co2(kg, air.made_mc_pct)
        elif part.kind == "panel" and part.key in tables.sheets():
            sheet = tables.sheets()[part.key]
            kg_co2 = carbon.stored_in_volume_kg_co2(
                volume_m3, sheet.density_kg_m3, sheet.mc_pct, sheet.wood_share
            )
            stored[sheet.name] = stored.get(sheet.name, 0.0) + kg_co2
    assumed = ("half of the oven-dry mass is carbon (EN 16449)",) if stored else ()
    return Carbon(math.fsum(stored.values()), tuple(SpeciesCarbon(*item) for item in stored.items()), assumed)
