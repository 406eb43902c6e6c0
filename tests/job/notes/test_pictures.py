"""A reference in a note means a photo of the job, or nothing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.book.bind import bind
from buildbook.job import read_job
from buildbook.job.notes.pictures import Names, resolve, tell_missing
from buildbook.problems import Problems
from tests.conftest import every_file, noise
from tests.job import told

NAMES = Names(
    (
        "photos/front.jpg",
        "photos/day 2/a b.jpg",
        "photos/\u00c4st.jpg",
        "notes/photos/front.jpg",
        "photos/50%.jpg",
    )
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
        ("a%20b.jpg", "notes.md", "photos/day 2/a b.jpg"),
        ("A\u0308ST.jpg", "notes/2026-03-02.md", "photos/\u00c4st.jpg"),
        ("50%25.jpg", "notes.md", "photos/50%.jpg"),
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
        "day 2/a b.jpg",
        "../a%20b.jpg",
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
    assert resolve("A.JPG", "notes.md", Names(("a.jpg", "A.jpg"))) is None


@given(st.text(max_size=40))
def test_no_reference_raises_or_leaves_the_job(reference):
    assert resolve(reference, "notes/a.md", NAMES) in (None, *NAMES)


# -- one picture in several files ----------------------------------------------------------------

JOB = 'title = "A box"\nbegun = 2026-03-01\n'
NOTES = """## 2026-03-02 Dovetails

![The tails]({})

### For the client

![Closed]({})
"""


@pytest.fixture
def bound(tmp_path, make_job):
    """A function that binds a job into a fresh book: the job, and the files of its book."""

    def bind_(**files):
        job = make_job("a", **files)
        result = bind(job, tmp_path / "book")
        assert result.ok, [str(p) for done in result.jobs for p in done.problems]
        return read_job(job), every_file(tmp_path / "book" / "handover")

    return bind_


@pytest.mark.parametrize("copy", ["photos/a.jpg", "photos/sub/z.jpg", "photos/zz.jpg"])
@pytest.mark.parametrize("how", ["by the note", "by job.toml"])
def test_a_copy_made_later_under_another_name_changes_nothing(bound, copy, how):
    notes = (
        NOTES.format("photos/tails.jpg", "photos/z.jpg")
        if how == "by the note"
        else "## 2026-03-02 Words\n\nx\n"
    )
    more = "" if how == "by the note" else '[photos]\nlead = "photos/z.jpg"\nclient = ["photos/tails.jpg"]\n'
    files = {
        "job.toml": JOB + more,
        "notes.md": notes,
        "photos/tails.jpg": noise(1),
        "photos/z.jpg": noise(2),
    }
    job, before = bound(**files)
    copied, after = bound(**{copy: noise(2)})
    assert after == before
    assert [photo.name for photo in copied.photos] == [photo.name for photo in job.photos]
    assert copied.photo(copy) == copied.photo("photos/z.jpg")
    assert copied.photo(copy) is not None
    assert (copied.lead, copied.client_photos, copied.entries) == (job.lead, job.client_photos, job.entries)
    new = set(told(copied.problems)) - set(told(job.problems))
    assert [line for line in new if "same picture" not in line] == []


def test_one_picture_named_by_both_its_names_is_one(bound, tmp_path):
    files = {"job.toml": JOB + '[photos]\nclient = ["photos/b.jpg", "photos/a.jpg"]\n'}
    job, _ = bound(**files, **{"notes.md": NOTES.format("photos/b.jpg", "photos/a.jpg")},
                   **{"photos/a.jpg": noise(1), "photos/b.jpg": noise(1)})  # fmt: skip
    assert [(photo.name, photo.also) for photo in job.photos] == [("photos/b.jpg", ("photos/a.jpg",))]
    assert [picture.name for picture in job.entries[0].pictures] == ["photos/b.jpg"] * 2
    assert job.client_photos == ("photos/b.jpg",)
    log = (tmp_path / "book" / "jobs" / "a" / "index.html").read_text("utf-8")
    assert log.count('<figure class="frame"') == 2, (
        "once at each place that shows it, and not again among those of the day"
    )


def test_a_file_name_alone_is_found_where_one_photo_has_it(bound):
    files = {
        "job.toml": JOB + '[photos]\nlead = "front.jpg"\n',
        "notes.md": NOTES.format("dovetail.jpg", "front.jpg"),
    }
    job, _ = bound(**files, **{"photos/sub/dovetail.jpg": noise(1), "photos/other/front.jpg": noise(2)})
    names = [picture.name for picture in job.entries[0].pictures]
    assert names == ["photos/sub/dovetail.jpg", "photos/other/front.jpg"]
    assert job.lead == "photos/other/front.jpg"


def test_a_file_name_that_two_photos_have_is_told_with_both(make_job):
    files = {
        "photos/a/x.jpg": noise(1),
        "photos/b/x.jpg": noise(2),
        "notes.md": NOTES.format("x.jpg", "y.jpg"),
    }
    job = make_job(**files, **{"job.toml": JOB + '[photos]\nlead = "x.jpg"\n'})
    both = "“x.jpg” may be photos/a/x.jpg or photos/b/x.jpg. Name it by its whole path from the job folder."
    lines = told(read_job(job).problems)
    assert f"warning: notes.md, line 3: {both}" in lines
    assert f"warning: job.toml, line 4, photos.lead: {both}" in lines


def test_a_file_name_that_two_copies_of_one_photo_have_means_it(make_job):
    job = make_job(
        **{"photos/a/x.jpg": noise(1), "photos/b/x.jpg": noise(1), "notes.md": NOTES.format("x.jpg", "x.jpg")}
    )
    assert [picture.name for picture in read_job(job).entries[0].pictures] == ["photos/a/x.jpg"] * 2


@pytest.mark.parametrize(
    ("written", "hint"),
    [
        ("photos/IMG_4511.jpg", "Did you mean “photos/IMG_4510.jpg” or “photos/IMG_4501.jpg”?"),
        ("front.jpg", "Put the picture in the folder photos and name it from there."),
    ],
)
def test_of_many_photos_at_most_the_nearest_are_named(written, hint):
    problems = Problems()
    tell_missing(written, "notes.md", 1, Names(f"photos/IMG_45{n:02}.jpg" for n in range(11)), problems)
    assert [problem.hint for problem in problems] == [hint]
