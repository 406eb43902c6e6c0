"""The air a piece was made in and will live in, and what each solid part does between the two."""

from __future__ import annotations

from buildbook.job.model import Job
from buildbook.job.shop_model import Climate
from buildbook.summary.model import Air, Movement
from buildbook.summary.place import is_outdoors
from buildbook.trade import moisture, movement, tables
from buildbook.trade.records import NotKnown


def equilibrium_mc_pct(temperature_c: float, rh_pct: float, assumed: list[str]) -> float:
    """The moisture content of an air; outside the equation's range the nearest air in it, and said."""
    low, high = tables.constant("emc_temperature_low"), tables.constant("emc_temperature_high")
    if reason := moisture.out_of_range(temperature_c, rh_pct):
        assumed.append(f"{temperature_c:g} °C and {rh_pct:g} %: {reason}; the nearest air in it was taken")
        temperature_c = min(max(temperature_c, low), high)
        rh_pct = min(max(rh_pct, moisture.HUMIDITY[0]), moisture.HUMIDITY[1])
    return moisture.equilibrium_mc_pct(temperature_c, rh_pct)


def air_of(job: Job) -> Air:
    """Moisture content when made, at its driest and at its wettest, with what was assumed."""
    assumed: list[str] = []
    outdoors = is_outdoors(job)
    rooms = job.climate or (None if outdoors else job.shop.climate)
    if rooms is None:
        usual = tables.climates()["outdoors" if outdoors else "default"]
        rooms = Climate(usual.rh_low_pct, usual.rh_high_pct, usual.temperature_c)
        whose = "the air where it stands outdoors was" if outdoors else "the client's rooms were"
        assumed.append(
            f"{whose} not told: {rooms.rh_low_pct:g} to {rooms.rh_high_pct:g} % at"
            f" {rooms.temperature_c:g} °C were assumed ({usual.source})"
        )
    return Air(
        made_mc_pct=_made_mc_pct(job, assumed),
        low_mc_pct=equilibrium_mc_pct(rooms.temperature_c, rooms.rh_low_pct, assumed),
        high_mc_pct=equilibrium_mc_pct(rooms.temperature_c, rooms.rh_high_pct, assumed),
        rh_low_pct=rooms.rh_low_pct,
        rh_high_pct=rooms.rh_high_pct,
        temperature_c=rooms.temperature_c,
        assumed=tuple(assumed),
    )


def is_air_told(job: Job) -> bool:
    """Whether job or shop say what air it lives in; a shop's rooms say nothing of what stands outdoors."""
    return job.climate is not None or (job.shop.climate is not None and not is_outdoors(job))


def all_checked(job: Job, movement: tuple[Movement, ...]) -> bool:
    """Whether each part that moves has its room written, and room enough: only then is it known that the piece allows
    for the seasons.
    """
    looked_at = {row.row for row in movement}
    unseen = any(
        part.kind == "wood" and part.row not in looked_at and (part.width is None or not part.key)
        for part in job.parts
    )
    return bool(movement) and not unseen and all(row.ok for row in movement)


def _made_mc_pct(job: Job, assumed: list[str]) -> float:
    """A meter's reading; else from the air of the workshop; else the usual air of one."""
    made = job.made_at or job.shop.made_at
    if made and made.moisture_pct is not None:
        return made.moisture_pct
    usual = tables.climates()["workshop"]
    rh_pct = made.rh_pct if made and made.rh_pct is not None else (usual.rh_low_pct + usual.rh_high_pct) / 2
    temperature_c = made.temperature_c if made and made.temperature_c is not None else usual.temperature_c
    said = (
        "from the air of the workshop"
        if made and made.rh_pct is not None
        else "assumed: no meter reading and no air of the workshop"
    )
    assumed.append(f"moisture when made {said}, {rh_pct:g} % at {temperature_c:g} °C")
    return equilibrium_mc_pct(temperature_c, rh_pct, assumed)


def movement_of(job: Job, air: Air) -> tuple[Movement, ...]:
    """Every solid part wider across the grain than is worth checking (75 mm), in the order of the parts file."""
    least_m = tables.constant("movement_worth_checking")
    rows = []
    for part in job.parts:
        if part.kind != "wood" or not part.key or part.width is None or part.width.m <= least_m:
            continue
        if part.thickness and part.thickness.m <= tables.constant("thin_leaf") and part.opening is None:
            continue
        wood = tables.species()[part.key]
        moves = movement.movement(
            wood, part.cut or "", part.width.m, air.made_mc_pct, air.low_mc_pct, air.high_mc_pct
        )
        if isinstance(moves, NotKnown):
            continue
        room = movement.opening_check(part.opening.m, part.width.m, moves.grows_m) if part.opening else None
        rows.append(
            Movement(
                part=part.name,
                row=part.row,
                species=wood.name,
                cut=part.cut or "flat",
                width_m=part.width.m,
                made_mc_pct=air.made_mc_pct,
                low_mc_pct=air.low_mc_pct,
                high_mc_pct=air.high_mc_pct,
                grows_m=moves.grows_m,
                shrinks_m=moves.shrinks_m,
                fit=part.fit,
                opening_m=room.opening_m if room else None,
                spare_m=room.spare_m if room else None,
                ok=room.ok if room else None,
                assumed=moves.assumed,
            )
        )
    return tuple(rows)
