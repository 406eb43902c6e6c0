"""Models to draw, made by way of real jobs; and strategies for them."""

from dataclasses import replace
from datetime import date, timedelta

from hypothesis import strategies as st

from buildbook.job.model import Finish, Job, Part, Size
from buildbook.job.shop_model import Climate, MadeAt, Shop
from buildbook.pages.drawn.bars import Strip, YearBar, YearBars
from buildbook.pages.drawn.finish_line import finish_lines
from buildbook.pages.drawn.front import front_view
from buildbook.pages.drawn.outlines import outlines, scale_bar
from buildbook.pages.drawn.ranges import RangeRow, range_chart
from buildbook.pages.drawn.set_out import set_out
from buildbook.pages.drawn.shaped import MarkedLine
from buildbook.pages.drawn.year import dial, year_of_seasons
from buildbook.pages.phrases import Phrases
from buildbook.quantity import Length
from buildbook.summary import summarise


def length(metres):
    return None if metres is None else Length(metres, f"{metres} m")


def part(name="Top", size=(1.6, 0.45, 0.027), *, row=2, qty=1, kind="wood", key="white-oak", **more):
    sides = dict(zip(("length", "width", "thickness"), map(length, size), strict=True))
    return Part(row, name, qty, kind, more.pop("material", key), key, **sides, **more)


TWO = (part(), part("Side", (0.5, 0.43, 0.02), row=3))


def job(size=(1.6, 0.45, 0.78), parts=TWO, **more):
    return Job(folder="a-job", overall=Size(*map(length, size)), parts=parts, **more)


def front(size=(1.6, 0.45, 0.78), **more):
    made = job(size, **more)
    return front_view(made, Phrases.of(made))


def year(low=35.0, high=65.0, made=9.0, country="GB", name="Top", **more):
    of = job(
        parts=(part(name),),
        climate=Climate(low, high, 20.0),
        made_at=MadeAt(moisture_pct=made),
        shop=Shop(country_code=country),
        **more,
    )
    summary = summarise(of)
    return year_of_seasons(of, summary, summary.movement[0], Phrases.of(of))


def face(low=35.0, high=65.0):
    of = job(climate=Climate(low, high, 20.0))
    return dial(of, summarise(of), Phrases.of(of))


def lines(*coats, family="hardwax-oil", **more):
    """A line for each tuple of dates."""
    finishes = tuple(Finish(f"f{n}", family, f"oil {n}", days, **more) for n, days in enumerate(coats))
    of = job(finishes=finishes)
    return finish_lines(of, summarise(of), Phrases.of(of))


def sheet(*parts, **more):
    """The outlines of parts, in one row, and their scale bar."""
    of = job(parts=parts, **more)
    phrases = Phrases.of(of)
    return [outline for group in outlines(of, phrases) for outline in group.parts], scale_bar(of, phrases)


def bars(*rows, title="Hours", first=2001, unit="m³", to_top=""):
    """Strips of a label and its figures by year, None where there is none."""
    highest = max((value or 0 for _, values in rows for value in values), default=0)
    years = tuple(str(first + n) for n in range(len(rows[0][1])))
    strips = tuple(
        Strip(
            label,
            tuple(YearBar(value, "" if value is None else f"{value:g}") for value in values),
            max(highest, 1.0) if to_top else highest,
        )
        for label, values in rows
    )
    return YearBars(title, "Most in 2001.", "And so on.", years, strips, unit, to_top)


bar_rows = st.lists(
    st.tuples(
        st.text(st.characters(exclude_categories=["C"]), min_size=1, max_size=50),
        st.lists(st.none() | st.floats(0, 99_999), min_size=1, max_size=40),
    ),
    min_size=1,
    max_size=6,
)


def ranges(*rows, title="Hours", **more):
    """Rows of a label, low, median and high hours, and what it took, on one axis; None where all is nothing."""
    made = [
        RangeRow(
            label,
            f"{hours[1]:.0f} h",
            *hours,
            actual,
            actual is not None and not hours[0] <= actual <= hours[2],
        )
        for label, hours, actual in rows
    ]
    return range_chart(made, Phrases.of(job()), title=title, sentence="In hours.", **more)


sides = st.floats(0.02, 6.0)
sizes = st.tuples(sides, st.none() | sides, sides)
stands = st.sampled_from(["", "floor", "wall", "ceiling", "table"])
units = st.sampled_from(["mm", "in"])
humidities = st.tuples(st.floats(0, 100), st.floats(0, 100)).map(sorted)
coat_days = st.lists(st.integers(0, 400), min_size=1, max_size=6, unique=True).map(
    lambda days: tuple(date(2026, 1, 5) + timedelta(day) for day in sorted(days))
)
part_sizes = st.tuples(st.floats(0.01, 6), st.floats(0.01, 2), st.none() | st.floats(0.001, 0.2))

names = st.text(st.characters(categories=["Lu", "Ll", "Zs"]), min_size=1, max_size=60)
range_rows = st.tuples(
    names, st.lists(st.floats(0, 900), min_size=3, max_size=3).map(sorted), st.none() | st.floats(0.2, 900)
)


# -- parts with their places ------------------------------------------------------------------------


def set_out_of(parts, *notes, units="mm", height=0.9, language="en"):
    """What is drawn of parts by marked lines: (key, text)."""
    of = replace(
        job((1.0, 0.5, height), tuple(parts), units=units), shop=Shop(country_code="GB", language=language)
    )
    lines = [MarkedLine(key, text, "2026-03-02", f"day-{n}") for n, (key, text) in enumerate(notes)]
    return set_out(of, lines, Phrases.of(of))


def mm(metres):
    return f"{metres * 1000:.1f}".removesuffix(".0")


@st.composite
def parts_with_places(draw):
    """A part of any size with some places on it, as a maker would note them; and what was told."""
    long = draw(st.integers(30, 3000)) / 1000
    wide = draw(st.integers(6, 900)) / 1000
    thick = draw(st.integers(2, 90)) / 1000
    tenons = draw(st.none() | st.integers(2, max(2, min(160, int(long * 400)))).map(lambda mm: mm / 1000))
    name = draw(st.sampled_from(["Top", "Leg", "Rail", "Drawer front", "Division", "Panel", "Drawer side"]))
    of = part(name, (long, wide, thick), tenons=length(tenons))
    notes = []
    if tenons and draw(st.booleans()):
        notes.append(("joint", f"tenon {mm(tenons / 2)} x 6, {name} > Post"))
    if draw(st.booleans()):
        small, run = draw(st.integers(20, 90)) / 100 * wide, draw(st.integers(30, 100)) / 100 * long
        sides = draw(st.sampled_from(["", ", the inner face", ", all round"]))
        notes.append(("taper", f"{name} {mm(wide)} to {mm(small)} over {mm(run)}{sides}"))
    froms = [
        "from ends",
        "from the left end",
        "from the right end",
        "up",
        "down",
        "from the front",
        "from both edges",
        "from the back edge",
        "in",
    ]
    for thing in draw(
        st.lists(
            st.sampled_from(["hinge", "knob", "lock", "groove 6 x 6", "a catch with a long name"]),
            max_size=4,
            unique=True,
        )
    ):
        far = draw(st.integers(1, 95)) / 100 * draw(st.sampled_from([long, wide, long / 2, wide / 2]))
        second = draw(st.integers(1, 95)) / 100 * wide
        one, other = draw(st.sampled_from(froms)), draw(st.sampled_from(froms))
        notes.append(("at", f"{thing} on the {name} {mm(far)} {one}, {mm(second)} {other}"))
    if draw(st.booleans()):
        notes.append(("edge", f"{name} front edge round 3; chamfer 2 below, cove 5 above; all round 1"))
    return of, notes
