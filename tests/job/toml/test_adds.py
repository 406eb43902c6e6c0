"""Sums that must come out, as makers write them, in both languages and both systems."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job import read_job
from buildbook.job.adds_model import Add, PartSize, Term
from buildbook.job.toml.adds import read_add, written
from buildbook.quantity import QuantityError, read_length


def made_of(text, units="mm"):
    """What a sum is of: its size, and of each term how often, which size, how many millimetres, what it is called."""
    add = read_add(text, units)
    terms = [
        (t.times, t.size and (t.size.part, t.size.dimension), t.m and t.m * 1000, t.label) for t in add.terms
    ]
    return (add.size.part, add.size.dimension), terms


def part(name, dimension, times=1):
    return (times, (name, dimension), None, "")


def gap(mm, times=1, label=""):
    return (times, None, pytest.approx(mm), label)


WRITTEN = [
    ("width: 2 x Carcase side thickness + 3 x Door width + 4 x 1.5", ("", "width"),
     [part("Carcase side", "thickness", 2), part("Door", "width", 3), gap(1.5, 4)]),
    ("height = Top thickness+2*Side length", ("", "height"), [part("Top", "thickness"), part("Side", "length", 2)]),
    ("Breite: 2 × Seite Stärke + Boden zwischen den Brüstungen", ("", "width"),
     [part("Seite", "thickness", 2), part("Boden", "between shoulders")]),
    ("Tiefe = Rückwand Dicke + 3 x Fuge 2", ("", "depth"), [part("Rückwand", "thickness"), gap(2, 3, "Fuge")]),
    ("Bottom length: width - 2 x Side thickness - 2 x gap 1", ("Bottom", "length"),
     [part("", "width"), part("Side", "thickness", -2), gap(1, -2, "gap")]),
    ("Rail between shoulders: width – 2 x Stile width", ("Rail", "between shoulders"),
     [part("", "width"), part("Stile", "width", -2)]),
    ("depth: - 2 x 3 + 456", ("", "depth"), [gap(3, -2), gap(456)]),
    ("width: 1/2 x Top length + Shelf 2 width", ("", "width"), [part("Top", "length", 0.5), part("Shelf 2", "width")]),
    ("width: 2 x X-frame width", ("", "width"), [part("X-frame", "width", 2)]),
    ("width: 4 x gap 1/16 in + 3 x 1 1/2 in", ("", "width"), [gap(25.4 / 16, 4, "gap"), gap(38.1, 3)]),
    ("WIDTH: 2 X side THICKNESS", ("", "width"), [part("side", "thickness", 2)]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "size", "terms"), WRITTEN, ids=[text for text, _, _ in WRITTEN])
def test_a_sum(text, size, terms):
    assert made_of(text) == (size, terms)


def test_a_bare_length_is_in_the_unit_of_the_job():
    assert made_of("width: 3 x gap 3/32 + 1 1/4", "in")[1] == [gap(25.4 * 3 / 32, 3, "gap"), gap(31.75)]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("2 x Side thickness", "does not say what it must come out at"),
        ("span: 2 x Side thickness", "“span” is not a size"),
        ("Door: 2 x 3", "“Door” is not a size"),
        ("width: 2 x Door", "“Door” has no size"),
        ("width: 4 x gap", "“gap” has no size"),
        ("width: Side thickness + + 3", "Nothing stands beside a sign"),
        ("width:", "Nothing stands beside a sign"),
        ("width: 3 x 1.5 wide gap", "is not a"),
        ("width: 90000 x Side thickness", "is not to be reckoned with"),
        ("width: 20-3", "is not a length"),
        ("width: " + " + ".join(["1"] * 101), "has 101 terms"),
    ],
)
def test_what_cannot_be_read_is_told_with_what_to_write(text, message):
    with pytest.raises(QuantityError) as told:
        read_add(text, "mm")
    assert message in told.value.message
    assert told.value.hint


# -- whatever can be written can be read ---------------------------------------------------------------

NAMES = st.sampled_from(["Side", "Carcase side", "X-frame", "Shelf 2", "Tür", "Top rail (front)", "2nd door"])
PART_SIZES = st.builds(
    PartSize, NAMES, st.sampled_from(["length", "width", "thickness", "between shoulders"])
)
SIZES = st.one_of(PART_SIZES, st.builds(PartSize, st.just(""), st.sampled_from(["width", "height", "depth"])))
TIMES = st.builds(lambda n, sign: float(n) * sign, st.integers(1, 40), st.sampled_from([1, -1]))


@st.composite
def terms(draw):
    times = draw(TIMES)
    if draw(st.booleans()):
        size = draw(SIZES)
        return Term(times, f"{size.part} {size.dimension}".strip(), size)
    length = draw(st.sampled_from(["1.5", "18", "3/4 in", "1 1/2 in", "2.5 cm"]))
    return Term(
        times, length, None, read_length(length, "mm").m, draw(st.sampled_from(["", "gap", "the reveal"]))
    )


@given(size=SIZES, parts=st.lists(terms(), min_size=1, max_size=8))
def test_a_sum_written_out_reads_as_itself(size, parts):
    add = Add("", size, tuple(parts))
    assert read_add(written(add), "mm") == Add(" ".join(written(add).split()), size, tuple(parts))


@given(st.text(max_size=60) | st.text("width: 2x+-=.,/ Sidethcknes", max_size=60))
def test_no_text_crashes_the_reader(text):
    try:
        read_add(text, "mm")
    except QuantityError as told:
        assert told.message  # noqa: PT017 - that it is told is what counts


def test_a_decimal_comma_in_a_sum_of_a_german_shop(tmp_path):
    (tmp_path / "shop.toml").write_text('language = "de"\n')
    (tmp_path / "job.toml").write_text(
        'title = "Schrank"\nadds = ["Breite: 2 x Seite Dicke + 3 x Tür Breite + 4 x Fuge 1,5"]\n'
        'loads = ["40,5 kg je Boden"]\n[overall]\nwidth = "946 mm"\n'
    )
    (tmp_path / "parts.csv").write_text(
        "Teil;Material;Länge;Breite;Dicke\nSeite;Eiche;900;400;20\nTür;Eiche;600;300;20\n"
    )
    job = read_job(tmp_path)
    assert [problem for problem in job.problems if problem.severity == "error"] == []
    assert [term.m for term in job.adds[0].terms if term.size is None] == [pytest.approx(0.0015)]
    assert job.loads[0].kg == 40.5
