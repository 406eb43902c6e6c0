"""Pieces of any parts, in both languages, at any size: all is said in words, and what is asked can be answered."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from buildbook.job.model import Job, Size
from buildbook.job.parts import adding
from buildbook.job.table.parts import read_parts
from buildbook.job.toml.adds import read_add
from buildbook.problems import Problems
from buildbook.quantity import Length, QuantityError
from buildbook.resized.again import resize
from buildbook.resized.asking import asked
from buildbook.resized.figures import alike, figures_of
from buildbook.resized.telling import Telling
from buildbook.resized.unfit import unfit_of
from buildbook.resized.wanted import read_sizes
from buildbook.words import Words

NAMES = (
    "Top", "Carcase side", "Door stile", "Door rail", "Door panel", "Türrahmen", "Tür", "Drawer front", "Shelf", "Leg", "Back",
    "Seitenwand", "Einlegeboden", "Füllung", "Fries", "Plinth", "Hinge", "Scharnier", "Glass shelf", "Widget", "Top, left",
)  # fmt: skip
ROW = st.tuples(
    st.sampled_from(NAMES),
    st.integers(1, 4),
    st.sampled_from(
        [
            "oak",
            "black walnut",
            "MDF",
            "birch plywood",
            "float glass",
            "slate",
            "brass butt hinge",
            "unobtainium",
        ]
    ),
    st.integers(20, 2500),
    st.integers(20, 1300),
    st.integers(4, 60),
    st.sampled_from(["", "60"]),
    st.sampled_from(["", "900"]),
)
SUMS = st.lists(
    st.sampled_from(
        [
            "width: Top length",
            "width: 2 x Carcase side thickness + 2 x Shelf length + 3 x gap 1.5",
            "height: Leg length + Carcase side length",
            "Shelf length: Top length - 2 x Carcase side thickness",
            "Door rail between shoulders: Door panel width - 2 x groove 8",
            "depth: Top width - Back thickness",
            "Top length: Top length + gap 1",
            "width: 2 x Door rail length - 2 x Door rail length + Shelf length",
        ]
    ),
    max_size=4,
)
ANSWER = st.sampled_from(["", "no", "ja", "1", "2", "3", "all", "450", "x"])


@given(
    st.lists(ROW, min_size=1, max_size=9), SUMS, st.sampled_from(["width", "height", "depth"]), st.integers(100, 3000),
    st.lists(ANSWER, max_size=6), st.sampled_from(["en", "de"]), st.sampled_from(["mm", "in"]),
)  # fmt: skip
def test_all_of_it_is_said(rows, sums, axis, size, answers, language, units):
    table = [
        "part;qty;material;length;width;thickness;tenons;opening",
        *(";".join(map(str, _row(row))) for row in rows),
    ]
    parts = read_parts("\n".join(table).encode(), "mm", Problems())
    overall = Size(Length(1.6, ""), Length(0.45, ""), Length(0.78, ""))
    job = Job(
        "x",
        units=units,
        overall=overall,
        parts=parts,
        doors=2,
        adds=tuple(read_add(text, "mm") for text in sums),
    )
    job = alike(_checked(job), job.shop)
    left = list(answers)
    try:
        wanted = read_sizes([f"{axis} {size} mm"], units)
        resize(job, wanted)
        resized = asked(job, wanted, Words(language), lambda _: left.pop(0) if left else "", lambda _: None)
    except QuantityError:  # nothing would be left of a part
        return
    telling = Telling(resized, Words(language))
    found = unfit_of(resized, job)
    figures = figures_of(resized, job)
    lines = [
        *telling.parts(),
        *telling.untold(),
        *telling.unfit(found),
        *telling.figures(figures),
        *telling.hours(figures),
    ]
    assert all(line and "{" not in line for line in lines)


def _row(row):
    name, qty, material, length, width, thickness, tenons, opening = row
    return name, qty, material, length, width, thickness, tenons if length > 60 else "", opening


def _checked(job):

    return replace(job, adds=adding.checked(job, lambda *_: None))
