"""Camera, light and film: what turns a scene into a picture.

Role: `empty`, `camera`, `window`, `sun`, `sky`, `expose`. Imports `bpy`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path

import bpy
import graph
from mathutils import Vector

Point = Sequence[float]
FILM_MM = 36.0  # long edge of the film that focal lengths are given for


def empty(exposure: float = 0.0, look: str = "AgX - High Contrast", warmth_k: float = 6700.0) -> None:
    """An empty scene with its film: exposure in stops, the white point in kelvin (higher is warmer)."""
    graph.forget()
    bpy.ops.wm.read_factory_settings(use_empty=True)
    view = bpy.context.scene.view_settings
    view.view_transform, view.look, view.exposure = "AgX", look, exposure
    view.use_white_balance, view.white_balance_temperature = True, warmth_k


def _aimed(item: bpy.types.Object, at: Point, look: Point) -> bpy.types.Object:
    item.location = at
    aim = (Vector(look) - Vector(at)).to_track_quat("-Z", "Y").to_euler()
    item.rotation_euler = aim
    bpy.context.scene.collection.objects.link(item)
    return item


def camera(at: Point, look: Point, lens_mm: float, f_stop: float = 0.0, focus: Point | None = None):
    """A camera with a 35 mm equivalent lens; sharp at `focus` (else at `look`) if `f_stop` is given."""
    data = bpy.data.cameras.new("camera")
    data.sensor_width, data.sensor_fit, data.lens = FILM_MM, "AUTO", lens_mm
    data.clip_start = 0.01
    if f_stop:
        data.dof.use_dof, data.dof.aperture_fstop = True, f_stop
        forward = (Vector(look) - Vector(at)).normalized()
        data.dof.focus_distance = (Vector(focus or look) - Vector(at)).dot(forward)
    item = _aimed(bpy.data.objects.new("camera", data), at, look)
    bpy.context.scene.camera = item
    return item


def window(
    at: Point, look: Point, size: tuple[float, float], watts: float, colour: Point = (1.0, 0.95, 0.88)
):
    """Daylight as it comes through an opening of `size`."""
    data = bpy.data.lights.new("window", "AREA")
    data.shape, (data.size, data.size_y), data.energy, data.color = "RECTANGLE", size, watts, colour
    return _aimed(bpy.data.objects.new("window", data), at, look)


def sun(direction: Point, strength: float, soft_deg: float = 1.5, colour: Point = (1.0, 0.86, 0.68)):
    """Sunlight that travels in `direction`."""
    data = bpy.data.lights.new("sun", "SUN")
    data.energy, data.angle, data.color = strength, math.radians(soft_deg), colour
    return _aimed(bpy.data.objects.new("sun", data), (0, 0, 5), Vector((0, 0, 5)) + Vector(direction))


def sky(strength: float, colour: Point = (0.85, 0.93, 1.0)) -> None:
    """Light from all around."""
    world = bpy.data.worlds.new("sky")
    world.use_nodes = True
    background = world.node_tree.nodes["Background"]
    background.inputs[0].default_value, background.inputs[1].default_value = (*colour, 1.0), strength
    bpy.context.scene.world = world


def expose(path: Path, size: tuple[int, int], samples: int) -> None:
    """Render the scene to a PNG."""
    scene = bpy.context.scene
    scene.render.engine = "CYCLES"
    cycles = scene.cycles
    cycles.device, cycles.samples, cycles.seed = "CPU", samples, 7
    cycles.use_adaptive_sampling, cycles.adaptive_threshold = True, 0.03
    cycles.use_denoising, cycles.denoiser = True, "OPENIMAGEDENOISE"
    cycles.max_bounces, cycles.diffuse_bounces, cycles.glossy_bounces = 8, 2, 2
    cycles.sample_clamp_indirect, cycles.caustics_reflective, cycles.caustics_refractive = 4.0, False, False
    scene.render.resolution_x, scene.render.resolution_y = size
    scene.render.image_settings.file_format = "PNG"
    scene.render.filepath = str(path)
    bpy.ops.render.render(write_still=True)
