"""A reference in a note means a photo of the job, or nothing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.job.notes.pictures import resolve

NAMES = (
    "photos/front.jpg",
    "photos/day 2/a b.jpg",
    "photos/\u00c4st.jpg",
    "notes/photos/front.jpg",
    "photos/50%.jpg",
)


@pytest.mark.parametrize(
    ("reference", "note", "name"),
    [
        ("photos/front.jpg", "notes.md", "photos/front.jpg"),
        ("./photos/front.jpg", "notes.md", "photos/front.jpg"),
        ("photos/front.jpg", "notes/2026-03-02.md", "notes/photos/front.jpg"),
        ("../photos/front.jpg", "notes/2026-03-02.md", "photos/front.jpg"),
        ("photos/day%202/a%20b.jpg", "notes/2026-03-02.md", "photos/day 2/a b.jpg"),
        ("photos\\day 2\\a b.jpg", "notes.md", "photos/day 2/a b.jpg"),
        ("photos/A\u0308st.jpg", "notes.md", "photos/\u00c4st.jpg"),
        ("Photos/FRONT.JPG", "notes.md", "photos/front.jpg"),
        ("photos/50%25.jpg", "notes.md", "photos/50%.jpg"),
        ("photos/front.jpg?x=1#top", "notes.md", "photos/front.jpg"),
    ],
)
def test_a_reference_means_a_photo(reference, note, name):
    assert resolve(reference, note, NAMES) == name


@pytest.mark.parametrize(
    "reference",
    [
        "",
        ".",
        "photos",
        "front.jpg",
        "https://example.org/photos/front.jpg",
        "//example.org/photos/front.jpg",
        "data:image/png;base64,xx",
        "file:///photos/front.jpg",
        "/photos/front.jpg",
        "%2Fphotos/front.jpg",
        "C:\\photos\\front.jpg",
        "../photos/front.jpg",
        "photos/../../photos/front.jpg",
        "%2e%2e/photos/front.jpg",
    ],
)
def test_what_is_elsewhere_means_nothing(reference):
    assert resolve(reference, "notes.md", NAMES) is None


def test_capitals_are_forgiven_only_where_one_photo_can_be_meant():
    assert resolve("A.JPG", "notes.md", ("a.jpg", "A.jpg")) is None


@given(st.text(max_size=40))
def test_no_reference_raises_or_leaves_the_job(reference):
    assert resolve(reference, "notes/a.md", NAMES) in (None, *NAMES)
