"""The colour of a wood, carried to shades that are legible: WCAG 2.2 contrast, computed, by day and by night.

A page has paper and ink and one accent, taken from the piece's main wood. Text in the accent has at least 4.5:1
against its ground, lines at least 3:1 (WCAG 2.2, success criteria 1.4.3 and 1.4.11).
"""

from __future__ import annotations

import colorsys
from dataclasses import dataclass

TEXT_CONTRAST = 4.5
LINE_CONTRAST = 3.0
_STEP = 0.01


def luminance(colour: str) -> float:
    """Relative luminance of `#rrggbb` as WCAG 2.2 defines it, 0 (black) to 1 (white)."""
    channels = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21 (WCAG 2.2)."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def legible(colour: str, ground: str, ratio: float) -> str:
    """The same hue, made darker or lighter only as far as the ratio against the ground asks."""
    hue, lightness, saturation = colorsys.rgb_to_hls(*(int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)))
    towards = -_STEP if luminance(ground) > 0.18 else _STEP
    shade = colour
    while contrast(shade, ground) < ratio and 0 <= lightness + towards <= 1:
        lightness += towards
        shade = "#" + "".join(
            f"{round(c * 255):02x}" for c in colorsys.hls_to_rgb(hue, lightness, saturation)
        )
    return shade


@dataclass(frozen=True)
class Accent:
    """An accent for one ground: `text` for words, `line` for rules and drawings, `wood` the wood itself."""

    text: str
    line: str
    wood: str


def accent(wood: str, ground: str) -> Accent:
    return Accent(legible(wood, ground, TEXT_CONTRAST), legible(wood, ground, LINE_CONTRAST), wood)
