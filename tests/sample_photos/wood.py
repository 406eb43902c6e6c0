"""Wood as a solid texture: growth rings about a pith, pores, rays, streaks, so that every face of a part agrees.

Role: `wood(species, finish)` returns a material; `cut_from(part, ...)` says where in the log a part was sawn. A part is
modelled with its grain along local x, its width along y and its thickness along z, in metres; the texture is read in
the part's own coordinates. Quarter-sawn straight lines, flat-sawn cathedrals, ray fleck and end grain then follow from
where the pith lies. Imports `bpy` and `graph`.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

import bpy
from graph import Graph, Value, linear, once

SEED = 20260410


@dataclass(frozen=True)
class Species:
    """What a wood looks like under oil; lengths in metres. Common practice, by eye."""

    early: str  # colour of the early wood, as seen on a screen
    late: str  # colour of the late wood
    dark: str  # colour of pores and streaks
    ring_m: float  # width of a year
    contrast: float  # of late against early wood
    figure_m: float  # how far the rings wander along the log
    pore_m: tuple[float, float]  # length and width of a pore as it is cut by a face
    pore: float  # how dark pores are
    ring_porous: float  # 1: pores only in the early wood
    ray: float = 0.0  # how strong ray fleck is on a quartered face
    streak: float = 0.0  # how strong dark streaks are
    tone: float = 0.06  # how much parts differ


SPECIES = {
    "oak": Species("#c4a073", "#a47d50", "#6a4b2c", 0.0024, 0.7, 0.030, (0.009, 0.00042), 0.6, 0.75, ray=0.4),
    "smoked oak": Species(
        "#806a54", "#66523e", "#3b2b1e", 0.0024, 0.6, 0.035, (0.009, 0.00042), 0.6, 0.75, tone=0.16
    ),
    "walnut": Species(
        "#694b36", "#483124", "#22150e", 0.0046, 0.8, 0.042, (0.008, 0.00034), 0.6, 0.25, 0, 0.75
    ),
    "sycamore": Species(
        "#ecdfc3", "#e0cda9", "#cdb48c", 0.0035, 0.55, 0.030, (0.004, 0.0002), 0.2, 0.0, ray=0.2
    ),
    "beech": Species(
        "#c39a70", "#b1865c", "#7c5836", 0.0032, 0.4, 0.035, (0.0035, 0.0003), 0.6, 0.0, ray=0.3
    ),
    "pine": Species("#c9a375", "#a4713f", "#7d5229", 0.0036, 0.7, 0.05, (0.004, 0.0002), 0.1, 0.0),
    "birch": Species("#dcc39b", "#cfb085", "#a98758", 0.004, 0.3, 0.12, (0.006, 0.0002), 0.3, 0.0),
}
RAW_GAMMA = 0.74  # bare wood is paler than oiled: each channel to this power
RAYS_PER_RADIAN = 420.0
DUSTY_GAMMA, WET_GAMMA = 0.62, 1.12  # sanded and still dry beside the fresh, wet coat


@dataclass(frozen=True)
class Finish:
    """How a surface was left: `oil` 0 bare to 1 oiled, `rough` as the shader takes it."""

    oil: float
    rough: float
    sawn: bool = False  # off the saw: marks across the grain, dusty
    worn: bool = False  # a bench: stains and scratches
    wet_to_m: tuple[float, float] | None = None  # oiled so far: from and to, along the world's x


RAW = Finish(0.0, 0.68)
OILED = Finish(1.0, 0.43)
SAWN = Finish(0.1, 0.9, sawn=True)
WORN = Finish(0.7, 0.55, worn=True)


def cut_from(
    part: bpy.types.Object, cut: str, log: str | None = None, shift=(0.0, 0.0, 0.0), mirror=False
) -> None:
    """Say where in which log the part was sawn.

    `cut` is quarter, rift or flat. Parts with the same `log` continue each other's grain, `shift` (metres) apart.
    `mirror` turns the part over about its x axis: the second leaf of a book match.
    """
    rng = random.Random(f"{SEED}:{log or part.name}")
    side = rng.choice((-1, 1))
    pith = {
        "quarter": (side * rng.uniform(0.22, 0.34), rng.uniform(0.01, 0.04)),
        "rift": (side * rng.uniform(0.14, 0.2), -rng.uniform(0.1, 0.16)),
        "flat": (rng.uniform(-0.03, 0.03), -rng.uniform(0.09, 0.14)),
    }[cut]
    part["wood_pith"] = (0.0, *pith)
    part["wood_tilt"] = (0.0, rng.uniform(-0.008, 0.008), side * rng.uniform(0.02, 0.05) * (cut == "flat"))
    part["wood_seed"] = tuple(rng.uniform(-40, 40) for _ in range(3))
    part["wood_shift"] = tuple(float(v) for v in shift)
    part["wood_flip"] = (1.0, -1.0 if mirror else 1.0, 1.0)
    part["wood_tone"] = rng.uniform(-1, 1)


@dataclass(frozen=True)
class Log:
    """A point of the part as a place in its log; all sockets."""

    place: Value  # in the part, metres
    grain: Value  # along and across the wandering fibres, for noises
    year: Value  # which growth ring
    phase: Value  # 0 spring to 1 autumn in that ring
    radius: Value  # from the pith, metres
    angle: Value  # about the pith, scaled so that 1 is a ray's width


@once
def wood(species: str, finish: Finish = OILED) -> bpy.types.Material:
    """The material of a species (a key of SPECIES) with a finish."""
    g = Graph(f"{species} {finish}")
    kind = SPECIES[species]
    log = _log(g, kind)
    return _surface(g, finish, _colour(g, kind, log), log.place)


def _scaled(g: Graph, at: Value, along_m: float, across_m: float) -> Value:
    return g.vector("MULTIPLY", at, (1 / along_m, 1 / across_m, 1 / across_m))


def _wander(g: Graph, at: Value, along_m: float, across_m: float, reach_m: float) -> Value:
    """How far fibres stray across the log: up to about half `reach_m`."""
    return g.vector("MULTIPLY", g.noise_vector(_scaled(g, at, along_m, across_m)), (0.0, reach_m, reach_m))


def _log(g: Graph, kind: Species) -> Log:
    place = g.coordinates("Object")
    log = g.vector("ADD", g.vector("MULTIPLY", place, g.attribute("wood_flip")), g.attribute("wood_shift"))
    seeded = g.vector("ADD", log, g.attribute("wood_seed"))
    bend = _wander(g, seeded, 0.75, 0.28, 2 * kind.figure_m)
    wave = _wander(g, seeded, 0.16, 0.05, 0.14 * kind.figure_m)
    ripple = _wander(g, seeded, 0.025, 0.004, 0.0009)
    warp = g.vector("ADD", g.vector("ADD", bend, wave), ripple)
    x, _, _ = g.split(log)
    tilt = g.vector(
        "MULTIPLY", g.attribute("wood_tilt"), g.join(x, x, x)
    )  # the tree tapers, the saw does not
    from_pith = g.vector(
        "ADD", g.vector("SUBTRACT", log, g.attribute("wood_pith")), g.vector("ADD", warp, tilt)
    )
    _, y, z = g.split(from_pith)
    radius = g.math("SQRT", g.math("ADD", g.math("MULTIPLY", y, y), g.math("MULTIPLY", z, z)))
    growth = g.noise(g.join(g.math("DIVIDE", radius, 5 * kind.ring_m), 0.0, 0.0), 1.0)
    ring = g.math("MULTIPLY_ADD", growth, 2.2, g.math("DIVIDE", radius, kind.ring_m))
    return Log(
        place,
        grain=g.vector("ADD", seeded, warp),
        year=g.math("FLOOR", ring),
        phase=g.math("FRACT", ring),
        radius=radius,
        angle=g.math("MULTIPLY", g.math("ARCTAN2", y, z), RAYS_PER_RADIAN),
    )


def _colour(g: Graph, kind: Species, log: Log) -> Value:
    """The colour under oil: rings, fibres and clouds between two colours, then streaks, rays and pores."""
    late = g.math("MULTIPLY", g.step(log.phase, 0.15, 0.95), g.step(log.phase, 1.0, 0.93))
    strength = g.math("MULTIPLY_ADD", g.chance(log.year), 0.7 * kind.contrast, 0.5 * kind.contrast)
    fibre = g.noise(_scaled(g, log.grain, 0.05, 0.0011), 2.0, 0.6)
    cloud = g.noise(_scaled(g, log.grain, 0.9, 0.06), 1.0)
    amount = g.math("MULTIPLY_ADD", late, strength, 0.15)
    amount = g.math("ADD", amount, g.math("MULTIPLY_ADD", fibre, 0.5, -0.25))
    amount = g.math("ADD", amount, g.math("MULTIPLY_ADD", cloud, 0.6, -0.3))
    colour = g.mix(amount, linear(kind.early), linear(kind.late))
    if kind.streak:
        colour = g.mix(_streaks(g, kind, log), colour, linear(kind.dark))
    if kind.ray:
        colour = g.mix(_rays(g, kind, log), colour, g.mix(0.5, linear(kind.early), linear("#e0ccae")))
    colour = g.mix(_pores(g, kind, log), colour, linear(kind.dark))
    return g.scale(colour, g.math("MULTIPLY_ADD", g.attribute("wood_tone", "Fac"), kind.tone, 1.0))


def _pores(g: Graph, kind: Species, log: Log) -> Value:
    length, width = kind.pore_m
    flecks = g.step(g.noise(_scaled(g, log.grain, length, width), 1.0), 0.58, 0.70)
    early = g.step(log.phase, 0.55, 0.05)
    share = g.math("MULTIPLY_ADD", early, kind.ring_porous, 1 - kind.ring_porous)
    return g.math("MULTIPLY", g.math("MULTIPLY", flecks, share), kind.pore)


def _rays(g: Graph, kind: Species, log: Log) -> Value:
    """Fleck: thin about the pith, long outwards and a little along, so that it shows on quartered faces only."""
    x, _, _ = g.split(log.grain)
    sway = g.noise(_scaled(g, log.grain, 0.03, 0.012))
    along = g.math("DIVIDE", g.math("MULTIPLY_ADD", sway, 0.012, x), 0.008)
    flakes = g.noise(g.join(along, g.math("DIVIDE", log.radius, 0.020), log.angle), 2.0, 0.6)
    return g.step(flakes, 0.58, 0.74, 0.0, kind.ray)


def _streaks(g: Graph, kind: Species, log: Log) -> Value:
    """Dark bands that follow the rings but come and go along the board."""
    x, y, _ = g.split(log.grain)
    at = g.join(g.math("DIVIDE", log.radius, 0.014), g.math("DIVIDE", x, 0.9), g.math("DIVIDE", y, 0.4))
    return g.step(g.noise(at, 2.0, 0.55), 0.5, 0.78, 0.0, kind.streak)


def _surface(g: Graph, finish: Finish, colour: Value, place: Value) -> bpy.types.Material:
    """Oil, gloss and relief on top of the colour; end grain drinks more and goes darker."""
    oil, rough, coat = finish.oil, finish.rough, 0.0
    dry_gamma, wet_gamma = RAW_GAMMA, 1.0
    if finish.wet_to_m:
        oil = _wet_edge(g, finish.wet_to_m)
        dry_gamma, wet_gamma = DUSTY_GAMMA, WET_GAMMA
        rough, coat = g.blend(oil, RAW.rough, 0.3), g.math("MULTIPLY", oil, 0.5)
    end = g.step(g.math("ABSOLUTE", g.split(g.coordinates("Normal"))[0]), 0.6, 0.9)
    gamma = g.math("MULTIPLY_ADD", end, 0.22, g.blend(oil, dry_gamma, wet_gamma))
    colour = g.node("Gamma", {0: colour, 1: gamma}).outputs[0]
    # The bump is worked out at three points: it gets a cheap noise of its own, not the whole tree.
    height = g.noise(_scaled(g, g.vector("ADD", place, g.attribute("wood_seed")), 0.012, 0.0005), 1.0)
    depth_m = 0.00012
    if finish.sawn:
        colour, height = _sawn(g, colour, height, place)
        depth_m = 0.0004
    if finish.worn:
        colour, height = _worn(g, colour, height)
    return g.principled(
        base_color=colour,
        roughness=rough,
        coat_weight=coat,
        coat_roughness=0.18,
        specular_ior_level=0.4,
        normal=g.bump(height, depth_m, 0.7),
    )


def _sawn(g: Graph, colour: Value, height: Value, place: Value) -> tuple[Value, Value]:
    """Saw marks across the grain, and the grey of boards that have lain."""
    x, y, _ = g.split(place)
    slant = g.math("MULTIPLY_ADD", y, 0.5, x)
    marks = g.noise(g.join(g.math("DIVIDE", slant, 0.0035), g.math("DIVIDE", y, 0.4), 0.0), 2.0, 0.6)
    dust = g.noise(g.vector("DIVIDE", place, (0.3, 0.12, 0.12)), 4.0, 0.6)
    colour = g.mix(g.step(dust, 0.35, 0.75, 0.05, 0.45), colour, linear("#ada087"))
    colour = g.mix(g.step(marks, 0.45, 0.75, 0.0, 0.25), colour, linear("#c4ad94"))
    return colour, g.math("MULTIPLY_ADD", marks, 2.0, height)


def _worn(g: Graph, colour: Value, height: Value) -> tuple[Value, Value]:
    """Stains, scratches and nicks, which run on from one strip of a bench to the next."""
    world = g.node("NewGeometry").outputs["Position"]
    stain = g.noise(g.vector("DIVIDE", world, (0.16, 0.11, 0.1)), 5.0, 0.62)
    colour = g.mix(g.step(stain, 0.5, 0.72, 0.0, 0.45), colour, linear("#6b4c33"))
    scratch = g.noise(g.vector("DIVIDE", world, (0.0018, 0.05, 1.0)), 1.0)
    nick = g.noise(g.vector("DIVIDE", world, (0.006, 0.005, 1.0)), 2.0)
    marks = g.math("MAXIMUM", g.step(scratch, 0.74, 0.8, 0.0, 0.4), g.step(nick, 0.72, 0.78, 0.0, 0.5))
    return g.mix(marks, colour, linear("#4a3423")), g.math("SUBTRACT", height, marks)


def _wet_edge(g: Graph, wet_to_m: tuple[float, float]) -> Value:
    """Oiled share across the world's x axis: wet on the low side, with the wavering edge of a wiped coat."""
    x, y, _ = g.split(g.node("NewGeometry").outputs["Position"])
    waver = g.noise(g.join(g.math("DIVIDE", x, 0.08), g.math("DIVIDE", y, 0.05), 0.0), 4.0, 0.6)
    return g.step(g.math("MULTIPLY_ADD", waver, 0.07, x), wet_to_m[1], wet_to_m[0])
