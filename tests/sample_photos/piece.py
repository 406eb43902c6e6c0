"""The sideboard with a slate inset, part by part, in metres.

Role: `stand`, `carcase`, `top`, `door`, `drawer`, `knob`, `hinge`, `screw` and the whole as `sideboard`. The origin
is on the floor under the middle of the piece; x runs to the right, y to the back, z up. Imports `shapes`, `surfaces`,
`wood`.
"""

from __future__ import annotations

import bpy
from shapes import beside, board, box, cut_away, laid, placed, prism, tapered, turned
from surfaces import brass, glass, slate, steel
from wood import OILED, Finish, cut_from, wood

WIDTH, DEPTH, HEIGHT = 1.600, 0.450, 0.780
TOP = 0.027
CASE_WIDTH, CASE_DEPTH, CASE_HEIGHT = 1.560, 0.430, 0.503
STAND = 0.250
PLY = 0.006
SIDE = 0.020
GAP = 0.0015
SLAB = (0.420, 0.300, 0.020)
SLAB_X = 0.490  # middle of the slate, near the right end
DOOR = (0.497, 0.460, 0.022)
FRAME = 0.055
DRAWERS = 3
DRAWER_SIDE = 0.010
TAIL_DEPTH = 0.015  # of the front's 20 mm: the rest is the lap
TAIL_SLOPE = 1 / 7
FIT = 0.00012  # air between a tail and its socket
PANEL_LOG = "walnut plank"  # both doors' leaves were resawn from one plank,
PANEL_APART = 0.45  # so far apart along it,
PANEL_OFF_HEART = -0.06  # with the crown of the figure near the joint

CASE_FLOOR = STAND + SIDE
BAY_HEIGHT = CASE_HEIGHT - 2 * SIDE
DOOR_BAY = DOOR[0] + 2 * GAP
CENTRE_BAY = CASE_WIDTH - 4 * SIDE - 2 * DOOR_BAY
DIVISION_X = CENTRE_BAY / 2 + SIDE / 2
DOOR_X = DIVISION_X + SIDE / 2 + DOOR_BAY / 2
FRONT_Y = -CASE_DEPTH / 2
DRAWER = (CENTRE_BAY - 2 * GAP, (BAY_HEIGHT - (DRAWERS + 1) * GAP) / DRAWERS, 0.020)


def glued(name, size, at, material, boards: int, *, along="x", face="z", cut="quarter", edge_m=0.0004):
    """A panel edge-glued from narrow boards, each from another log."""
    length, width, thickness = size
    each = width / boards
    parts = []
    for i in range(boards):
        where = beside(at, along, face, (i + 0.5) * each - width / 2)
        log = {"along": along, "face": face, "cut": cut, "edge_m": edge_m}
        parts.append(board(f"{name} {i}", (length, each, thickness), where, material, **log))
    return parts


def stand(finish: Finish = OILED) -> list[bpy.types.Object]:
    oak = wood("oak", finish)
    x, y, rail = 0.715, 0.170, 0.040
    parts = []
    for sx in (-1, 1):
        for sy in (-1, 1):
            leg = tapered(f"leg {sx}{sy}", (0.045, 0.045), (0.027, 0.027), STAND, oak)
            leg.matrix_world = laid("z", "y").to_4x4()
            cut_from(leg, "rift")
            parts.append(placed(leg, (sx * x, sy * y, STAND / 2)))
        at = (sx * x, 0, STAND - rail / 2)
        parts.append(board(f"end rail {sx}", (2 * y, rail, 0.02), at, oak, along="y", face="x"))
    for sy in (-1, 1):
        at = (0, sy * y, STAND - rail / 2)
        parts.append(board(f"long rail {sy}", (2 * x, rail, 0.02), at, oak, face="y"))
    return parts


def carcase(finish: Finish = OILED, back: bool = True) -> list[bpy.types.Object]:
    oak = wood("oak", finish)
    middle = STAND + CASE_HEIGHT / 2
    parts = []
    for name, x in (("left side", -1), ("right side", 1)):
        at = (x * (CASE_WIDTH - SIDE) / 2, 0, middle)
        parts += glued(name, (CASE_HEIGHT, CASE_DEPTH, SIDE), at, oak, 3, along="z", face="x", cut="rift")
    for name, z in (("case bottom", STAND + SIDE / 2), ("case top", STAND + CASE_HEIGHT - SIDE / 2)):
        size = (CASE_WIDTH - 2 * SIDE, CASE_DEPTH, SIDE)
        parts += glued(name, size, (0, 0, z), oak, 4, cut="rift")
    for name, x in (("left division", -1), ("right division", 1)):
        size = (BAY_HEIGHT, CASE_DEPTH - 0.012, SIDE)
        parts += glued(name, size, (x * DIVISION_X, -0.006, middle), oak, 3, along="z", face="x", cut="rift")
    if back:
        size = (CASE_WIDTH - 2 * SIDE, BAY_HEIGHT, PLY)
        at = (0, CASE_DEPTH / 2 - 0.009, middle)
        parts.append(board("back", size, at, wood("birch", finish), face="y", cut="flat"))
    return parts


def glass_shelf() -> bpy.types.Object:
    at = (-DOOR_X, 0.01, STAND + CASE_HEIGHT / 2)
    return box("glass shelf", (DOOR_BAY - 0.003, 0.36, 0.006), at, glass())


def top(finish: Finish = OILED) -> list[bpy.types.Object]:
    """Five quarter-sawn boards with the slate let in flush."""
    at = (0, 0, HEIGHT - TOP / 2)
    boards = glued("top", (WIDTH, DEPTH, TOP), at, wood("oak", finish), 5)
    length, width, thickness = SLAB
    for part in boards:
        hole = box("hole", (length + 0.001, width + 0.001, 2 * thickness), (SLAB_X, 0, HEIGHT), edge_m=0)
        cut_away(part, [hole])
    slab = box("slate", SLAB, (SLAB_X, 0, HEIGHT - thickness / 2), slate(), edge_m=0.0012)
    return [*boards, slab]


def knob(at=(0, 0, 0), radius_m: float = 0.011) -> bpy.types.Object:
    """Turned brass, standing out along local z from a small rose."""
    shape = [(0, 0), (0.85, 0), (0.86, 0.1), (0.6, 0.2), (0.42, 0.45), (0.4, 0.75), (0.5, 0.95), (0.8, 1.1)]
    shape += [(0.97, 1.3), (1.0, 1.5), (0.96, 1.7), (0.8, 1.86), (0.5, 1.96), (0.25, 1.995), (0, 2.0)]
    part = turned("knob", [(radius_m * r, radius_m * h) for r, h in shape], brass())
    part.modifiers["edges"].split_angle = 1.0
    part.location = at
    return part


def _knob_on_front(x: float, y: float, z: float) -> bpy.types.Object:
    return placed(knob(), (x, y, z), (90, 0, 0))


def leaves(name, size, at, finish: Finish, log: str, shift, along="z", face="y") -> list[bpy.types.Object]:
    """Two book-matched leaves of walnut, joined on the middle line; `size` is of both together."""
    length, width, thickness = size
    parts = []
    for side, mirror in ((-1, False), (1, True)):
        where = beside(at, along, face, side * width / 4)
        leaf = (length, width / 2, thickness)
        cut = {"cut": "flat", "log": log, "shift": shift, "mirror": mirror}
        walnut = wood("walnut", finish)
        parts.append(
            board(f"{name} leaf {side}", leaf, where, walnut, along=along, face=face, edge_m=0.0002, **cut)
        )
    return parts


def door(side: int, finish: Finish = OILED, fittings: bool = True) -> list[bpy.types.Object]:
    """The left (-1) or right (1) door, closed, with its knob and the knuckles of its hinges (`fittings`)."""
    oak = wood("oak", finish)
    width, height, thickness = DOOR
    x, y, z = side * DOOR_X, FRONT_Y + thickness / 2, STAND + CASE_HEIGHT / 2
    parts = []
    for s in (-1, 1):
        stile_at = (x + s * (width - FRAME) / 2, y, z)
        stile = (height, FRAME, thickness)
        parts.append(board(f"stile {side}{s}", stile, stile_at, oak, along="z", face="y", edge_m=0.0008))
        rail_at = (x, y, z + s * (height - FRAME) / 2)
        rail = (width - 2 * FRAME, FRAME, thickness)
        parts.append(board(f"rail {side}{s}", rail, rail_at, oak, face="y", edge_m=0.0008))
    size = (height - 2 * FRAME + 0.002, width - 2 * FRAME + 0.002, 0.010)
    shift = (PANEL_APART * side, PANEL_OFF_HEART, 0)
    parts += leaves(f"door {side}", size, (x, y + 0.001, z), finish, PANEL_LOG, shift)
    if fittings:
        parts.append(_knob_on_front(x - side * (width - FRAME) / 2, FRONT_Y, z + 0.02))
        for dz in (-0.15, 0.15):
            parts += knuckle((x + side * (width / 2 + GAP / 2), FRONT_Y - 0.001, z + dz))
    return parts


def knuckle(at, length_m: float = 0.050, radius_m: float = 0.0032) -> list[bpy.types.Object]:
    """What is seen of a butt hinge when the door is shut; upright."""
    parts = []
    each = length_m / 5
    for i in range(5):
        half = each / 2 - 0.0001
        eased, flat = radius_m - 0.00015, half - 0.0001
        profile = [(0, -half), (eased, -half), (radius_m, -flat), (radius_m, flat), (eased, half), (0, half)]
        part = turned("knuckle", profile, brass(), 24)
        part.modifiers["edges"].split_angle = 0.4
        part.location = (at[0], at[1], at[2] + (i - 2) * each)
        parts.append(part)
    return parts


def tails(height_m: float, count: int = 4) -> list[tuple[float, float, float, float]]:
    """Each tail as (low, high) at its wide end and (low, high) at its root, up the drawer's side."""
    pitch = height_m / count
    spread = TAIL_DEPTH * TAIL_SLOPE
    found = []
    for i in range(count):
        middle = (i + 0.5) * pitch - height_m / 2
        half = pitch / 2 - 0.0028
        found.append((middle - half, middle + half, middle - half + spread, middle + half - spread))
    return found


def drawer_side(
    name: str, finish: Finish, length_m: float = 0.380, height_m: float = DRAWER[1]
) -> bpy.types.Object:
    """A sycamore side: local x from the tails' ends backwards, y up, z its thickness."""
    outline = [(TAIL_DEPTH, -height_m / 2)]
    for wide_low, wide_high, low, high in tails(height_m):
        outline += [(TAIL_DEPTH, low), (0, wide_low), (0, wide_high), (TAIL_DEPTH, high)]
    outline += [(TAIL_DEPTH, height_m / 2), (length_m, height_m / 2), (length_m, -height_m / 2)]
    part = prism(name, outline, DRAWER_SIDE, wood("sycamore", finish), edge_m=0.00025)
    cut_from(part, "flat")
    return part


def drawer_front(name: str, finish: Finish, row: int = 0) -> bpy.types.Object:
    """A walnut front with half-blind sockets at both ends, about its middle; its face looks towards -y."""
    width, height, thickness = DRAWER
    shift = (0, (1 - row) * (height + GAP), 0)  # local y points down: the three continue one board
    cut = {"cut": "flat", "log": "drawer fronts", "shift": shift}
    part = board(name, DRAWER, (0, 0, 0), wood("walnut", finish), face="y", edge_m=0.0005, **cut)
    tools = []
    for side in (-1, 1):
        for wide_low, wide_high, low, high in tails(height):
            wide = [(-FIT, wide_low - FIT), (-FIT, wide_high + FIT)]
            outline = [*wide, (TAIL_DEPTH + FIT, high + FIT), (TAIL_DEPTH + FIT, low - FIT)]
            tool = prism("socket", outline, 2 * DRAWER_SIDE, edge_m=0)
            tool.matrix_world = laid("y", "x").to_4x4()
            tools.append(placed(tool, (side * width / 2, thickness / 2 - TAIL_DEPTH, 0)))
    return cut_away(part, tools)


def drawer(row: int, finish: Finish = OILED, out_m: float = 0.0) -> list[bpy.types.Object]:
    """Drawer `row`, 0 at the bottom, pulled out by `out_m`."""
    width, height, thickness = DRAWER
    y = FRONT_Y + thickness / 2 - out_m
    z = CASE_FLOOR + GAP + height / 2 + row * (height + GAP)
    parts = [placed(drawer_front(f"drawer front {row}", finish, row), (0, y, z))]
    for s in (-1, 1):
        side = drawer_side(f"drawer side {row} {s}", finish)
        side.matrix_world = laid("y", "x").to_4x4()
        parts.append(placed(side, (s * (width - DRAWER_SIDE) / 2, y + thickness / 2 - TAIL_DEPTH, z)))
    inner = width - 2 * DRAWER_SIDE
    back = (inner, height - 0.02, DRAWER_SIDE)
    pale, ply = wood("sycamore", finish), wood("birch", finish)
    parts.append(board(f"drawer back {row}", back, (0, y + 0.365, z + 0.005), pale, face="y"))
    base = (inner + 0.008, 0.355, PLY)
    parts.append(board(f"drawer base {row}", base, (0, y + 0.187, z - height / 2 + 0.014), ply, cut="flat"))
    parts.append(_knob_on_front(0, y - thickness / 2, z))
    return parts


def sideboard(open_row: int | None = None, out_m: float = 0.0) -> list[bpy.types.Object]:
    """The finished piece."""
    parts = [*stand(), *carcase(), *top(), *door(-1), *door(1), glass_shelf()]
    for row in range(DRAWERS):
        parts += drawer(row, out_m=out_m if row == open_row else 0.0)
    return parts


def hinge(name: str = "hinge") -> list[bpy.types.Object]:
    """A brass butt hinge laid open: pin along x, leaves to both sides in y, the back on z = 0."""
    length, leaf, thickness, radius = 0.050, 0.020, 0.0020, 0.0032
    above = thickness + 0.0003
    sunk = [(0, -0.001), (0.0018, -0.001), (0.0018, 0.0008), (0.0034, above), (0, above)]
    parts = []
    for side in (-1, 1):
        at = (0, side * (leaf / 2 + 0.001), thickness / 2)
        plate = box(f"{name} leaf {side}", (length, leaf, thickness), at, brass(), 0.0004)
        holes = []
        for dx, dy in ((-0.017, 0.0), (0.0, 0.003), (0.017, 0.0)):
            hole = turned("hole", sunk, None, 24)
            hole.modifiers.clear()
            holes.append(placed(hole, (dx, side * (leaf / 2 + 0.002) + side * dy, 0)))
        parts.append(cut_away(plate, holes))
    for part in knuckle((0, 0, 0), length, radius):
        parts.append(placed(part, (0, 0, radius), (0, 90, 0)))
    return parts


def screw(name: str = "screw", length_m: float = 0.020) -> bpy.types.Object:
    """A countersunk stainless screw, head up, its point at z = 0."""
    head, shank, pitch = 0.0034, 0.0015, 0.0011
    profile = [(0, 0), (0.0004, 0.001)]
    z = 0.002
    while z < 0.65 * length_m:
        grow = min(1.0, z / 0.005)
        profile += [(0.0011 * grow, z), (0.0017 * grow, z + pitch / 2)]
        z += pitch
    profile += [(shank, 0.7 * length_m), (shank, length_m - 0.0022)]
    profile += [(head, length_m - 0.0003), (head, length_m), (0, length_m)]
    part = turned(name, profile, steel(), 32)
    part.modifiers.clear()
    slots = [
        box("slot", size, (0, 0, length_m), edge_m=0)
        for size in ((0.0036, 0.0008, 0.003), (0.0008, 0.0036, 0.003))
    ]
    cut_away(part, slots)
    part.modifiers.new("edges", "EDGE_SPLIT").split_angle = 0.5
    return part
