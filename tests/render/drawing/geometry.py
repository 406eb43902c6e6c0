"""Reads a drawing back: its shapes by class, their boxes, its lettering."""

import re
from dataclasses import dataclass
from xml.etree import ElementTree

from buildbook.render.drawing.svg import LABEL, text_width

NS = "{http://www.w3.org/2000/svg}"
ASCENT, DESCENT = 0.75, 0.25  # of the height of lettering


@dataclass(frozen=True)
class Box:
    x1: float
    y1: float
    x2: float
    y2: float

    @property
    def wide(self):
        return self.x2 - self.x1

    @property
    def tall(self):
        return self.y2 - self.y1

    def inside(self, other, by=0.0):
        return (
            self.x1 >= other.x1 - by
            and self.y1 >= other.y1 - by
            and self.x2 <= other.x2 + by
            and self.y2 <= other.y2 + by
        )

    def meets(self, other):
        return self.x1 < other.x2 and other.x1 < self.x2 and self.y1 < other.y2 and other.y1 < self.y2


def read(svg):
    """The drawing as an element; what is not well formed fails here."""
    return ElementTree.fromstring(svg)


def view_box(root):
    x, y, wide, tall = map(float, root.get("viewBox").split())
    return Box(x, y, x + wide, y + tall)


def around(points):
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def words(element):
    return "".join(element.itertext())


def _of_text(element):
    x, y, wide = float(element.get("x")), float(element.get("y")), text_width(words(element))
    start = {"start": 0, "middle": -wide / 2, "end": -wide}[element.get("text-anchor")]
    if element.get("transform"):  # turned to the left about its point
        return Box(x - ASCENT * LABEL, y - start - wide, x + DESCENT * LABEL, y - start)
    return Box(x + start, y - ASCENT * LABEL, x + start + wide, y + DESCENT * LABEL)


def _of_path(element):
    steps = element.get("d").split()
    points, place = [], 0
    while place < len(steps):
        letter, place = steps[place], place + 1
        assert letter in "MLCAZ", letter
        while place < len(steps) and not steps[place].isalpha():
            place += 5 if letter == "A" else 0
            points.append((float(steps[place]), float(steps[place + 1])))
            place += 2
    return around(points)


def box(element):
    """The room that a shape takes, without the width of its line. The corners of a curve count, not its middle."""
    get = {key: float(value) for key, value in element.attrib.items() if re.fullmatch(r"-?[\d.]+", value)}
    match element.tag.removeprefix(NS):
        case "line":
            return around([(get["x1"], get["y1"]), (get["x2"], get["y2"])])
        case "rect":
            return Box(get["x"], get["y"], get["x"] + get["width"], get["y"] + get["height"])
        case "circle":
            return Box(get["cx"] - get["r"], get["cy"] - get["r"], get["cx"] + get["r"], get["cy"] + get["r"])
        case "polygon":
            return around([tuple(map(float, pair.split(","))) for pair in element.get("points").split()])
        case "path":
            return _of_path(element)
        case "text":
            return _of_text(element)
    raise AssertionError(element.tag)


def shapes(root):
    """Every shape and lettering, in the order of drawing."""
    return [child for child in root if child.tag.removeprefix(NS) not in ("title", "desc")]


def of(root, tag, kind=""):
    """The boxes of the shapes of a tag whose class has the word `kind`."""
    found = [e for e in shapes(root) if e.tag == NS + tag and (not kind or kind in e.get("class").split())]
    return [box(e) for e in found]


def lettering(root):
    return [words(e) for e in shapes(root) if e.tag == NS + "text"]
