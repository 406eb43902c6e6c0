"""What is searched of one job."""

from dataclasses import replace
from datetime import date

import pytest

from buildbook.find.settings import settings
from buildbook.job import read_job
from buildbook.job.log_model import LogEntry
from buildbook.job.notes.places import blocks_of
from tests.conftest import SAMPLE
from tests.make_shelf import job_of, made_jobs, searched, write_shelf

JOB = read_job(SAMPLE)


SAID = searched(JOB).passages


@pytest.mark.parametrize(
    ("field", "words"),
    [
        ("title", "slate inset"),
        ("piece", "sideboard"),
        ("number", "2026-007"),
        ("client", "Castellane"),
        ("tags", "book-matched"),
        ("joinery", "sliding dovetail"),
        ("wood", "Quercus robur"),
        ("other_wood", "Juglans nigra"),
        ("names", "Schwarznussbaum"),
        ("finish", "clear satin hardwax oil"),
        ("names", "Schellack"),
        ("hardware", "brass butt hinge"),
        ("material", "toughened glass"),
        ("part", "Loose shelf"),
        ("supplier", "Quillby Timber"),
        ("note", "oak blackens steel"),
        ("mark", "the blade wandered 1.2 mm"),
        ("cut", "sliding dovetail 14 x 7"),
        ("entry", "Re-sawing the walnut"),
        ("caption", "The top in bars"),
        ("working", "Splay of the legs"),
        ("about", "gales of 2021"),
        ("size", "1600 mm"),
        ("date", "spring 2026"),
    ],
)
def test_every_kind_of_word_is_there_with_its_field(field, words):
    assert [p for p in SAID if p.field == field and words in p.text.replace("\u202f", " ")]


def test_every_field_has_a_weight():
    assert {passage.field for passage in SAID} == set(settings().fields)


def test_pictures_hours_and_the_mark_for_the_client_are_no_words():
    notes = " ".join(passage.text for passage in SAID if passage.field == "note")
    for absent in ("photos/", "Hours:", "For the client", "![", "###"):
        assert absent not in notes


@pytest.mark.parametrize(
    ("day", "country", "words"),
    [
        (date(2023, 12, 5), "GB", "winter 2023/2024"),
        (date(2024, 2, 5), "GB", "winter 2023/2024"),
        (date(2024, 7, 5), "GB", "summer 2024"),
        (date(2024, 7, 5), "NZ", "winter 2024"),
        (date(2024, 1, 5), "NZ", "summer 2023/2024"),
    ],
)
def test_a_season_is_named_as_it_is_remembered(day, country, words):
    job = replace(JOB, delivered=day, shop=replace(JOB.shop, country_code=country))
    assert [p.text for p in searched(job).passages if p.field == "date" and words in p.text]


def test_a_bare_job_has_a_record():
    bare = searched(
        replace(JOB, title="", parts=(), entries=(), finishes=(), workings=(), delivered=None, begun=None)
    ).record
    assert bare.title == JOB.key
    assert bare.day == ""


def test_markdown_becomes_plain_words():
    text = "# Head\n\nA *soft* [link](http://example.org) and `code`,\nnext line.\n\n- item\n\n| a | b |\n|---|---|\n| c | d |\n"
    assert [block.text for block in blocks_of(text)] == [
        "Head",
        "A soft link and code, next line.",
        "item",
        "a: c · b: d",
    ]


def test_generated_folders_read_as_the_jobs_made_in_memory(tmp_path):
    """The generator's two ways agree: through folders and readers, and without any file."""
    made = list(made_jobs(4, seed=3))
    write_shelf(tmp_path, iter(made))
    for one in made:
        job = read_job(tmp_path / one.key)
        assert [str(p) for p in job.problems if p.severity == "error"] == []
        assert searched(job) == searched(job_of(one))


def test_generated_notes_are_as_long_as_notes_are():
    lengths = [len(one.files["notes.md"].split()) for one in made_jobs(60)]
    assert min(lengths) >= 300
    assert max(lengths) <= 2600
    assert max(lengths) > 1500


@pytest.mark.parametrize("said", ["Client", "the client", "For", "the", "r", "for the cli"])
def test_a_paragraph_that_is_a_part_of_the_mark_for_the_client_is_kept(said):
    entry = LogEntry(date(2026, 1, 5), "", f"Before.\n\n{said}\n\n### For the  client\n\nAfter.")
    found = searched(replace(JOB, entries=(entry,))).passages
    assert [p.text for p in found if p.field == "note" and p.where == "2026-01-05"] == [
        "Before.",
        said,
        "After.",
    ]
