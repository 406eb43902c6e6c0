"""Photos: what each is, by its header; every broken kind is told and passed over, and the rest goes on."""

import io
import os
import warnings
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image
from pillow_heif import register_heif_opener

from buildbook.job.photos.headers import check, read_photos
from buildbook.problems import Problems
from tests.job import told

FORMATS = {"jpg": "JPEG", "png": "PNG", "webp": "WEBP", "tif": "TIFF", "heic": "HEIF"}
TAKEN = datetime(2026, 3, 2, 14, 5)

register_heif_opener()


def picture(
    suffix="jpg", *, size=(48, 32), taken="2026:03:02 14:05:00", orientation=1, colour=(180, 120, 60), **how
):
    """The bytes of a small picture."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    if taken:
        exif.get_ifd(0x8769)[0x9003] = taken  # DateTimeOriginal
        exif[0x0132] = taken  # DateTime, the one that Pillow writes into TIFF
    out = io.BytesIO()
    Image.new("RGB", size, colour).save(out, FORMATS[suffix], exif=exif, **how)
    return out.getvalue()


PICTURES = {suffix: picture(suffix) for suffix in FORMATS}


@pytest.fixture
def job(tmp_path):
    """A function that lays out photos by name and reads them."""

    def lay(**files):
        for name, data in files.items():
            path = tmp_path / "photos" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        problems = Problems()
        return read_photos(tmp_path, problems), problems

    lay.folder = tmp_path
    return lay


@pytest.mark.parametrize("suffix", FORMATS)
def test_every_format_is_read(job, suffix):
    photos, problems = job(**{f"day 1/IMG_1.{suffix.upper()}": PICTURES[suffix]})
    assert told(problems) == []
    (photo,) = photos
    assert photo.name == f"photos/day 1/IMG_1.{suffix.upper()}"
    assert (photo.width, photo.height, photo.taken) == (48, 32, TAKEN)
    assert check(photo) is None


@pytest.mark.parametrize("suffix", ["jpg", "png", "webp", "tif"])
@pytest.mark.parametrize("orientation", [1, 3, 6, 8])
def test_sizes_are_those_of_the_upright_picture(job, suffix, orientation):
    photos, _ = job(**{f"a.{suffix}": picture(suffix, orientation=orientation)})
    assert (photos[0].width, photos[0].height) == ((32, 48) if orientation in (6, 8) else (48, 32))


def test_a_phone_may_write_heic_under_another_name(job):
    photos, problems = job(**{"a.jpg": PICTURES["heic"]})
    assert told(problems) == []
    assert photos[0].width == 48


@pytest.mark.parametrize(
    ("written", "taken"),
    [
        ("2026:03:02 14:05:00", TAKEN),
        ("2026:03:02 14:05:00\x00", TAKEN),
        ("0000:00:00 00:00:00", None),
        ("1980:01:01 00:00:00", None),
        ("2026:13:40 14:05:00", None),
        ("    :  :     :  :  ", None),
        ("yesterday", None),
        ("", None),
    ],
)
def test_a_time_that_no_set_clock_writes_is_none(job, written, taken):
    photos, problems = job(**{"a.jpg": picture(taken=written)})
    assert told(problems) == []
    assert photos[0].taken == taken


def test_photos_are_in_the_order_of_their_names_and_told_apart_by_content(job):
    one, two = picture(colour=(1, 2, 3)), picture(colour=(4, 5, 6))
    photos, problems = job(**{"c.jpg": one, "a/z.jpg": two, "b.jpg": one})
    assert [photo.name for photo in photos] == ["photos/a/z.jpg", "photos/b.jpg"]
    assert told(problems) == [
        "warning: photos/c.jpg: This is the same picture as photos/b.jpg. Delete one of them."
    ]


BROKEN = {
    "empty": (b"", "This file is empty. Copy it off the camera again."),
    "text": (b"a shopping list", "This is not a picture that can be read. Copy it off the camera again."),
    "half a header": (
        PICTURES["jpg"][:20],
        "This is not a picture that can be read. Copy it off the camera again.",
    ),
    "another format": (
        b"GIF89a\x01\x00\x01\x00\x80\x00\x00\xff\xff\xff\x00\x00\x00!\xf9\x04\x01\x00\x00\x00\x00,\x00",
        "This is not a picture that can be read. Copy it off the camera again.",
    ),
}


@pytest.mark.parametrize(("data", "line"), BROKEN.values(), ids=BROKEN)
def test_what_is_no_picture_is_told_and_the_rest_goes_on(job, data, line):
    photos, problems = job(**{"a.jpg": data, "b.jpg": PICTURES["jpg"]})
    assert [photo.name for photo in photos] == ["photos/b.jpg"]
    assert told(problems) == [f"warning: photos/a.jpg: {line}"]


def test_a_picture_too_large_to_open_is_told(job):
    huge = io.BytesIO()
    Image.new("1", (20_000, 20_000)).save(huge, "PNG")
    photos, problems = job(**{"a.png": huge.getvalue()})
    assert photos == ()
    assert told(problems) == [
        "warning: photos/a.png: This picture is too large to open: it may have 150 million points. Save a smaller copy of it."
    ]


@pytest.mark.parametrize("suffix", ["jpg", "png", "tif"])
def test_a_truncated_picture_is_found_by_the_check(job, suffix):
    data = io.BytesIO()
    Image.effect_noise((200, 200), 90).convert("RGB").save(data, FORMATS[suffix])
    photos, problems = job(**{f"a.{suffix}": data.getvalue()[:-3000]})
    assert told(problems) == []
    assert str(check(photos[0])) == (
        f"photos/a.{suffix}: Part of this picture is missing. Copy it off the camera again."
    )


def test_what_is_no_picture_by_its_name_is_told_once(job):
    _, problems = job(
        **{"a.mov": b"x", "b.mp4": b"x", "list.txt": b"x", "d.pdf": b"x", ".hidden": b"x", "Thumbs.db": b"x"}
    )
    assert told(problems) == [
        "warning: photos: “d.pdf” and “list.txt” are not among the pictures that can be shown;"
        " they are passed over. JPEG, PNG, WebP, TIFF and HEIC are shown."
    ]


def test_links_that_lead_outside_are_told(job, tmp_path_factory):
    outside = tmp_path_factory.mktemp("outside")
    (outside / "x.jpg").write_bytes(PICTURES["jpg"])
    job(**{"a.png": PICTURES["png"]})
    photos = job.folder / "photos"
    (photos / "out.jpg").symlink_to(outside / "x.jpg")
    (photos / "gone.jpg").symlink_to(photos / "nowhere.jpg")
    (photos / "folder").symlink_to(outside, target_is_directory=True)
    (photos / "same.png").symlink_to(photos / "a.png")
    found, problems = job()
    assert [photo.name for photo in found] == ["photos/a.png"]
    assert told(problems) == [
        "warning: photos/folder: This folder is a link and is passed over. Copy what is in it in its place.",
        "warning: photos/gone.jpg: This file cannot be read: No such file or directory. See that you"
        " may open it.",
        "warning: photos/out.jpg: This is a link that leads out of the job folder; it is passed over."
        " Copy it in.",
        "warning: photos/same.png: This is the same picture as photos/a.png. Delete one of them.",
    ]


def test_what_is_no_plain_file_is_told_and_not_waited_for(job):
    job(**{"a.png": PICTURES["png"]})
    os.mkfifo(job.folder / "photos" / "pipe.jpg")
    assert told(job()[1]) == [
        "warning: photos/pipe.jpg: This is a pipe, not a plain file; it is passed over. Move it out of the folder."
    ]


def test_a_name_that_is_no_text_is_told(job):
    job(**{"a.png": PICTURES["png"]})
    (job.folder / "photos" / os.fsdecode(b"t\xfcr.jpg")).write_bytes(PICTURES["jpg"])
    assert told(job()[1]) == [
        "warning: photos/t?r.jpg: The name of this file cannot be read and it is passed over. Rename it."
    ]


def test_no_photos_are_no_problem_here(job):
    assert told(job()[1]) == []


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(st.sampled_from(sorted(PICTURES)), st.data())
def test_no_bytes_raise(job, suffix, data):
    seed = bytearray(PICTURES[suffix])
    for _ in range(data.draw(st.integers(1, 5))):
        at = data.draw(st.integers(0, len(seed) - 1))
        seed[at : at + data.draw(st.integers(0, 9))] = data.draw(st.binary(max_size=9))
        seed = seed or bytearray(b"\xff")
    for before in (job.folder / "photos").glob("*"):
        before.unlink()
    photos, problems = job(**{f"a.{suffix}": bytes(seed)})
    assert len(photos) + len(problems) == 1
    for photo in photos:
        problem = check(photo)
        assert problem is None or problem.severity == "warning"


def test_checking_in_threads_leaves_the_warnings_of_the_program_alone(job):
    photos, _ = job(**{f"{n}.jpg": picture(colour=(n, n, n)) for n in range(8)})
    before = list(warnings.filters)
    with ThreadPoolExecutor(4) as pool:
        assert list(pool.map(check, photos * 5)) == [None] * 40
    assert warnings.filters == before
