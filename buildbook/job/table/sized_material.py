"""A material that is named with the size it is sold in: `18mm MDF`, `3/4 birch ply`, `8/4 walnut`, `Sperrholz 6,5 mm`.

In: the cell of a material. Out: its name without the size, and the size. Only what fails as a name with all its figures
is asked for here: `304 stainless` and `float glass 4` stay what the tables know them as.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

from buildbook.job.table.materials import KnownMaterial

_FIGURE = r"\d{1,3}(?:\s+\d{1,2}\s*[/⁄]\s*\d{1,2}|\s*[/⁄]\s*\d{1,2}|[.,]\d{1,2})?|[¼½¾⅛⅜⅝⅞]"
_UNIT = r"(?:mm|cm|millimet(?:re|er)s?|in(?:ch(?:es)?)?\b\.?|zoll|[\"”″]|er\b)"
_THICK = r"(?:thick|stark|dick)"
_SIZE = rf"(?P<figure>{_FIGURE})\s*-?\s*(?P<unit>{_UNIT})?(?:\s*{_THICK})?"
_BETWEEN = r"\s*[,;:–-]?\s*"
_FIRST = re.compile(rf"\(?{_SIZE}\)?(?:{_BETWEEN})(?P<name>[^\W\d_].*)", re.IGNORECASE | re.DOTALL)
_LAST = re.compile(
    rf"(?P<name>.*[^\W\d_].*?)(?:{_BETWEEN})\(?(?<![\w/.,]){_SIZE}\)?", re.IGNORECASE | re.DOTALL
)
_LONGEST = 80  # characters of a name that are looked at
_QUARTERS = re.compile(r"(?:[4-9]|1\d)\s*[/⁄]\s*4")
_FRACTION = re.compile(r"[/⁄¼½¾⅛⅜⅝⅞]")


class Sized(NamedTuple):
    """A name, and the size beside it as it was written: one of a yard (`8/4`) in `stock`, else in `thickness`."""

    name: str
    thickness: str = ""
    stock: str = ""


def without_size(material: str) -> Sized | None:
    """A material without the size before or after its name; None where there is none."""
    text = material.strip()
    if len(text) > _LONGEST:
        return None
    found = _FIRST.fullmatch(text) or _LAST.fullmatch(text)
    if found is None:
        return None
    figure, unit = found["figure"].strip().replace(",", "."), (found["unit"] or "").strip(" .").casefold()
    name = found["name"].strip(" ,;:–-")
    if _QUARTERS.fullmatch(figure) and not unit:
        return Sized(name, stock=figure)
    if unit in ("", "er") and _FRACTION.search(figure):
        unit = "in"
    return Sized(name, thickness=f"{figure} {'mm' if unit == 'er' else unit}".strip())


def known_by(
    asked: Callable[[str], KnownMaterial | None], material: str
) -> tuple[KnownMaterial | None, Sized]:
    """What the tables know a material as, else what they know it as without the size beside its name; the size only
    where it was not part of the name.
    """
    if not material:
        return None, Sized("")
    known, sized = asked(material), without_size(material)
    if sized is None or (known and known.key):
        return known, Sized(material)
    bare = asked(sized.name)
    return (bare, sized) if bare else (known, Sized(material))
