"""Shapes that things are made of: boards, boxes, prisms, turned parts, tubes, each an object in metres.

Role: modelling helpers. Every function adds an object to the scene and returns it. Boards know their grain: local x
runs with the grain, y across the face, z through the thickness. Imports `bpy`, `wood`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

import bmesh
import bpy
from mathutils import Matrix, Vector
from wood import cut_from

Point = Sequence[float]
AXES = {"x": Vector((1, 0, 0)), "y": Vector((0, 1, 0)), "z": Vector((0, 0, 1))}


def _add(
    name: str, mesh: bpy.types.Mesh, material: bpy.types.Material | None, smooth: bool
) -> bpy.types.Object:
    if material:
        mesh.materials.append(material)
    for polygon in mesh.polygons:
        polygon.use_smooth = smooth
    part = bpy.data.objects.new(name, mesh)
    bpy.context.scene.collection.objects.link(part)
    return part


def _from_bmesh(name: str, shape: bmesh.types.BMesh, material=None, smooth: bool = False) -> bpy.types.Object:
    bmesh.ops.recalc_face_normals(shape, faces=shape.faces)
    mesh = bpy.data.meshes.new(name)
    shape.to_mesh(mesh)
    shape.free()
    return _add(name, mesh, material, smooth)


def ease(part: bpy.types.Object, width_m: float, segments: int = 2) -> bpy.types.Object:
    """Break the sharp edges."""
    bevel = part.modifiers.new("edges", "BEVEL")
    bevel.width, bevel.segments, bevel.limit_method, bevel.angle_limit = width_m, segments, "ANGLE", 0.6
    bevel.harden_normals = True
    return part


def box(name: str, size: Point, at: Point, material=None, edge_m: float = 0.001) -> bpy.types.Object:
    """A box of `size` about its middle `at`."""
    shape = bmesh.new()
    bmesh.ops.create_cube(shape, size=1.0)
    bmesh.ops.scale(shape, vec=size, verts=shape.verts)
    part = _from_bmesh(name, shape, material)
    part.location = at
    return ease(part, edge_m) if edge_m else part


def laid(along: str, face: str) -> Matrix:
    """The turn that lays local x along one world axis and local z along another."""
    x, z = AXES[along], AXES[face]
    return Matrix((x, z.cross(x), z)).transposed()


def beside(at: Point, along: str, face: str, distance_m: float) -> Vector:
    """The point `distance_m` from `at` across the width of a board so laid."""
    return Vector(at) + laid(along, face) @ Vector((0, distance_m, 0))


def board(
    name: str, size: Point, at: Point, material, *, along="x", face="z", cut="quarter", edge_m=0.001, **log
) -> bpy.types.Object:
    """A board of `size` (length, width, thickness) about its middle; `log` goes to `cut_from`."""
    part = box(name, size, (0, 0, 0), material, edge_m)
    part.matrix_world = Matrix.Translation(at) @ laid(along, face).to_4x4()
    cut_from(part, cut, **log)
    return part


def prism(
    name: str, outline: Iterable[Point], thickness_m: float, material=None, edge_m=0.0004
) -> bpy.types.Object:
    """An outline in local x and y, `thickness_m` thick about z = 0."""
    shape = bmesh.new()
    face = shape.faces.new([shape.verts.new((x, y, -thickness_m / 2)) for x, y in outline])
    grown = bmesh.ops.extrude_face_region(shape, geom=[face])["geom"]
    verts = [v for v in grown if isinstance(v, bmesh.types.BMVert)]
    bmesh.ops.translate(shape, vec=(0, 0, thickness_m), verts=verts)
    part = _from_bmesh(name, shape, material)
    return ease(part, edge_m) if edge_m else part


def tapered(
    name: str, top: Point, bottom: Point, height_m: float, material=None, edge_m=0.0015
) -> bpy.types.Object:
    """A leg with its grain along local x: section `bottom` at -height/2, `top` at +height/2."""
    shape = bmesh.new()
    bmesh.ops.create_cube(shape, size=1.0)
    for v in shape.verts:
        wide, deep = top if v.co.x > 0 else bottom
        v.co = Vector((v.co.x * height_m, v.co.y * wide, v.co.z * deep))
    return ease(_from_bmesh(name, shape, material), edge_m)


def turned(name: str, profile: Sequence[Point], material=None, steps: int = 64) -> bpy.types.Object:
    """Turn a profile of (radius, height) points about local z; an end on the axis closes the form."""
    shape = bmesh.new()
    verts = [shape.verts.new((r, 0, h)) for r, h in profile]
    edges = [shape.edges.new(pair) for pair in pairwise(verts)]
    bmesh.ops.spin(
        shape,
        geom=verts + edges,
        axis=(0, 0, 1),
        cent=(0, 0, 0),
        steps=steps,
        angle=2 * math.pi,
        use_duplicate=False,
    )
    bmesh.ops.remove_doubles(shape, verts=shape.verts, dist=1e-6)
    part = _from_bmesh(name, shape, material, smooth=True)
    split = part.modifiers.new("edges", "EDGE_SPLIT")
    split.split_angle = 0.7
    return part


def rod(
    name: str, start: Point, end: Point, radius_m: float, material=None, end_radius_m=None
) -> bpy.types.Object:
    """A round bar from `start` to `end`."""
    a, b = Vector(start), Vector(end)
    length_m = (b - a).length
    last = radius_m if end_radius_m is None else end_radius_m
    part = turned(name, [(0, 0), (radius_m, 0), (last, length_m), (0, length_m)], material, 32)
    part.matrix_world = Matrix.Translation(a) @ (b - a).to_track_quat("Z", "Y").to_matrix().to_4x4()
    return part


def along_grain(part: bpy.types.Object, cut: str = "rift") -> bpy.types.Object:
    """Let the grain of a turned part or a rod run with its axis."""
    turn = Matrix.Rotation(math.pi / 2, 4, "Y")
    part.data.transform(turn)
    part.matrix_world = part.matrix_basis @ turn.inverted()
    cut_from(part, cut)
    return part


def tube(
    name: str, points: Sequence[Point], radius_m: float, material=None, taper: bool = False
) -> bpy.types.Object:
    """A smooth round line through `points`, thinner towards its end if `taper`."""
    curve = bpy.data.curves.new(name, "CURVE")
    curve.dimensions, curve.bevel_depth, curve.bevel_resolution, curve.use_fill_caps = "3D", radius_m, 3, True
    line = curve.splines.new("NURBS")
    line.points.add(len(points) - 1)
    for i, (point, target) in enumerate(zip(points, line.points, strict=True)):
        target.co = (*point, 1.0)
        target.radius = 1 - 0.6 * i / len(points) if taper else 1.0
    line.use_endpoint_u, line.order_u = True, min(4, len(points))
    if material:
        curve.materials.append(material)
    part = bpy.data.objects.new(name, curve)
    bpy.context.scene.collection.objects.link(part)
    return part


def cut_away(part: bpy.types.Object, tools: Iterable[bpy.types.Object]) -> bpy.types.Object:
    """Take the tools' volume out of the part, before its edges are eased; the tools go."""
    bpy.context.view_layer.update()
    bevel = part.modifiers.get("edges")
    settings = (bevel.width, bevel.segments) if bevel else None
    if bevel:
        part.modifiers.remove(bevel)
    used = list(tools)
    for i, tool in enumerate(used):
        cut = part.modifiers.new(f"cut {i}", "BOOLEAN")
        cut.operation, cut.object, cut.solver = "DIFFERENCE", tool, "EXACT"
    bpy.context.view_layer.update()
    mesh = bpy.data.meshes.new_from_object(part.evaluated_get(bpy.context.evaluated_depsgraph_get()))
    part.modifiers.clear()
    part.data = mesh
    for tool in used:
        bpy.data.objects.remove(tool)
    return ease(part, *settings) if settings else part


def placed(part: bpy.types.Object, at: Point = (0, 0, 0), turn_deg: Point = (0, 0, 0)) -> bpy.types.Object:
    """Set the part down: turned about x, y, z, then moved; on top of how it already lies."""
    turn = Matrix.Rotation(math.radians(turn_deg[2]), 4, "Z")
    turn @= Matrix.Rotation(math.radians(turn_deg[1]), 4, "Y") @ Matrix.Rotation(
        math.radians(turn_deg[0]), 4, "X"
    )
    part.matrix_world = Matrix.Translation(at) @ turn @ part.matrix_basis
    return part


def group(parts: Iterable[bpy.types.Object], at: Point = (0, 0, 0), turn_deg: Point = (0, 0, 0)) -> None:
    """Move several parts as one."""
    for part in parts:
        placed(part, at, turn_deg)
