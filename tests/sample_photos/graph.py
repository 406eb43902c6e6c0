"""A thin layer over Blender's shader nodes, so that a material reads like arithmetic.

Role: `Graph` wraps one material; each method adds a node and returns its output socket, and takes sockets or plain
numbers and tuples. Imports only `bpy`.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

import bpy

Value = Any  # an output socket, a number, or a tuple of numbers
_made: dict[tuple, bpy.types.Material] = {}


def once(make: Callable[..., bpy.types.Material]) -> Callable[..., bpy.types.Material]:
    """Make each material once a scene."""

    @wraps(make)
    def made(*settings: Any) -> bpy.types.Material:
        key = (make.__name__, *settings)
        if key not in _made:
            _made[key] = make(*settings)
        return _made[key]

    return made


def forget() -> None:
    """Drop what was made for the last scene."""
    _made.clear()


class Graph:
    """One material with a Principled surface that is built by calling the methods below."""

    def __init__(self, name: str) -> None:
        self.material = bpy.data.materials.new(name)
        self.material.use_nodes = True
        self.tree = self.material.node_tree
        self.tree.nodes.clear()
        self.output = self.tree.nodes.new("ShaderNodeOutputMaterial")

    def node(self, kind: str, inputs: dict[Any, Value] | None = None, **settings: Any) -> Any:
        """Add a node of `kind`; `inputs` by socket name or index, `settings` are the node's properties."""
        node = self.tree.nodes.new(f"ShaderNode{kind}")
        for key, value in settings.items():
            setattr(node, key, value)
        for key, value in (inputs or {}).items():
            self._feed(node.inputs[key], value)
        return node

    def _feed(self, socket: Any, value: Value) -> None:
        if isinstance(value, bpy.types.NodeSocket):
            self.tree.links.new(value, socket)
        elif isinstance(value, tuple) and socket.type == "RGBA" and len(value) == 3:
            socket.default_value = (*value, 1.0)
        else:
            socket.default_value = value

    def math(self, operation: str, a: Value, b: Value = 0.0, c: Value = 0.0) -> Value:
        return self.node("Math", {0: a, 1: b, 2: c}, operation=operation).outputs[0]

    def vector(self, operation: str, a: Value, b: Value = (0.0, 0.0, 0.0)) -> Value:
        return self.node("VectorMath", {0: a, 1: b}, operation=operation).outputs[0]

    def scale(self, vector: Value, factor: Value) -> Value:
        return self.node("VectorMath", {0: vector, "Scale": factor}, operation="SCALE").outputs[0]

    def split(self, vector: Value) -> tuple[Value, Value, Value]:
        return tuple(self.node("SeparateXYZ", {0: vector}).outputs)

    def join(self, x: Value, y: Value, z: Value) -> Value:
        return self.node("CombineXYZ", {0: x, 1: y, 2: z}).outputs[0]

    def noise(self, at: Value, detail: float = 2.0, roughness: float = 0.5) -> Value:
        """Smooth noise from 0 to 1 around 0.5 whose features are about one unit of `at` in size."""
        inputs = {"Vector": at, "Scale": 1.0, "Detail": detail, "Roughness": roughness}
        return self.node("TexNoise", inputs).outputs[0]

    def noise_vector(self, at: Value, detail: float = 1.0) -> Value:
        """Three independent noises around 0, from about -0.5 to 0.5."""
        colour = self.node("TexNoise", {"Vector": at, "Scale": 1.0, "Detail": detail}).outputs[1]
        return self.vector("SUBTRACT", colour, (0.5, 0.5, 0.5))

    def chance(self, at: Value) -> Value:
        """A random number from 0 to 1 for each whole number `at`."""
        return self.node("TexWhiteNoise", {"W": at}, noise_dimensions="1D").outputs[0]

    def step(self, value: Value, low: float, high: float, to_low: Value = 0.0, to_high: Value = 1.0) -> Value:
        """Smooth step: `to_low` below `low`, `to_high` above `high`."""
        inputs = {0: value, 1: low, 2: high, 3: to_low, 4: to_high}
        return self.node("MapRange", inputs, interpolation_type="SMOOTHSTEP").outputs[0]

    def mix(self, factor: Value, a: Value, b: Value, blend: str = "MIX") -> Value:
        """Blend colour `b` over colour `a`."""
        node = self.node("Mix", data_type="RGBA", blend_type=blend)
        for index, value in ((0, factor), (6, a), (7, b)):
            self._feed(node.inputs[index], value)
        return node.outputs[2]

    def blend(self, factor: Value, a: Value, b: Value) -> Value:
        """Blend two numbers."""
        return self.node("Mix", {0: factor, 2: a, 3: b}, data_type="FLOAT").outputs[0]

    def coordinates(self, which: str = "Object") -> Value:
        return self.node("TexCoord").outputs[which]

    def attribute(self, name: str, output: str = "Vector") -> Value:
        """A custom property of the object that wears the material."""
        return self.node("Attribute", attribute_type="OBJECT", attribute_name=name).outputs[output]

    def bump(self, height: Value, depth_m: float, strength: float = 1.0) -> Value:
        inputs = {"Height": height, "Distance": depth_m, "Strength": strength}
        return self.node("Bump", inputs).outputs[0]

    def principled(self, **inputs: Value) -> bpy.types.Material:
        """Close the graph with a Principled surface; keywords are its sockets, `_` for a space."""
        named = {key.replace("_", " ").title().replace("Ior", "IOR"): value for key, value in inputs.items()}
        shader = self.node("BsdfPrincipled", named)
        self.tree.links.new(shader.outputs[0], self.output.inputs[0])
        return self.material


def linear(hex_colour: str) -> tuple[float, float, float]:
    """`#rrggbb` as seen on a screen, to scene-linear values (IEC 61966-2-1)."""
    values = (int(hex_colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    r, g, b = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in values)
    return (r, g, b)
