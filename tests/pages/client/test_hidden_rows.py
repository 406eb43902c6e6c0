"""A row that is kept off the client's page says nothing there: the page is as if the row did not exist.

Two things remain of it, and are meant to: its share of totals (mass, carbon, volume of a wood that other rows show),
and what may keep someone from harm, in general words.
"""

from collections import Counter
from dataclasses import fields, is_dataclass, replace
from pathlib import Path

import pytest

from buildbook.book.bind_job import pages_of
from buildbook.job import find_jobs, read_job

TESTS = Path(__file__).resolve().parents[2]
JOBS = [TESTS.parent / "sample_job", *find_jobs(TESTS / "shelf")]
TOTALS = {"mass_kg", "stored_kg_co2", "net_m3", "volume"}
OF_TOTALS = ("kg", "carbon dioxide")


def leaves(value, path=()):
    """Every value of a model, with the names of the fields that lead to it."""
    if is_dataclass(value):
        for field in fields(value):
            yield from leaves(getattr(value, field.name), (*path, field.name))
    elif isinstance(value, (tuple, list)):
        for one in value:
            yield from leaves(one, path)
    else:
        yield path, value


def ordinary(piece):
    """The page without what may keep someone from harm."""

    def only_notes(advice):
        return tuple(item for item in advice if item.severity == "note")

    def of_groups(groups):
        kept = [replace(group, items=only_notes(group.items)) for group in groups]
        return tuple(group for group in kept if group.items)

    return replace(
        piece,
        dangers=(),
        everyday=of_groups(piece.everyday),
        care=of_groups(piece.care),
        moving=of_groups(piece.moving),
        another=only_notes(piece.another),
        passing=only_notes(piece.passing),
        cautions=only_notes(piece.cautions),
        mending=only_notes(piece.mending),
        day_one=(),
        due=(),
        happens=tuple(
            replace(event, aid=tuple(aid for aid in event.aid if not aid.danger)) for event in piece.happens
        ),
    )


@pytest.mark.parametrize("folder", JOBS, ids=lambda path: path.name)
def test_a_hidden_row_says_no_more_than_a_row_that_does_not_exist(folder):
    job = read_job(folder)
    for row in (part for part in job.parts if part.kind != "supply"):
        hidden = replace(row, for_client=False)
        without = tuple(part for part in job.parts if part is not row)
        with_hidden = tuple(hidden if part is row else part for part in job.parts)
        shown = Counter(leaves(ordinary(pages_of(replace(job, parts=with_hidden))[0])))
        as_if = Counter(leaves(ordinary(pages_of(replace(job, parts=without))[0])))
        more = [
            (path, value)
            for path, value in shown - as_if
            if path[-1] not in TOTALS and not any(word in str(value) for word in OF_TOTALS)
        ]
        assert more == [], f"{folder.name}, {row.name}"


def test_the_widest_part_is_the_widest_that_the_client_reads_of(make_job):
    job = read_job(
        make_job(
            parts_dot_csv="part,kind,material,length,width,thickness,client\n"
            "Hidden board,wood,European beech,900,600,20,no\n"
            "Shelf,wood,European beech,900,100,20,\n",
            notes_dot_md="## 2026-03-02\n\nCut.\n",
        )
    )
    piece = pages_of(job)[0]
    said = [line.value for line in piece.figures if line.label == "Moves with the seasons"]
    (moving,) = piece.seasons.moving
    assert moving.part == "Shelf"
    assert len(said) == 1
    assert float(said[0].split()[2].split("\u202f")[0]) == pytest.approx(
        1000 * (moving.grows_m + moving.shrinks_m), abs=0.06
    )
