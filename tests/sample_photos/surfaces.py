"""Everything that is not wood: metals, stone, glass, plaster, cloth, clay, paper, as materials.

Role: each function returns a material, made once. Imports `bpy`, `graph`.
"""

from __future__ import annotations

import bpy
from graph import Graph, linear, once


@once
def brass() -> bpy.types.Material:
    """Turned and waxed, with the faint lines of the lathe and handling."""
    g = Graph("brass")
    at = g.coordinates("Object")
    lines = g.noise(g.vector("MULTIPLY", at, (60, 60, 5000)), 2.0)
    haze = g.noise(g.vector("MULTIPLY", at, (130, 130, 130)), 3.0)
    rough = g.math("ADD", g.math("MULTIPLY", lines, 0.1), g.math("MULTIPLY_ADD", haze, 0.12, 0.18))
    colour = g.mix(haze, linear("#e2c589"), linear("#cfad6c"))
    return g.principled(base_color=colour, metallic=1.0, roughness=rough, normal=g.bump(lines, 0.00002))


@once
def steel(kind: str = "bright") -> bpy.types.Material:
    """`bright` (stainless, blades), or `bar` (a clamp's dull zinc)."""
    g = Graph(f"steel {kind}")
    at = g.coordinates("Object")
    lines = g.noise(g.vector("MULTIPLY", at, (25, 900, 900)), 2.0)
    stain = g.noise(g.vector("MULTIPLY", at, (30, 30, 30)), 4.0, 0.65)
    base, rough = ("#b9babb", 0.22) if kind == "bright" else ("#83807b", 0.4)
    colour = g.mix(g.step(stain, 0.5, 0.75, 0.0, 0.5), linear(base), linear("#5a554e"))
    roughness = g.math("ADD", g.math("MULTIPLY", lines, 0.15), rough)
    return g.principled(base_color=colour, metallic=1.0, roughness=roughness)


@once
def slate() -> bpy.types.Material:
    g = Graph("slate")
    at = g.coordinates("Object")
    cloud = g.noise(g.vector("MULTIPLY", at, (9, 14, 30)), 5.0, 0.6)
    cleft = g.noise(g.vector("MULTIPLY", at, (16, 26, 200)), 6.0, 0.55)
    fine = g.noise(g.vector("MULTIPLY", at, (900, 900, 900)), 2.0)
    colour = g.mix(cloud, linear("#363c40"), linear("#5a6064"))
    colour = g.mix(g.step(fine, 0.6, 0.75, 0.0, 0.35), colour, linear("#858b8e"))
    height = g.math("MULTIPLY_ADD", fine, 0.12, cleft)
    rough = g.math("MULTIPLY_ADD", cloud, 0.2, 0.42)
    return g.principled(base_color=colour, roughness=rough, normal=g.bump(height, 0.002, 0.7))


@once
def glass() -> bpy.types.Material:
    return Graph("glass").principled(
        base_color=(0.93, 0.98, 0.95), roughness=0.0, transmission_weight=1.0, ior=1.5
    )


@once
def oil() -> bpy.types.Material:
    return Graph("oil").principled(
        base_color=(0.75, 0.36, 0.06), roughness=0.0, transmission_weight=0.9, ior=1.47
    )


@once
def plaster(colour: str = "#d3cabb") -> bpy.types.Material:
    """A trowelled wall: broad clouds, a little tooth."""
    g = Graph("plaster")
    at = g.coordinates("Object")
    cloud = g.noise(g.vector("MULTIPLY", at, (1.6, 1.6, 1.6)), 3.0, 0.6)
    trowel = g.noise(g.vector("MULTIPLY", at, (5, 5, 9)), 3.0, 0.62)
    r, gr, b = linear(colour)
    shade = g.mix(g.step(cloud, 0.3, 0.7), (r * 0.9, gr * 0.895, b * 0.88), (r, gr, b))
    return g.principled(base_color=shade, roughness=0.85, normal=g.bump(trowel, 0.012, 0.35))


@once
def limewashed_brick() -> bpy.types.Material:
    g = Graph("limewashed brick")
    x, y, z = g.split(g.coordinates("Object"))
    flat = g.join(g.math("ADD", x, y), z, 0.0)
    inputs = {"Vector": flat, "Scale": 1.0, "Mortar Size": 0.007, "Mortar Smooth": 0.9}
    inputs |= {"Brick Width": 0.225, "Row Height": 0.075, "Color1": (1, 1, 1), "Color2": (0.8, 0.8, 0.8)}
    inputs["Mortar"] = (0, 0, 0)
    bricks = g.node("TexBrick", inputs).outputs[0]
    worn = g.noise(g.vector("MULTIPLY", g.coordinates("Object"), (3, 3, 7)), 5.0, 0.65)
    wash = g.mix(bricks, linear("#b3ab9e"), linear("#cfc8bb"))
    colour = g.mix(g.step(worn, 0.5, 0.75, 0.0, 0.7), wash, linear("#a98a74"))
    return g.principled(base_color=colour, roughness=0.9, normal=g.bump(bricks, 0.006, 0.7))


@once
def concrete() -> bpy.types.Material:
    g = Graph("concrete")
    at = g.coordinates("Object")
    cloud = g.noise(g.vector("MULTIPLY", at, (1.3, 1.3, 1.3)), 6.0, 0.65)
    grit = g.noise(g.vector("MULTIPLY", at, (220, 220, 220)), 3.0, 0.7)
    dust = g.noise(g.vector("MULTIPLY", at, (5, 5, 5)), 6.0, 0.7)
    colour = g.mix(g.step(cloud, 0.3, 0.7), linear("#7b766e"), linear("#97928a"))
    colour = g.mix(g.step(grit, 0.55, 0.75, 0.0, 0.35), colour, linear("#57534d"))
    colour = g.mix(g.step(dust, 0.52, 0.7, 0.0, 0.45), colour, linear("#b7a68b"))
    return g.principled(base_color=colour, roughness=0.7, normal=g.bump(grit, 0.001, 0.5))


@once
def paint(colour: str, rough: float = 0.5) -> bpy.types.Material:
    g = Graph(f"paint {colour}")
    wear = g.noise(g.vector("MULTIPLY", g.coordinates("Object"), (25, 25, 25)), 5.0, 0.7)
    shade = g.mix(
        g.step(wear, 0.6, 0.75, 0.0, 0.5), linear(colour), tuple(0.6 * v + 0.05 for v in linear(colour))
    )
    return g.principled(base_color=shade, roughness=rough)


@once
def clay(colour: str, speck: str = "#4a3d31", rough: float = 0.45) -> bpy.types.Material:
    """Glazed stoneware with iron specks."""
    g = Graph(f"clay {colour}")
    at = g.coordinates("Object")
    specks = g.step(g.noise(g.vector("MULTIPLY", at, (480, 480, 480)), 2.0), 0.69, 0.74, 0.0, 0.7)
    pool = g.noise(g.vector("MULTIPLY", at, (20, 20, 45)), 3.0)
    r, gr, b = linear(colour)
    base = g.mix(pool, (r * 0.82, gr * 0.8, b * 0.76), (r, gr, b))
    rings = g.noise(g.vector("MULTIPLY", at, (5, 5, 260)), 1.0)
    return g.principled(
        base_color=g.mix(specks, base, linear(speck)), roughness=rough, normal=g.bump(rings, 0.0006, 0.5)
    )


@once
def cloth(colour: str, threads_per_m: float = 900.0) -> bpy.types.Material:
    g = Graph(f"cloth {colour}")
    u, v, _ = g.split(g.coordinates("UV"))
    weave = g.math(
        "MULTIPLY",
        g.math("SINE", g.math("MULTIPLY", u, threads_per_m)),
        g.math("SINE", g.math("MULTIPLY", v, threads_per_m)),
    )
    stain = g.noise(g.vector("MULTIPLY", g.coordinates("UV"), (3, 3, 3)), 5.0, 0.6)
    r, gr, b = linear(colour)
    base = g.mix(g.step(stain, 0.5, 0.7, 0.0, 0.6), (r, gr, b), (r * 0.55, gr * 0.38, b * 0.17))
    return g.principled(base_color=base, roughness=0.9, sheen_weight=0.3, normal=g.bump(weave, 0.0004, 0.4))


@once
def matt(colour: str, rough: float = 0.8) -> bpy.types.Material:
    """A plain, dull surface: paper, leaves, graphite, rubber, chalk."""
    g = Graph(f"matt {colour}")
    uneven = g.noise(g.vector("MULTIPLY", g.coordinates("Object"), (150, 150, 150)), 3.0)
    r, gr, b = linear(colour)
    shade = g.mix(
        uneven, (r * 0.85, gr * 0.85, b * 0.85), (min(r * 1.1, 1), min(gr * 1.1, 1), min(b * 1.1, 1))
    )
    return g.principled(base_color=shade, roughness=rough)


@once
def pages() -> bpy.types.Material:
    """The edges of a book's leaves."""
    g = Graph("pages")
    lines = g.noise(g.vector("MULTIPLY", g.coordinates("Object"), (2, 2, 3500)), 2.0)
    return g.principled(base_color=g.mix(lines, linear("#c9bda3"), linear("#e9e0cd")), roughness=0.85)


@once
def plywood_edge() -> bpy.types.Material:
    """The plies of a sheet on its edge, by local z."""
    g = Graph("plywood edge")
    _, _, z = g.split(g.coordinates("Object"))
    ply = g.step(g.math("SINE", g.math("MULTIPLY", z, 2200.0)), -0.2, 0.2)
    return g.principled(base_color=g.mix(ply, linear("#b7925f"), linear("#dcc39b")), roughness=0.7)
