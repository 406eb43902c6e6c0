"""Pictures drawn from page models, as inline SVG. Pure functions; all geometry of the project's drawings is
here.

svg.py         elements, line types, lettering
dimension.py   dimension lines
year.py        how wide a part is over a year
finish_line.py the dates of a finish
front.py       the piece from the front and the side
dial.py        a hygrometer's face
parts.py       parts of the cut list
set_out.py     parts with their places, dimensioned
packed.py      rows of dimensions and names
ranges.py      ranges of hours, and what it took
bars.py        figures by year

Out: `drawing(model, name)`, the SVG of any model that has a picture.
"""

from __future__ import annotations

from functools import singledispatch

from markupsafe import Markup

from buildbook.pages.drawn.bars import YearBars
from buildbook.pages.drawn.finish_line import FinishLine
from buildbook.pages.drawn.front import FrontView
from buildbook.pages.drawn.outlines import PartOutline, ScaleBar
from buildbook.pages.drawn.ranges import RangeChart
from buildbook.pages.drawn.set_out import SetOut
from buildbook.pages.drawn.year import Dial, YearOfSeasons
from buildbook.render.drawing.bars import draw_bars
from buildbook.render.drawing.dial import draw_dial
from buildbook.render.drawing.finish_line import draw_finish_line
from buildbook.render.drawing.front import draw_front
from buildbook.render.drawing.parts import draw_part, draw_scale_bar
from buildbook.render.drawing.ranges import draw_ranges
from buildbook.render.drawing.set_out import draw_set_out
from buildbook.render.drawing.year import draw_year


@singledispatch
def drawing(model: object, name: str) -> Markup:
    """The picture of a model; `name` is unlike any other on the page. TypeError for a model that has none."""
    raise TypeError(f"{type(model).__name__} has no drawing")


drawing.register(YearOfSeasons, draw_year)
drawing.register(FinishLine, draw_finish_line)
drawing.register(FrontView, draw_front)
drawing.register(Dial, draw_dial)
drawing.register(PartOutline, draw_part)
drawing.register(SetOut, draw_set_out)
drawing.register(ScaleBar, draw_scale_bar)
drawing.register(RangeChart, draw_ranges)
drawing.register(YearBars, draw_bars)

__all__ = ["drawing"]
