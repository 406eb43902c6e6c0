"""The two places the pictures are taken in: the workshop with its bench, and the room the piece was made for.

Role: `workshop`, `bench`, `room`. The bench top lies at `BENCH_TOP`, its middle over the origin; the room's back wall
stands just behind a piece at the origin. Imports `props`, `shapes`, `stage`, `surfaces`, `wood`.
"""

from __future__ import annotations

import random

import stage
from props import jar, turned_pot
from shapes import along_grain, board, box, group, rod, tapered
from surfaces import concrete, limewashed_brick, matt, paint, plaster
from wood import OILED, RAW, SAWN, SEED, WORN, cut_from, wood

BENCH_TOP = 0.88
BENCH = (2.0, 0.72, 0.085)
WALL_Y = 0.250
FLOOR_BOARD = 0.150


def workshop(back_y: float = 0.62, leaning: int = 7) -> None:
    """Concrete floor, limewashed wall with boards leaning on it, daylight from a window on the left."""
    box("floor", (9, 9, 0.1), (0, 0, -0.05), concrete(), edge_m=0)
    box("wall", (9, 0.2, 3.4), (0, back_y + 0.1, 1.7), limewashed_brick(), edge_m=0)
    box("left wall", (0.2, 9, 3.4), (-3.4, 0, 1.7), limewashed_brick(), edge_m=0)
    rng = random.Random(SEED)
    for i in range(leaning):
        species = rng.choice(("oak", "oak", "walnut", "pine"))
        size = (rng.uniform(1.7, 2.4), rng.uniform(0.14, 0.26), rng.uniform(0.027, 0.045))
        at = (1.22 + 0.215 * i + rng.uniform(-0.04, 0.04), back_y - 0.14 - 0.035 * (i % 2), size[0] / 2)
        rough = wood(species, SAWN)
        part = board(f"leaning {i}", size, at, rough, along="z", face="y", cut="flat", edge_m=0.002)
        part.rotation_euler.rotate_axis("Z", rng.uniform(-0.04, 0.04))
        part.rotation_euler.rotate_axis("Y", -rng.uniform(0.05, 0.085))
    _tool_shelf(back_y, rng)
    stage.window((-3.1, -0.6, 2.1), (0, 0, 0.8), (1.6, 1.3), 210)
    stage.window((1.5, -3.2, 2.9), (0, 0, 0.8), (2.4, 1.2), 40, (0.86, 0.93, 1.0))
    stage.sky(0.16)


def _tool_shelf(back_y: float, rng: random.Random) -> None:
    board("shelf", (1.7, 0.22, 0.03), (-0.45, back_y - 0.11, 1.42), wood("pine", OILED), cut="flat")
    x = -1.2
    while x < 0.3:
        radius, high = rng.uniform(0.035, 0.06), rng.uniform(0.09, 0.19)
        kind = rng.choice((jar, jar, turned_pot, None))
        if kind is None:
            size = (2 * radius + 0.04, 0.14, high)
            colour = rng.choice(("#5f7267", "#8a5a3c", "#b9a98a"))
            box("tin", size, (x, back_y - 0.11, 1.435 + high / 2), paint(colour))
        else:
            part = kind(radius, high)
            part.location = (x, back_y - 0.11, 1.435)
        x += 2 * radius + rng.uniform(0.03, 0.09)
    board("tool rack", (1.5, 0.09, 0.025), (-0.45, back_y - 0.013, 1.05), wood("oak"), face="y")
    for i in range(9):
        x = -1.1 + 0.15 * i
        y = back_y - 0.045
        along_grain(rod(f"handle {i}", (x, y, 1.02), (x, y, 1.15), 0.014, wood("beech")))
        box("blade", (rng.uniform(0.008, 0.03), 0.004, 0.16), (x, y, 0.95), paint("#6f7275", 0.35))


def bench(at=(0.0, 0.0, 0.0)) -> None:
    """A beech bench that has been worked on."""
    parts = []
    length, depth, thick = BENCH
    strips = 10
    for i in range(strips):
        size = (length, depth / strips, thick)
        y = (i + 0.5) * depth / strips - depth / 2
        middle = (0, y, BENCH_TOP - thick / 2)
        parts.append(board(f"bench {i}", size, middle, wood("beech", WORN), cut="rift", edge_m=0.0008))
    leg = (BENCH_TOP - thick, 0.09, 0.09)
    for sy in (-0.27, 0.27):
        for sx in (-0.75, 0.75):
            middle = (sx, sy, leg[0] / 2)
            parts.append(board(f"bench leg {sx}{sy}", leg, middle, wood("beech", WORN), along="z", face="y"))
        parts.append(board(f"stretcher {sy}", (1.5, 0.12, 0.05), (0, sy, 0.3), wood("beech", WORN), face="y"))
    group(parts, at)


def trestle(x: float, height_m: float) -> None:
    """A pine sawhorse across y."""
    pine = wood("pine", RAW)
    at = (x, 0, height_m - 0.045)
    board(f"beam {x}", (0.74, 0.09, 0.055), at, pine, along="y", face="x", cut="flat", edge_m=0.002)
    for sy in (-1, 1):
        for sx in (-1, 1):
            leg = tapered(f"trestle leg {x}{sx}{sy}", (0.07, 0.03), (0.07, 0.03), height_m, pine)
            cut_from(leg, "rift")
            leg.rotation_euler = (0, -1.5708 - sx * 0.16, 0)
            leg.location = (x + sx * 0.115, sy * 0.29, height_m / 2 - 0.01)
        at = (x, sy * 0.29, height_m * 0.42)
        board(f"spreader {x}{sy}", (0.26, 0.06, 0.02), at, pine, face="y", cut="flat")


def room() -> None:
    """Plaster, floorboards, a window on the left that throws its bars across the wall."""
    plastered = plaster()
    box("back wall", (7.0, 0.2, 3.2), (0.6, WALL_Y + 0.1, 1.6), plastered, edge_m=0)
    left = -2.35
    low, high, near, far = 0.75, 2.25, -1.75, -0.45
    for name, size, at in (
        ("sill wall", (0.25, 6, low), (left, -2.7, low / 2)),
        ("lintel wall", (0.25, 6, 3.2 - high), (left, -2.7, (3.2 + high) / 2)),
        ("near pier", (0.25, 4, high - low), (left, near - 2.0, (low + high) / 2)),
        ("far pier", (0.25, WALL_Y - far, high - low), (left, (WALL_Y + far) / 2, (low + high) / 2)),
    ):
        box(name, size, at, plastered, edge_m=0)
    white = paint("#e6e2d8", 0.4)
    for y in (near, (near + far) / 2, far):
        box("mullion", (0.05, 0.045, high - low), (left - 0.05, y, (low + high) / 2), white)
    for i in range(4):
        at = (left - 0.05, (near + far) / 2, low + i * (high - low) / 3)
        box("bar", (0.04, far - near, 0.035), at, white)
    box("skirting", (7.0, 0.016, 0.11), (0.6, WALL_Y - 0.008, 0.055), white, edge_m=0.004)
    _floorboards()
    box("ceiling", (7.0, 6, 0.1), (0.6, -2.6, 3.2), plaster("#e8e4dc"), edge_m=0)
    stage.window((left - 0.35, (near + far) / 2, 1.55), (0.3, -0.5, 0.7), (1.5, 1.7), 215, (0.95, 0.96, 1.0))
    stage.window((2.2, -4.6, 2.5), (0.2, 0, 0.6), (2.6, 1.8), 48, (1.0, 0.95, 0.88))
    stage.sun((0.80, 0.42, -0.30), 3.4)
    stage.sky(0.2)


def _floorboards() -> None:
    rng = random.Random(SEED + 1)
    y = WALL_Y - FLOOR_BOARD / 2
    row = 0
    while y > -4.6:
        x = -2.4 - rng.uniform(0, 1.6)
        while x < 4.2:
            length = rng.uniform(1.6, 2.6)
            size = (length - 0.001, FLOOR_BOARD - 0.0012, 0.02)
            at = (x + length / 2, y, -0.01)
            name = f"floor {row} {x:.2f}"
            cut = rng.choice(("flat", "rift", "quarter"))
            board(name, size, at, wood("smoked oak"), cut=cut, edge_m=0.0012)
            x += length
        y -= FLOOR_BOARD
        row += 1
    box("under floor", (9, 7, 0.05), (0.6, -2, -0.05), matt("#2a221b"), edge_m=0)
