"""Glass, hardware and hanging of a job."""

from __future__ import annotations

import math
from dataclasses import dataclass

from buildbook.job.holding_model import Fastener
from buildbook.job.model import Job
from buildbook.job.parts.glazing import is_low, place_of
from buildbook.summary.model import Glass, HangingLoad, HardwareItem, Mass, Pane
from buildbook.summary.money import Purse
from buildbook.summary.sold import sold_size
from buildbook.summary.style import style_of
from buildbook.trade import glass, hanging, hardware, rounds, tables
from buildbook.trade.metals import metal_in
from buildbook.words import Words

_LAG = ("lag", "coach", "schlüsselschraube", "schluesselschraube", "sechskant-holzschraube")
_SCREW = ("screw", "schraube")
_ANCHORS_DECIDE = (
    "the wall or the fixing is not one that a table here covers:"
    " the maker of the anchors and a qualified person decide"
)
_QUALIFIED = (
    "the wall and its fixings are for a qualified person and the local code;"
    " these are plain sums before adjustment factors"
)
_NOT_IN_IT = (
    "not in these sums: plaster, board or tiles between piece and wall; how far the fixings stand from edges and"
    " ends of the wood and from each other; the screw's own strength; what joins the cleat or the back to the piece;"
    " somebody who pulls or climbs; and the wall itself"
)


def glass_of(job: Job) -> Glass:
    """Every pane: area, mass, and why its place may call for safety glazing."""
    panes = []
    for part in job.parts:
        if part.kind != "glass" or not (part.length and part.width and part.thickness):
            continue
        kind = tables.glass()[part.key] if part.key in tables.glass() else tables.glass()["float"]
        each_m2 = rounds.face_m2(glass.pane_area_m2(part.length.m, part.width.m), part.round)
        place = place_of(part, job)
        bottom_m = 0.0 if is_low(part, job, place, tables.constant("safety_low_furniture")) else None
        advice = glass.calls_for_safety_glazing(kind, place or "panel", each_m2, bottom_m)
        panes.append(
            Pane(
                part=part.name,
                row=part.row,
                qty=part.qty,
                kind=part.material or kind.name,
                area_m2=part.qty * each_m2,
                thickness_m=part.thickness.m,
                kg=part.qty * glass.pane_kg(each_m2, part.thickness.m, kind.density_kg_m3),
                safety=() if advice.ok else (*advice.reasons, advice.defers),
            )
        )
    return Glass(tuple(panes), math.fsum(p.area_m2 for p in panes), math.fsum(p.kg for p in panes))


def hardware_of(job: Job, purse: Purse) -> tuple[HardwareItem, ...]:
    """Every item of hardware with what to ask for when one breaks: what it is and its sizes."""
    words = Words(job.shop.language)
    style = style_of(job, words)
    items = []
    for part in job.parts:
        if part.kind != "hardware":
            continue
        metal = metal_in(part.material) or metal_in(part.name)
        items.append(
            HardwareItem(
                part=part.name,
                row=part.row,
                qty=part.qty,
                spec=", ".join(said for said in (part.material, sold_size(part, style, words)) if said),
                metal=metal.name if metal else "",
                kg=part.qty * part.mass_kg if part.mass_kg is not None else None,
                for_client=part.for_client,
                cost=purse.sum_of([part.row]),
            )
        )
    return tuple(items)


def hanging_of(job: Job, mass: Mass) -> HangingLoad | None:
    """What each fixing of a piece carries; None unless the job says how it hangs and what with."""
    said = job.hanging
    if said is None or said.fastener is None:
        return None
    fastener, assumed = said.fastener, []
    each_kg = mass.total_kg / job.quantity
    loaded_kg = each_kg if mass.loaded_kg is None else mass.loaded_kg / job.quantity
    if mass.loaded_kg is None:
        assumed.append("what it will carry is not told: the piece alone was counted")
    depth_m = job.overall.depth.m if job.overall.depth else None
    height_m = said.pull_height_m or (job.overall.height.m if job.overall.height else None)
    if said.pull_height_m is None and height_m:
        assumed.append(
            "the height from fixings to lower bearing edge is not told: the overall height was taken"
        )
    if not depth_m or not height_m:
        return None
    load = hanging.load(loaded_kg, depth_m, height_m, fastener.count)
    assumed.append("the load is spread evenly and acts half the depth out; every fixing is an upper one")
    cautions = [_QUALIFIED, _NOT_IN_IT]
    screw = _screw_in_wood(job, cautions)
    allowed_pull_n = _allowed_pull_n(screw, assumed) if screw else None
    allowed_shear_n = _allowed_shear_n(screw, cautions, assumed) if screw else None
    used = {
        "shear": hanging.use_pct(load.shear_each_n, allowed_shear_n) if allowed_shear_n else None,
        "pull": hanging.use_pct(load.pull_each_n, allowed_pull_n) if allowed_pull_n else None,
        "together": hanging.use_together_pct(
            load.shear_each_n, load.pull_each_n, allowed_shear_n, allowed_pull_n
        )
        if allowed_shear_n and allowed_pull_n
        else None,
    }
    return HangingLoad(
        mass_kg=each_kg,
        loaded_kg=loaded_kg,
        method=said.method,
        fasteners=fastener.count,
        shear_each_n=load.shear_each_n,
        pull_each_n=load.pull_each_n,
        allowed_shear_n=allowed_shear_n,
        allowed_pull_n=allowed_pull_n,
        shear_use_pct=used["shear"],
        pull_use_pct=used["pull"],
        together_use_pct=used["together"],
        use_pct=max((pct for pct in used.values() if pct is not None), default=None),
        cautions=tuple(cautions),
        assumed=tuple(assumed),
    )


@dataclass(frozen=True)
class _WallScrew:
    """A screw in the wood of a wall of a specific gravity."""

    fastener: Fastener
    gravity: float
    kind: hanging.Kind


def _screw_in_wood(job: Job, cautions: list[str]) -> _WallScrew | None:
    """The fixing, where it is a screw and the wood of the wall is known; else the anchors' maker decides."""
    assert job.hanging
    assert job.hanging.fastener
    fastener, wall = job.hanging.fastener, job.hanging.wall
    gravity = wall.specific_gravity if wall else None
    if gravity is None and wall and (found := tables.wall_woods().find(wall.kind)):
        gravity = found.record.sg
    name = fastener.kind.casefold()
    lag = any(word in name for word in _LAG)
    if gravity is None or not (lag or any(word in name for word in _SCREW)):
        cautions.append(_ANCHORS_DECIDE)
        return None
    kind: hanging.Kind = "lag screw" if lag else "wood screw"
    if hanging.is_short(fastener.diameter_m, fastener.in_wall_m, kind):
        cautions.append(
            f"the fixing goes less than {'four' if lag else 'six'} diameters into the wood of the wall:"
            " it does not count, and no load was held against what it allows (NDS, as recalled)"
        )
        return None
    return _WallScrew(fastener, gravity, kind)


def _allowed_pull_n(screw: _WallScrew, assumed: list[str]) -> float:
    """Allowable withdrawal of one fixing (NDS): by the thread that is in the wall."""
    fastener = screw.fastener
    thread_m = hanging.thread_in_wall_m(
        screw.kind, fastener.length_m, fastener.diameter_m, fastener.in_wall_m
    )
    if thread_m < fastener.in_wall_m:
        share = (
            "half its length and half an inch, without the tip" if screw.kind == "lag screw" else "two thirds"
        )
        assumed.append(
            f"not all that is in the wall holds: of a {screw.kind} {share} are thread (as recalled)"
        )
    return hanging.allowed_pull_n(screw.kind, screw.gravity, fastener.diameter_m, thread_m)


def _allowed_shear_n(screw: _WallScrew, cautions: list[str], assumed: list[str]) -> float | None:
    """Allowable lateral load of one fixing (NDS): of a wood screw that goes through something into the wall."""
    fastener = screw.fastener
    side_m = fastener.length_m - fastener.in_wall_m
    counted = hardware.screw_in_shear(fastener.diameter_m)
    if (
        screw.kind == "lag screw"
        or side_m <= 0
        or counted is None
        or counted.root_m is None
        or counted.bending_pa is None
    ):
        cautions.append(
            "the downward load was not held against what the fixing allows: no table here covers it"
        )
        return None
    assumed.append(
        f"in shear the screw counts as {counted.name}, what it goes through is as dense as the wood of the wall, and"
        " lies on it: plaster or board between them carries nothing and takes from it"
    )
    return hanging.allowed_shear_at_depth_n(
        counted.diameter_m,
        counted.root_m,
        counted.bending_pa,
        side_m,
        fastener.in_wall_m,
        screw.gravity,
        screw.gravity,
    )
