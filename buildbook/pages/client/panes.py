"""The glass of a piece, pane by pane, for whoever has to replace one: what it is, its size, its edges, how it is held,
whether it breaks safely, and what must come in its place.

In: the rows of glass that the client may read of, and the advice of the figures. Out: lines. Nothing claims that a pane
meets a rule: that is for its mark to say.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.job.model import Job, Part
from buildbook.job.parts.glazing import place_of
from buildbook.pages.materials import material_name
from buildbook.pages.phrases import Phrases, capital
from buildbook.pages.shared import Line
from buildbook.summary.model import Summary
from buildbook.trade import tables
from buildbook.trade.records import GlassKind

_BACKED, _LEADED = "safety-mirror", "leaded"
_NAMES_WHO = frozenset({"replace_leaded"})
"""What says itself who makes a pane."""
_PLASTICS = frozenset({"acrylic", "polycarbonate"})


def panes(job: Job, summary: Summary, phrases: Phrases) -> tuple[Line, ...]:
    """A line for each row of glass, in the order of the parts file."""
    at_risk = {pane.row for pane in summary.glass.panes if pane.safety}
    return tuple(
        _pane(part, place_of(part, job) == "shelf", part.row in at_risk, phrases)
        for part in job.parts
        if part.kind == "glass" and part.for_client
    )


def _pane(part: Part, shelf: bool, at_risk: bool, phrases: Phrases) -> Line:
    known = next((kind for kind in tables.glass() if kind.key == part.key), None)
    sides = [side.m for side in (part.length, part.width, part.thickness) if side]
    what = (capital(material_name(part, phrases)), phrases.style.size(*sides))
    name = phrases("panes.several", name=part.name, count=part.qty) if part.qty > 1 else part.name
    told = (phrases(f"panes.{key}", **said) for key, said in _told(part, known, shelf, at_risk))
    return Line(name, ", ".join(word for word in what if word), " ".join(told))


def _told(
    part: Part, known: GlassKind | None, shelf: bool, at_risk: bool
) -> Iterator[tuple[str, dict[str, str]]]:
    """What is said of a pane, by the keys of its words."""
    if part.edge:
        yield "edge", {"edge": part.edge}
    if part.held:
        yield "held", {"held": part.held}
    if known is None:
        yield "unknown", {}
    elif known.key == _BACKED:
        yield "backed", {}
    elif not known.safety:
        yield "sharp", {}
    replacement = _replacement(known, shelf, at_risk)
    yield replacement, {}
    if replacement not in _NAMES_WHO:
        yield "plastic" if replacement == "replace_plastic" else "glazier", {}


def _replacement(known: GlassKind | None, shelf: bool, at_risk: bool) -> str:
    """What must come in its place: never less than what the place calls for."""
    if known and known.key in _PLASTICS:
        return "replace_plastic"
    if known and known.key == _LEADED:
        return "replace_leaded"
    if shelf:
        return "replace_shelf"
    if known and known.safety:
        return "replace_marked"
    return "replace_safety" if at_risk else "replace_same"
