"""A small builder of SVG: elements with escaped text, the line types of technical drawing, lettering.

A drawing's unit is about one CSS pixel on a telephone. Lines are in pixels whatever the scale (ISO 128:
visible outlines 0.5 mm, all others 0.25 mm). Colours are `currentColor`; a theme may tell the classes apart.
Fonts are inherited. A theme may set lettering smaller than `LABEL`, never larger: the room for it is measured
here.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable

from markupsafe import Markup, escape

from buildbook.quantity.figures import placed

LABEL = 12.0  # height of lettering
LINE = 15.0  # from one line of lettering to the next
VISIBLE, THIN = 1.9, 0.95  # 0.5 and 0.25 mm at 96 pixels to the inch (ISO 128-2)
FINE_VISIBLE, FINE = 1.3, 0.7  # 0.35 and 0.18 mm: the same pair two steps finer, for small drawings
_WIDTHS = {"visible": VISIBLE, "fine-visible": FINE_VISIBLE, "fine": FINE}
_CHAIN = "9 2 1.5 2"
_NARROW, _USUAL, _BROAD = 0.34, 0.57, 0.8  # of the height; on the generous side of common sans-serif faces
_NARROW_LETTERS = frozenset("iIjlt.,;:'!|()[]⁄ \u00a0\u202f")
_FRACTION = re.compile(r"(\d+)⁄(\d+)")
_RAISED, _SMALL = 0.32, 0.7  # of the height: the numerator of a fraction, and the size of its figures
_BROAD_LETTERS = frozenset("mwMWGOQDN%@×⅜⅝⅞⅛¼½¾")


def number(value: float) -> str:
    """A coordinate to a hundredth, without needless zeros."""
    text = f"{placed(value, 2):.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def element(name: str, *content: str, **attributes: object) -> Markup:
    """An element. A trailing underscore of an attribute's name falls away, others become hyphens; None is
    left out.
    """
    told = "".join(  # plain text put together, each piece escaped: `Markup.format` takes ten times as long
        f' {key.rstrip("_").replace("_", "-")}="{number(value) if isinstance(value, float) else escape(value)}"'
        for key, value in attributes.items()
        if value is not None
    )
    tag, inside = escape(name), "".join(map(escape, content))
    return Markup(f"<{tag}{told}>{inside}</{tag}>")


def _stroke(kind: str) -> dict[str, object]:
    return {
        "class_": kind,
        "stroke_width": _WIDTHS.get(kind.split()[0], THIN),
        "stroke_dasharray": _CHAIN if kind.startswith("chain") else None,
        "vector_effect": "non-scaling-stroke",
    }


def line(x1: float, y1: float, x2: float, y2: float, kind: str = "thin") -> Markup:
    """A straight line. The first word of `kind` is its type: `visible`, `fine-visible`, `fine`, `chain`; else
    thin.
    """
    return element("line", x1=float(x1), y1=float(y1), x2=float(x2), y2=float(y2), **_stroke(kind))


def rect(x: float, y: float, width: float, height: float, kind: str = "visible") -> Markup:
    return element("rect", x=float(x), y=float(y), width=float(width), height=float(height), **_stroke(kind))


def path(steps: Iterable[str | float], kind: str = "visible") -> Markup:
    """A path of absolute steps: letters and numbers in turn."""
    told = " ".join(step if isinstance(step, str) else number(float(step)) for step in steps)
    return element("path", d=told, **_stroke(kind))


def solid(points: Iterable[tuple[float, float]], kind: str = "solid") -> Markup:
    """A filled shape without an outline."""
    told = " ".join(f"{number(x)},{number(y)}" for x, y in points)
    return element("polygon", points=told, class_=kind, fill="currentColor", stroke="none")


def dot(x: float, y: float, radius: float, kind: str = "solid") -> Markup:
    return element(
        "circle", cx=float(x), cy=float(y), r=float(radius), class_=kind, fill="currentColor", stroke="none"
    )


def text(
    x: float, y: float, words: str, anchor: str = "middle", kind: str = "word", turned: bool = False
) -> Markup:
    """Lettering on the base line `y`; `turned` reads from the right (ISO 129-1). Its edge is kept free of
    lines.
    """
    return element(
        "text",
        _lettered(words),
        x=float(x),
        y=float(y),
        class_=kind,
        text_anchor=anchor,
        fill="currentColor",
        stroke="none",
        transform=f"rotate(-90 {number(x)} {number(y)})" if turned else None,
    )


def _lettered(words: str) -> Markup:
    """Words with their fractions set small, the numerator raised: few faces do it of themselves."""
    pieces, after = [], 0
    for found in _FRACTION.finditer(words):
        pieces.append(escape(words[after : found.start()]))
        pieces.append(
            element("tspan", found[1], font_size=f"{_SMALL}em", dy=f"{number(-_RAISED / _SMALL)}em")
        )
        pieces.append(element("tspan", "⁄", dy=f"{_RAISED}em"))
        pieces.append(element("tspan", found[2], font_size=f"{_SMALL}em"))
        after = found.end()
    return Markup("").join([*pieces, escape(words[after:])])


def text_width(words: str) -> float:
    """How much room lettering takes at most, in units."""
    return LABEL * math.fsum(
        _NARROW if c in _NARROW_LETTERS else _BROAD if c in _BROAD_LETTERS else _USUAL for c in words
    )


def hatch(x: float, y: float, width: float, height: float, step: float, kind: str = "thin") -> Markup:
    """Lines at 45 degrees that fill a box, rising to the right."""
    strokes = []
    start = x - height + step
    while start < x + width:
        left, right = max(start, x), min(start + height, x + width)
        strokes.append(line(left, y + height - (left - start), right, y + height - (right - start), kind))
        start += step
    return Markup("").join(strokes)


def drawing(
    name: str,
    kind: str,
    size: tuple[float, float],
    title: str,
    described: str,
    *content: Markup,
    em: float | None = None,
) -> Markup:
    """A whole picture with its text alternative. `name` makes its ids; `em` gives it a size in the page's
    lettering.
    """
    width, height = size
    return element(
        "svg",
        element("title", title, id=f"{name}-title"),
        element("desc", described, id=f"{name}-desc"),
        *content,
        xmlns="http://www.w3.org/2000/svg",
        class_=f"drawing {kind}",
        viewBox=f"0 0 {number(width)} {number(height)}",
        width=f"{number(width / em)}em" if em else None,
        height=f"{number(height / em)}em" if em else None,
        role="img",
        aria_labelledby=f"{name}-title {name}-desc",
        fill="none",
        stroke="currentColor",
        font_size=None if em else LABEL,
    )
