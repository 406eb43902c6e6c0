"""What is drawn of a piece, and what is not: only what its data tells, and nothing private to a client."""

from dataclasses import asdict, replace
from datetime import date

from buildbook.book.bind_job import pages_of
from buildbook.job.model import Finish, Job, Part, Size
from buildbook.pages.drawn.finish_line import finish_lines
from buildbook.pages.drawn.front import front_view
from buildbook.pages.drawn.outlines import outlines, scale_bar
from buildbook.pages.phrases import Phrases
from buildbook.quantity import Length
from buildbook.summary import summarise

IN = 0.0254


def sides(*metres):
    return [Length(m, f"{m}") if m else None for m in metres]


def part(row, name, size=(1.6, 0.45, 0.02), qty=1, kind="wood", key="white-oak", **more):
    length, width, thickness = sides(*size)
    return Part(
        row,
        name,
        qty,
        kind,
        more.pop("material", key),
        key,
        length=length,
        width=width,
        thickness=thickness,
        **more,
    )


JOB = Job(
    folder="a-job",
    stands="floor",
    overall=Size(*sides(1.6, 0.45, 0.78)),
    parts=(
        part(2, "Top"),
        part(3, "Side", (0.5, 0.43, 0.02), 2),
        part(4, "Pane", (0.4, 0.3, 0.006), kind="glass", key="float"),
    ),
    finishes=(Finish("body", "hardwax-oil", "clear oil", (date(2026, 3, 26), date(2026, 3, 31))),),
)


def front(**more):
    job = replace(JOB, **more)
    return front_view(job, Phrases.of(job))


def test_no_front_without_width_and_height_or_of_a_single_flat_part():
    assert front(overall=Size(*sides(1.6, 0.45, None))) is None
    assert front(overall=Size(*sides(None, 0.45, 0.7))) is None
    assert front(parts=(part(2, "Board"),)) is None
    assert front(parts=()) is not None


def test_a_front_has_its_figures_as_a_shop_writes_them():
    assert (front().width, front().depth, front().height) == ("1600", "450", "780")
    assert front(units="in", overall=Size(*sides(62.5 * IN, None, 30.375 * IN))).height == "30⅜"
    assert front(overall=Size(*sides(1.6, None, 0.78))).depth == ""


def test_beside_a_piece_stands_what_suits_it():
    kinds = {
        (size, stands, units): front(overall=Size(*sides(*size)), stands=stands, units=units).beside
        for size in ((1.6, 0.4, 0.8), (0.3, 0.2, 0.2), (0.05, 0.05, 0.05))
        for stands in ("floor", "wall")
        for units in ("mm", "in")
    }
    told = {key: thing.name if thing else "" for key, thing in kinds.items()}
    assert told[(1.6, 0.4, 0.8), "floor", "mm"] == "a chair"
    assert told[(1.6, 0.4, 0.8), "wall", "mm"] == "A4"
    assert told[(0.3, 0.2, 0.2), "floor", "in"] == "Letter"
    assert told[(0.05, 0.05, 0.05), "wall", "in"] == ""


def test_a_finish_line_has_the_days_of_the_schedule():
    summary = summarise(JOB)
    (line,) = finish_lines(JOB, summary, Phrases.of(JOB))
    use = summary.finish[0]
    assert (line.hard_from, line.hard_to, line.light_use_from) == (
        use.full_cure_from,
        use.full_cure_to,
        use.light_use_from,
    )
    assert line.coats_when == "26 to 31\u00a0March"
    assert line.last_day == use.full_cure_to


def test_years_are_told_when_the_line_crosses_into_one():
    job = replace(
        JOB, finishes=(Finish("body", "hardwax-oil", "oil", (date(2025, 12, 28), date(2025, 12, 30))),)
    )
    (line,) = finish_lines(job, summarise(job), Phrases.of(job))
    assert line.coats_when == "28 to 30\u00a0December 2025"


def test_a_finish_without_dates_has_no_line():
    job = replace(JOB, finishes=(Finish("a", "soap", "soap"), *JOB.finishes))
    assert [line.place for line in finish_lines(job, summarise(job), Phrases.of(job))] == [1]


def test_outlines_are_grouped_by_material_with_their_counts():
    groups = outlines(JOB, Phrases.of(JOB))
    assert [(group.material, [p.name for p in group.parts]) for group in groups] == [
        ("White-oak", ["Top", "Side"]),
        ("Float", ["Pane"]),
    ]
    assert groups[0].parts[1].count == "2 off"
    assert groups[0].parts[1].size == "500 × 430 × 20\u202fmm"
    assert {p.across_m for group in groups for p in group.parts} == {1.6}


def test_the_scale_bar_is_a_round_length():
    inch = replace(JOB, units="in")
    assert scale_bar(JOB, Phrases.of(JOB)).label == "500\u202fmm"
    assert scale_bar(inch, Phrases.of(inch)).label == "24\u202fin"
    assert scale_bar(replace(JOB, parts=()), Phrases.of(JOB)) is None


def test_no_drawing_for_a_client_names_a_row_that_is_kept_off():
    """The widest part is kept off: the year is that of the widest one that may leave."""
    kept_off = part(9, "Zqwxsecret", (2.0, 0.9, 0.03), for_client=False)
    piece, log, _, _ = pages_of(replace(JOB, parts=(kept_off, *JOB.parts)))
    drawn = str([asdict(model) for model in (piece.year, piece.dial, piece.front, *piece.finish_lines)])
    assert piece.year.part == "Top"
    assert "Zqwxsecret" not in drawn
    assert "Zqwxsecret" in str(log.outlines)


def test_with_every_moving_row_kept_off_there_is_no_year():
    hidden = tuple(replace(p, for_client=False) for p in JOB.parts)
    piece, _, _, _ = pages_of(replace(JOB, parts=hidden))
    assert piece.year is None
