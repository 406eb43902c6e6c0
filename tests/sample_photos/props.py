"""Small things: tools, clamps, jars, books, pottery, branches, a cloth.

Role: modelling. Each function adds objects about the origin (standing on z = 0 unless it says otherwise) and returns
them. Imports `shapes`, `surfaces`, `wood`.
"""

from __future__ import annotations

import math
import random

import bpy
from mathutils import Matrix, Vector
from shapes import along_grain, board, box, cut_away, placed, rod, tube, turned
from surfaces import brass, clay, cloth, glass, matt, oil, pages, paint, steel
from wood import OILED, RAW, SEED, WORN, cut_from, wood


def turned_pot(radius_m: float, height_m: float, colour: str = "#cbbfa9") -> bpy.types.Object:
    """A stoneware bottle form with a narrow neck."""
    shape = [(0, 0), (0.6, 0), (0.68, 0.02), (0.9, 0.2), (1, 0.4), (0.97, 0.58), (0.78, 0.76), (0.48, 0.88)]
    shape += [(0.38, 0.94), (0.42, 1.0), (0.37, 1.0), (0.33, 0.94), (0.42, 0.86), (0.7, 0.7), (0, 0.1)]
    return _smooth(turned("pot", [(radius_m * r, height_m * h) for r, h in shape], clay(colour)))


def _smooth(part: bpy.types.Object) -> bpy.types.Object:
    part.modifiers.clear()
    smooth = part.modifiers.new("smooth", "SUBSURF")
    smooth.levels = smooth.render_levels = 2
    return part


def bowl(radius_m: float = 0.14, colour: str = "#56616a") -> bpy.types.Object:
    shape = [
        (0, 0.0),
        (0.36, 0),
        (0.38, 0.06),
        (0.6, 0.14),
        (0.86, 0.34),
        (1.0, 0.56),
        (0.97, 0.575),
        (0.82, 0.37),
    ]
    shape += [(0.56, 0.2), (0.3, 0.13), (0, 0.12)]
    return _smooth(turned("bowl", [(radius_m * r, radius_m * h) for r, h in shape], clay(colour, "#2d2a27")))


def cup(radius_m: float = 0.042, height_m: float = 0.085, colour: str = "#dfd7c7") -> list[bpy.types.Object]:
    """A stoneware cup with its handle towards +x, filled with tea."""
    wall = 0.92
    shape = [
        (0, 0),
        (0.72, 0),
        (0.8, 0.03),
        (0.97, 0.16),
        (1.0, 0.5),
        (0.97, 0.97),
        (0.95, 1.0),
        (wall, 0.97),
    ]
    shape += [(0.94, 0.5), (0.9, 0.18), (0, 0.1)]
    body = _smooth(turned("cup", [(radius_m * r, height_m * h) for r, h in shape], clay(colour)))
    tea = turned("tea", [(0, height_m * 0.8), (radius_m * 0.95, height_m * 0.8)], matt("#3a1d0b", 0.08))
    arc = [
        (radius_m * x, 0, height_m * z)
        for x, z in ((0.95, 0.85), (1.25, 0.9), (1.62, 0.72), (1.6, 0.4), (1.25, 0.2), (0.95, 0.22))
    ]
    return [body, tea, tube("cup handle", arc, 0.0052, clay(colour))]


def teapot(colour: str = "#7c8a86") -> list[bpy.types.Object]:
    """A squat pot with a lid, spout towards -x and a cane-like overhead handle."""
    glaze = clay(colour, "#3a3a36", 0.3)
    shape = [
        (0, 0),
        (0.05, 0),
        (0.054, 0.003),
        (0.076, 0.03),
        (0.08, 0.05),
        (0.072, 0.075),
        (0.05, 0.094),
        (0.038, 0.099),
        (0, 0.099),
    ]
    body = _smooth(turned("teapot", shape, glaze))
    lid_shape = [
        (0, 0.099),
        (0.042, 0.099),
        (0.043, 0.102),
        (0.03, 0.109),
        (0.01, 0.113),
        (0.006, 0.118),
        (0.010, 0.126),
        (0.006, 0.132),
        (0, 0.133),
    ]
    lid = _smooth(turned("lid", lid_shape, glaze))
    spout = tube(
        "spout",
        [(-0.068, 0, 0.035), (-0.095, 0, 0.045), (-0.11, 0, 0.075), (-0.128, 0, 0.092)],
        0.014,
        glaze,
        True,
    )
    loop = [
        (math.cos(a) * 0.062, 0, 0.085 + math.sin(a) * 0.085) for a in (math.pi * i / 8 for i in range(9))
    ]
    return [body, lid, spout, tube("handle", loop, 0.0045, matt("#3b2a1c", 0.5))]


def jar(radius_m: float = 0.04, height_m: float = 0.11, filled: float = 0.6) -> bpy.types.Object:
    """A glass jar with oil in it."""
    r, h = radius_m, height_m
    shape = [
        (0, 0),
        (0.92 * r, 0),
        (r, 0.04 * h),
        (r, 0.78 * h),
        (0.8 * r, 0.88 * h),
        (0.8 * r, h),
        (0.76 * r, h),
    ]
    shape += [(0.76 * r, 0.88 * h), (0.95 * r, 0.77 * h), (0.95 * r, 0.06 * h), (0, 0.04 * h)]
    part = turned("jar", shape, glass())
    inside = [(0, 0.05 * h), (0.945 * r, 0.07 * h), (0.945 * r, filled * h), (0, filled * h)]
    turned("oil", inside, oil()).parent = part
    return part


def book(size, at, colour: str, turn_deg: float = 0.0) -> None:
    """A closed book lying flat; `size` is length of spine, width, thickness."""
    length, width, thick = size
    cover = matt(colour, 0.65)
    parts = [box("pages", (length - 0.006, width - 0.005, thick - 0.005), (0, 0.001, 0), pages(), edge_m=0)]
    for s in (-1, 1):
        parts.append(box("board", (length, width, 0.0026), (0, 0, s * (thick / 2 - 0.0013)), cover, 0.0006))
    parts.append(box("spine", (length, 0.003, thick), (0, -width / 2, 0), cover, 0.0012))
    for part in parts:
        placed(part, (at[0], at[1], at[2] + thick / 2), (0, 0, turn_deg))


def branches(at, count: int = 9, reach_m: float = 0.42) -> None:
    """Thin branches with small leaves, rising out of a neck at `at`."""
    rng = random.Random(SEED + 3)
    leaf = _leaf()
    for i in range(count):
        turn = 2 * math.pi * i / count + rng.uniform(-0.4, 0.4)
        spread, length = rng.uniform(0.12, 0.62), reach_m * rng.uniform(0.65, 1.1)
        points = []
        for step in range(7):
            t = step / 6
            out = length * spread * t**1.6
            points.append(
                Vector(
                    (
                        at[0] + math.cos(turn) * out,
                        at[1] + 0.6 * math.sin(turn) * out,
                        at[2] - 0.12 + (length + 0.12) * t,
                    )
                )
            )
        tube(f"branch {i}", points, 0.0017, matt("#6a4f38"), taper=True)
        for j in range(9):
            t = 0.36 + 0.62 * j / 8
            k = min(int(t * 6), 5)
            place = points[k].lerp(points[k + 1], t * 6 - k)
            part = bpy.data.objects.new("leaf", leaf)
            bpy.context.scene.collection.objects.link(part)
            aim = Vector((math.cos(turn + j * 2.4), math.sin(turn + j * 2.4), rng.uniform(0.1, 0.9)))
            scale = rng.uniform(0.95, 1.5) * (1.15 - 0.5 * t)
            part.matrix_world = (
                Matrix.Translation(place)
                @ aim.to_track_quat("X", "Z").to_matrix().to_4x4()
                @ Matrix.Scale(scale, 4)
            )


def _leaf() -> bpy.types.Mesh:
    """An oval leaf along x, slightly folded and drooping."""
    length, rows = 0.052, 8
    verts, faces = [], []
    for i in range(rows + 1):
        t = i / rows
        half = 0.0135 * math.sin(math.pi * min(1, t * 0.96 + 0.03)) ** 0.8
        droop = -0.012 * t * t
        verts += [
            (length * t, -half, droop + 0.25 * half),
            (length * t, 0, droop),
            (length * t, half, droop + 0.25 * half),
        ]
    for i in range(rows):
        a = 3 * i
        faces += [(a, a + 1, a + 4, a + 3), (a + 1, a + 2, a + 5, a + 4)]
    mesh = bpy.data.meshes.new("leaf")
    mesh.from_pydata(verts, [], faces)
    mesh.materials.append(matt("#6f7d5c", 0.6))
    for polygon in mesh.polygons:
        polygon.use_smooth = True
    return mesh


def chisel(width_m: float = 0.016) -> list[bpy.types.Object]:
    """A bevel-edge chisel along x, its edge towards -x, lying on its back at z = 0."""
    half = width_m / 2
    blade = box("blade", (0.125, width_m, 0.0042), (0.0625, 0, 0.0021), steel(), 0.0006)
    bevel = box("bevel", (0.03, 0.05, 0.02), (0, 0, 0), edge_m=0)
    placed(bevel, (-0.0055, 0, 0.0106), (0, -26, 0))
    cut_away(blade, [bevel])
    bolster = rod("bolster", (0.122, 0, 0.006), (0.15, 0, 0.0125), half * 0.55, steel(), 0.0088)
    profile = [
        (0, 0),
        (0.0095, 0),
        (0.0098, 0.012),
        (0.0115, 0.02),
        (0.0135, 0.05),
        (0.0142, 0.075),
        (0.0135, 0.1),
        (0.0125, 0.112),
    ]
    profile += [(0.0128, 0.114), (0.0128, 0.122), (0.0115, 0.127), (0, 0.128)]
    handle = turned("chisel handle", profile, wood("beech", OILED))
    along_grain(handle)
    ferrule = turned(
        "ferrule", [(0.0096, -0.001), (0.0102, -0.001), (0.0104, 0.012), (0.0096, 0.012)], brass()
    )
    for part in (handle, ferrule):
        placed(part, (0.148, 0, 0.0125), (0, 90, 0))
    return [blade, bolster, handle, ferrule]


def marking_gauge() -> list[bpy.types.Object]:
    """Stem along x with its brass wheel, a fence with a brass screw; lying on z = 0."""
    stem = board("gauge stem", (0.21, 0.016, 0.016), (0.0, 0, 0.029), wood("beech", WORN), edge_m=0.0015)
    fence = board(
        "gauge fence",
        (0.06, 0.058, 0.026),
        (0.03, 0, 0.029),
        wood("walnut", OILED),
        along="y",
        face="x",
        edge_m=0.003,
    )
    wheel = rod("wheel", (-0.1085, 0, 0.029), (-0.1045, 0, 0.029), 0.0075, steel())
    cap = rod("cap", (-0.113, 0, 0.029), (-0.1085, 0, 0.029), 0.0035, brass())
    thumb = rod("thumb", (0.03, 0, 0.058), (0.03, 0, 0.071), 0.0065, brass())
    neck = rod("neck", (0.03, 0, 0.05), (0.03, 0, 0.06), 0.003, brass())
    return [stem, fence, wheel, cap, thumb, neck]


def try_square() -> list[bpy.types.Object]:
    """A square lying flat: stock along x, blade along y."""
    stock = board("square stock", (0.13, 0.042, 0.016), (0, 0, 0.008), wood("walnut"), edge_m=0.0008)
    wear = box("wear plate", (0.13, 0.003, 0.016), (0, 0.0225, 0.008), brass(), 0.0003)
    blade = box("square blade", (0.042, 0.24, 0.0018), (0.044, 0.1, 0.008), steel(), 0.0002)
    return [stock, wear, blade]


def pencil() -> list[bpy.types.Object]:
    """A hexagonal pencil along x on z = 0, pointing to -x."""
    body = rod("pencil", (0, 0, 0.0035), (0.14, 0, 0.0035), 0.0037, paint("#3f5a4c", 0.3))
    cone = rod("pencil cone", (-0.018, 0, 0.0035), (0, 0, 0.0035), 0.0007, wood("sycamore", RAW), 0.0037)
    lead = rod("pencil lead", (-0.022, 0, 0.0035), (-0.018, 0, 0.0035), 0.0002, matt("#2b2b2b", 0.4), 0.0007)
    along_grain(cone)
    return [body, cone, lead]


def bar_clamp(length_m: float, opening_m: float, pad_m: float = 0.02) -> list[bpy.types.Object]:
    """A sash clamp along y with its bar on z = 0..30 mm, jaws above it, `opening_m` between its pads."""
    bar = steel("bar")
    iron = paint("#3f4f46", 0.4)
    jaw_high = 0.075
    half = opening_m / 2 + pad_m
    parts = [box("bar", (0.008, length_m, 0.032), (0, 0.06, 0.016), bar, 0.0008)]
    parts.append(
        box("fixed jaw", (0.03, 0.028, jaw_high), (0, -half - 0.014, jaw_high / 2 - 0.002), iron, 0.003)
    )
    parts.append(
        box("screw block", (0.03, 0.026, jaw_high), (0, half + 0.085, jaw_high / 2 - 0.002), iron, 0.003)
    )
    parts.append(
        box("sliding jaw", (0.03, 0.02, jaw_high), (0, half + 0.01, jaw_high / 2 - 0.002), iron, 0.003)
    )
    z = 0.053
    parts.append(rod("clamp screw", (0, half + 0.02, z), (0, half + 0.17, z), 0.0075, bar))
    parts.append(rod("tommy bar", (-0.055, half + 0.16, z), (0.055, half + 0.16, z), 0.0038, bar))
    for x in (-0.055, 0.055):
        parts.append(rod("tommy end", (x - 0.004, half + 0.16, z), (x + 0.004, half + 0.16, z), 0.0058, bar))
    for s in (-1, 1):
        name = f"pad {s} {random.Random(opening_m + length_m).random()}"
        at = (0, s * (half - pad_m / 2), 0.053)
        parts.append(board(name, (0.07, 0.032, pad_m), at, wood("pine", RAW), face="y", cut="flat"))
    return parts


def shaving(
    seed: int, width_m: float = 0.014, turns: float = 2.2, radius_m: float = 0.011
) -> bpy.types.Object:
    """A curl of planed wood."""
    rng = random.Random(SEED + seed)
    steps = 60
    verts, faces = [], []
    for i in range(steps + 1):
        t = i / steps
        angle = 2 * math.pi * turns * t
        r = radius_m * (0.55 + 0.5 * t)
        drift = 0.012 * t
        for side in (0, 1):
            verts.append(
                (
                    drift + side * width_m * (1 + 0.1 * math.sin(7 * t + rng.random())),
                    r * math.cos(angle),
                    r * math.sin(angle),
                )
            )
        if i:
            a = 2 * i
            faces.append((a - 2, a - 1, a + 1, a))
    mesh = bpy.data.meshes.new("shaving")
    mesh.from_pydata(verts, [], faces)
    mesh.materials.append(wood(rng.choice(("sycamore", "walnut")), RAW))
    for polygon in mesh.polygons:
        polygon.use_smooth = True
    part = bpy.data.objects.new("shaving", mesh)
    bpy.context.scene.collection.objects.link(part)
    cut_from(part, "flat")
    part.location.z = radius_m * 1.05
    return part


def dropped_cloth(at, side_m: float, colour: str, grounds: list[bpy.types.Object], turn_deg: float = 25.0):
    """A rag let fall, gathered, on the `grounds`: a short cloth simulation."""
    cells = 56
    bpy.ops.mesh.primitive_grid_add(x_subdivisions=cells, y_subdivisions=cells, size=side_m, location=at)
    rag = bpy.context.object
    rag.data.materials.append(cloth(colour))
    rng = random.Random(SEED + 5)
    waves = [(rng.uniform(10, 30), rng.uniform(0, 6.3), rng.uniform(0, 6.3)) for _ in range(5)]
    for v in rag.data.vertices:
        x, y = v.co.x, v.co.y
        lift = sum(math.sin(k * (x * math.cos(a) + y * math.sin(a)) + p) for k, a, p in waves)
        v.co = (x * 0.72, y * 0.97, 0.022 * math.sin(46 * x + 5 * y) + 0.004 * lift)
    for polygon in rag.data.polygons:
        polygon.use_smooth = True
    rag.rotation_euler.z = math.radians(turn_deg)
    for ground in grounds:
        ground.modifiers.new("collision", "COLLISION")
        ground.collision.thickness_outer, ground.collision.cloth_friction = 0.002, 30
    fold = rag.modifiers.new("cloth", "CLOTH")
    fold.settings.quality, fold.settings.mass = 8, 0.25
    fold.settings.bending_stiffness, fold.settings.tension_stiffness = 4.0, 15
    fold.collision_settings.use_self_collision = True
    fold.collision_settings.distance_min = fold.collision_settings.self_distance_min = 0.0025
    for frame in range(1, 46):
        bpy.context.scene.frame_set(frame)
    mesh = bpy.data.meshes.new_from_object(rag.evaluated_get(bpy.context.evaluated_depsgraph_get()))
    rag.modifiers.clear()
    rag.data = mesh
    thick = rag.modifiers.new("thick", "SOLIDIFY")
    thick.thickness = 0.0012
    smooth = rag.modifiers.new("smooth", "SUBSURF")
    smooth.levels = smooth.render_levels = 1
    return rag
