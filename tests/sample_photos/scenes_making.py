"""The making, in the workshop: stock, leaves, glue-up, dovetails, dry fit, hardware, first coat.

Role: each function sets a scene up and leaves a camera in it. Imports `piece`, `props`, `rooms`, `shapes`, `stage`,
`surfaces`, `wood`.
"""

from __future__ import annotations

import math
import random

import piece
import stage
from mathutils import Matrix
from props import bar_clamp, chisel, dropped_cloth, jar, marking_gauge, pencil, shaving, try_square
from rooms import BENCH_TOP, bench, trestle, workshop
from shapes import board, box, group, placed, tube
from surfaces import matt
from wood import RAW, SAWN, SEED, Finish, wood

SCREW = 0.025


def stock() -> None:
    """Rough-sawn oak in stick, two walnut planks on top."""
    stage.empty(exposure=0.35)
    workshop(back_y=1.35)
    rng = random.Random(SEED + 11)
    z = 0.0
    for layer in range(4):
        z = _sticks(f"stick {layer}", z, 0.80, 0.2 + rng.uniform(-0.02, 0.02), 0.022 if layer else 0.07)
        z = _layer(layer, z, rng)
    z = _sticks("top stick", z, 0.62, 0.16, 0.022)
    for i, (y, width, x) in enumerate(((0.02, 0.27, -0.03), (0.32, 0.24, 0.06))):
        at = (x, y, z + 0.020)
        plank = board(f"plank {i}", (2.1, width, 0.040), at, wood("walnut", SAWN), cut="flat", edge_m=0.003)
        plank.rotation_euler.rotate_axis("Z", rng.uniform(-0.012, 0.012))
    _chalk((1.2012, -0.1, 0.199))
    stage.camera((1.98, -0.66, 0.70), (0.78, 0.07, 0.20), 30, 2.8, focus=(1.18, -0.08, 0.2))


def _sticks(name: str, z: float, length_m: float, y: float, height_m: float) -> float:
    """Three stickers across the stack; the height of their tops."""
    for x in (-0.85, 0.0, 0.85):
        size, at = (length_m, 0.025, height_m), (x, y, z + height_m / 2)
        board(f"{name} {x}", size, at, wood("pine", SAWN), along="y", cut="flat")
    return z + height_m


def _layer(layer: int, z: float, rng: random.Random) -> float:
    """Four boards side by side, the marked one square with the stack; the height of their tops."""
    y, thick = -0.2, 0.034
    for i in range(4):
        marked = (layer, i) == (2, 0)
        length, width = (2.4, 0.2) if marked else (2.4 + rng.uniform(-0.1, 0.05), rng.uniform(0.17, 0.215))
        x, askew = (0.0, 0.0) if marked else (rng.uniform(-0.03, 0.02), rng.uniform(-0.008, 0.008))
        at, cut = (x, y + width / 2, z + thick / 2), rng.choice(("quarter", "rift"))
        part = board(
            f"rough {layer}{i}", (length, width, thick), at, wood("oak", SAWN), cut=cut, edge_m=0.002
        )
        part.rotation_euler.rotate_axis("Z", askew)
        y += width + rng.uniform(0.004, 0.02)
    return z + thick


def _chalk(at) -> None:
    """A mark on the end of a board that faces +x."""
    chalk = matt("#eeeae0", 0.95)
    strokes = (
        [(-0.05, -0.008), (-0.035, 0.009), (-0.02, -0.009), (-0.006, 0.009)],
        [(0.012, 0.010), (0.013, -0.010)],
        [(0.028, 0.008), (0.045, 0.010), (0.046, 0.000), (0.030, -0.009), (0.05, -0.009)],
    )
    for i, stroke in enumerate(strokes):
        mark = tube(f"chalk {i}", [(0, 1.3 * y, 1.3 * z) for y, z in stroke], 0.0028, chalk)
        mark.matrix_world = Matrix.Translation(at) @ Matrix.Diagonal((0.25, 1, 1, 1))


def leaves_opened() -> None:
    stage.empty(exposure=0.1)
    workshop()
    bench()
    size = (0.66, 0.44, 0.008)
    at, shift = (-0.04, 0, BENCH_TOP + 0.0045), (-piece.PANEL_APART, piece.PANEL_OFF_HEART, 0)
    parts = piece.leaves("resawn", size, at, RAW, piece.PANEL_LOG, shift, "y", "z")
    placed(parts[1], (0.003, 0.005, 0), (0, 0, 0.6))
    group(try_square(), (0.36, -0.16, BENCH_TOP), (0, 0, 20))
    group(pencil(), (-0.36, -0.12, BENCH_TOP), (0, 0, 70))
    stage.camera((0.06, -0.80, 1.64), (0.0, 0.01, BENCH_TOP), 38, 4.0, focus=(0.0, -0.08, BENCH_TOP))


def glue_up() -> None:
    stage.empty(exposure=0.1)
    workshop()
    bench()
    under = BENCH_TOP + 0.034
    oak = wood("oak", RAW)
    rough = (piece.WIDTH + 0.03, piece.DEPTH + 0.012, 0.030)
    parts = piece.glued("top", rough, (0, 0, under + 0.015), oak, 5)
    rng = random.Random(SEED + 4)
    for part in parts:
        part.location.x += rng.uniform(-0.012, 0.012)
    opening = piece.DEPTH + 0.012
    for x in (-0.68, 0.0, 0.68):
        clamp = bar_clamp(0.78, opening)
        group(clamp, (x, 0, BENCH_TOP), (0, 0, 0))
    for x in (-0.36, 0.34):
        clamp = bar_clamp(0.79 + 0.01 * x, opening)
        group(clamp, (x, 0, under + 0.030 + 0.034), (0, 180, 0))
    _squeeze_out(under + 0.030, rng)
    stage.camera((1.02, -0.86, 1.50), (0.17, -0.02, BENCH_TOP + 0.01), 31, 4.0, focus=(0.45, -0.15, under))


def _squeeze_out(z: float, rng: random.Random) -> None:
    """Beads of glue along the joints."""
    glue = matt("#c6a468", 0.35)
    each = (piece.DEPTH + 0.012) / 5
    for joint in range(1, 5):
        y = joint * each - (piece.DEPTH + 0.012) / 2
        x = -0.78
        while x < 0.78:
            length = rng.uniform(0.003, 0.03)
            points = [(x + length * t, y + rng.uniform(-0.0006, 0.0006), z) for t in (0, 0.33, 0.66, 1)]
            tube("glue", points, rng.uniform(0.0007, 0.0015), glue)
            x += length + rng.uniform(0.004, 0.06)


def dovetails() -> None:
    stage.empty(exposure=0.1)
    workshop()
    bench()
    front = piece.drawer_front("drawer front 1", RAW, 1)
    placed(front, (-0.20, 0.14, BENCH_TOP + piece.DRAWER[2] / 2), (90, 0, -64))  # inner face up
    side = piece.drawer_side("drawer side 1", RAW)
    placed(side, (0.02, 0.0, BENCH_TOP + piece.DRAWER_SIDE / 2), (0, 0, 20))
    group(chisel(), (-0.045, -0.155, BENCH_TOP), (0, 0, 6))
    group(marking_gauge(), (0.08, 0.17, BENCH_TOP), (0, 0, 12))
    for i, (x, y, a) in enumerate(((0.03, -0.105, 30), (0.14, -0.085, 160), (0.0, 0.11, 80))):
        placed(shaving(i), (x, y, BENCH_TOP), (0, 0, a))
    stage.camera(
        (0.03, -0.50, 1.26), (0.01, -0.01, BENCH_TOP + 0.01), 48, 5.6, focus=(0.0, -0.03, BENCH_TOP + 0.01)
    )


def dry_fit() -> None:
    stage.empty(exposure=0.2)
    workshop(back_y=1.5)
    bench((-0.3, 1.1, 0))
    height = 0.62
    for part in piece.carcase(RAW, back=False):
        placed(part, (0, 0, height - piece.STAND))
    for x in (-0.5, 0.5):
        trestle(x, height)
    stage.camera((0.92, -2.15, 1.38), (0.06, 0, 0.70), 32, 2.8, focus=(0.1, -0.2, 0.8))


def hardware() -> None:
    stage.empty(exposure=0.1)
    workshop()
    bench()
    rng = random.Random(SEED + 8)
    for i in range(4):
        at = (-0.115 + 0.066 * i, 0.045 + rng.uniform(-0.003, 0.003), BENCH_TOP)
        group(piece.hinge(f"hinge {i}"), at, (0, 0, 90 + rng.uniform(-4, 4)))
    for i in range(5):
        lying = i == 4
        at = (-0.115 + 0.05 * i, -0.022, BENCH_TOP + (0.0104 if lying else 0))
        placed(piece.knob(), at, (90, 0, -35) if lying else (0, 0, 0))
    tip = math.degrees(math.asin((0.0034 - 0.0016) / SCREW))
    for i in range(18):
        part = piece.screw(f"screw {i}", SCREW)
        row, place = divmod(i, 9)
        at = (-0.088 + 0.026 * place + rng.uniform(-0.002, 0.002), -0.062 - 0.033 * row, BENCH_TOP + 0.0017)
        placed(part, at, (90 - tip, 0, -120 + rng.uniform(-9, 9)))
    group(pencil(), (-0.03, 0.10, BENCH_TOP), (0, 0, 6))
    stage.camera((0.02, -0.335, 1.165), (0.006, -0.024, BENCH_TOP), 54, 7.0, focus=(0.0, -0.03, BENCH_TOP))


def first_coat() -> None:
    """A door on bearers, oiled as far as the middle; portrait."""
    stage.empty(exposure=0.1)
    workshop()
    bench()
    for x in (-0.16, 0.16):
        at = (x, 0, BENCH_TOP + 0.015)
        board(f"bearer {x}", (0.6, 0.045, 0.03), at, wood("pine", RAW), along="y", cut="flat")
    z = BENCH_TOP + 0.030 + piece.DOOR[2] / 2
    half_oiled = Finish(1.0, 0.4, wet_to_m=(-0.03, 0.03))
    parts = piece.door(-1, half_oiled, fittings=False)
    hung = (-piece.DOOR_X, piece.FRONT_Y + piece.DOOR[2] / 2, piece.STAND + piece.CASE_HEIGHT / 2)
    group(parts, tuple(-v for v in hung))
    group(parts, (0, 0, z), (-90, 0, 0))  # on its back
    grounds = [
        box("ground", (piece.DOOR[0], piece.DOOR[1], 0.02), (0, 0, z + piece.DOOR[2] / 2 - 0.0095), edge_m=0),
        box("bench ground", (1.2, 0.9, 0.02), (0, 0, BENCH_TOP - 0.0098), edge_m=0),
    ]
    dropped_cloth((-0.03, -0.19, z + 0.06), 0.27, "#cfc4ae", grounds)
    for ground in grounds:
        ground.hide_render = True
    jar(0.038, 0.10, 0.55).location = (-0.17, 0.30, BENCH_TOP)
    stage.camera((0.08, -0.54, 1.70), (0.0, -0.005, BENCH_TOP + 0.03), 40, 4.0, focus=(0.0, -0.05, z))
