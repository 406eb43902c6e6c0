"""A drawing of the page for print: its SVG in a theme's ink and lettering, for the typesetter to place."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from markupsafe import escape

from buildbook.render.drawing import drawing

_IN_PENCIL = ".axis, .made, .tick, .ground, .beside, .edge, .grain, .dimension, .leader"


def drawn(model: object, name: str, look: Mapping[str, Any], accent: str) -> bytes:
    """The picture of a model (`render.drawing`) as an SVG that brings its own colours and faces: no style sheet of a
    page reaches it. `look`: the theme's tokens of print; `accent`: the colour of what is to be read off.
    """
    ink, pencil, face = (str(escape(look[token])) for token in ("ink", "pencil", "labels"))
    style = (
        f"<style>svg {{ font-family: '{face}'; }} .quiet {{ fill: {pencil}; }} "
        f"{_IN_PENCIL} {{ stroke: {pencil}; }} .curve {{ stroke: {accent}; }}</style>"
    )
    opening, end, rest = str(drawing(model, name)).replace("currentColor", ink).partition(">")
    return f"{opening}{end}{style}{rest}".encode()
