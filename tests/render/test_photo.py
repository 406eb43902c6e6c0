"""Copies of photos: upright, sRGB, sized by their long edge, no metadata, the same bytes each time."""

import contextlib
import io
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageCms

from buildbook.render.copies import LONG_EDGES, SMALL_EDGE, copies_of, small_copies_of
from buildbook.render.photo import UnreadablePicture, encode

FORMATS = {"jpg": "JPEG", "png": "PNG", "webp": "WEBP", "tif": "TIFF", "heic": "HEIF"}


def picture(size=(600, 400), mode="RGB"):
    """Left half red, right half blue, so that turning shows."""
    image = Image.new(mode, size, "red" if mode.startswith("RGB") else 60)
    if mode.startswith("RGB"):
        image.paste("blue", (size[0] // 2, 0, size[0], size[1]))
    return image


def saved(tmp_path, kind, image, **how):
    import pillow_heif

    pillow_heif.register_heif_opener()
    path = tmp_path / f"photo.{kind}"
    image.save(path, FORMATS[kind], **how)
    return path


def made(path, width, height):
    copies = copies_of("digest", width, height)
    return copies, dict(encode(path, copies))


@pytest.mark.parametrize("kind", FORMATS)
def test_every_format_is_read(tmp_path, kind):
    copies, files = made(saved(tmp_path, kind, picture()), 600, 400)
    assert [(c.width, c.height) for c in copies] == [(600, 400), (504, 336)]
    for copy in copies:
        with Image.open(io.BytesIO(files[copy.name])) as out:
            assert (out.size, out.mode, out.format) == ((copy.width, copy.height), "RGB", "JPEG")


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_photo_is_turned_upright_as_exif_says(tmp_path, orientation):
    """The upright picture is red on the left. Source of the eight orientations: EXIF 2.3, tag 0x0112."""
    upright = picture()
    back = {
        1: None, 2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180, 4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE, 6: Image.Transpose.ROTATE_90, 7: Image.Transpose.TRANSVERSE, 8: Image.Transpose.ROTATE_270,
    }[orientation]  # fmt: skip
    stored = upright.transpose(back) if back is not None else upright
    exif = Image.Exif()
    exif[0x0112] = orientation
    _, files = made(saved(tmp_path, "jpg", stored, exif=exif, quality=95), 600, 400)
    with Image.open(io.BytesIO(next(iter(files.values())))) as out:
        assert out.size == (600, 400)
        left, right = out.getpixel((100, 200)), out.getpixel((500, 200))
    assert left[0] > 200 > 80 > left[2]
    assert right[2] > 200 > 80 > right[0]


@pytest.mark.parametrize("mode", ["L", "LA", "P", "1", "CMYK", "I;16", "I", "F", "RGBA"])
def test_every_mode_becomes_rgb(tmp_path, mode):
    kind = {"CMYK": "jpg", "F": "tif", "I": "tif"}.get(mode, "png")
    _, files = made(saved(tmp_path, kind, picture(mode=mode)), 600, 400)
    with Image.open(io.BytesIO(next(iter(files.values())))) as out:
        assert out.mode == "RGB"


def test_a_colour_profile_is_converted_not_dropped(tmp_path):
    """A grey of a linear space is a lighter grey in sRGB."""
    lab = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    path = saved(tmp_path, "jpg", Image.new("RGB", (60, 60), (128, 64, 32)), icc_profile=lab, quality=100)
    _, files = made(path, 60, 60)
    with Image.open(io.BytesIO(next(iter(files.values())))) as out:
        assert "icc_profile" not in out.info
        assert all(abs(a - b) <= 3 for a, b in zip(out.getpixel((30, 30)), (128, 64, 32), strict=True))


def test_the_same_photo_gives_the_same_bytes(tmp_path):
    noise = Image.frombytes("RGB", (700, 500), random.Random(1).randbytes(700 * 500 * 3))
    path = saved(tmp_path, "jpg", noise)
    assert made(path, 700, 500) == made(path, 700, 500)


@given(st.integers(1, 9000), st.integers(1, 9000))
def test_copies_are_never_larger_and_keep_their_shape(width, height):
    copies = copies_of("d", width, height)
    assert [max(c.width, c.height) for c in copies] == sorted(
        {max(c.width, c.height) for c in copies}, reverse=True
    )
    for copy in copies:
        assert copy.width <= width
        assert copy.height <= height
        assert max(copy.width, copy.height) in (*LONG_EDGES, max(width, height))
        assert abs(copy.width * height - copy.height * width) <= max(width, height)


def test_names_are_made_of_content_and_size():
    assert {c.name for c in copies_of("a", 4000, 3000)}.isdisjoint(c.name for c in copies_of("b", 4000, 3000))


@pytest.mark.parametrize("kind", FORMATS)
def test_a_truncated_file_is_said_to_be_unreadable(tmp_path, kind):
    path = saved(tmp_path, kind, Image.frombytes("RGB", (600, 400), random.Random(2).randbytes(720000)))
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])
    with pytest.raises(UnreadablePicture):
        made(path, 600, 400)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(sorted(FORMATS)), st.randoms(use_true_random=False))
def test_a_damaged_file_is_read_or_refused_and_nothing_else(tmp_path_factory, kind, chance):
    path = saved(tmp_path_factory.mktemp("damaged"), kind, picture((64, 48)))
    content = bytearray(path.read_bytes())
    for _ in range(chance.randint(1, 20)):
        content[chance.randrange(len(content))] = chance.randrange(256)
    path.write_bytes(content)
    copies = copies_of("d", 64, 48)
    with contextlib.suppress(UnreadablePicture):  # said so: well; anything else fails this test
        assert set(dict(encode(path, copies))) == {c.name for c in copies}


@pytest.mark.parametrize(
    ("size", "copies"),
    [((1200, 900), [(504, 378), (252, 189)]), ((900, 1200), [(378, 504), (189, 252)]), ((400, 300), [(400, 300), (252, 189)]), ((200, 100), [(200, 100)])],
)  # fmt: skip
def test_a_list_has_small_copies(tmp_path, size, copies):
    every = small_copies_of("digest", *size)
    assert [(copy.width, copy.height) for copy in every] == copies
    assert every[0] == copies_of("digest", *size)[-1]
    files = dict(encode(saved(tmp_path, next(iter(FORMATS)), picture()), every))
    assert set(files) == {copy.name for copy in every}
    assert len({copy.name for copy in (*copies_of("digest", *size), *every)}) == len(
        copies_of("digest", *size)
    ) + (len(every) > 1)
    assert all(max(copy.width, copy.height) >= min(SMALL_EDGE, max(size)) for copy in every)
