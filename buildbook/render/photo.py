"""Sized copies of a photo: upright, in sRGB, with no metadata of any kind.

Decoding happens once a photo; the sizes are shrunk one from the other.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from pathlib import Path

from PIL import Image, ImageCms, ImageOps

from buildbook.job.photos.decode import LARGE_POINTS, opened
from buildbook.render.copies import Copy

_QUALITY = 80
_BAND_LINES = 32  # of a band, once it is shrunk
_ORIENTATION = 0x0112  # EXIF: how the camera was held
_TURNS = {
    90: Image.Transpose.ROTATE_270,
    180: Image.Transpose.ROTATE_180,
    270: Image.Transpose.ROTATE_90,
}  # degrees clockwise; Pillow counts the other way
_ON_ITS_SIDE = (90, 270)
_PAPER = (255, 255, 255)  # what shows through where a picture is transparent


class UnreadablePicture(Exception):
    """The photo cannot be decoded; its cause is what the decoder raised."""


def encode(path: Path, copies: tuple[Copy, ...], turn: int = 0) -> Iterator[tuple[str, bytes]]:
    """Name and JPEG bytes of each copy, upright, and then turned by so many degrees clockwise.

    Raises `UnreadablePicture` for whatever the decoder chokes on.
    """
    try:
        size = (copies[0].width, copies[0].height)
        picture = _upright_srgb(path, size[::-1] if turn in _ON_ITS_SIDE else size)
        if turn:
            picture = picture.transpose(_TURNS[turn])
        yield from _sized(picture, copies)
    except Exception as fault:  # whatever a decoder makes of bytes that anyone may have written
        raise UnreadablePicture(str(fault) or type(fault).__name__) from fault


def encode_still(
    open_picture: Callable[[], Image.Image], copies: tuple[Copy, ...]
) -> Iterator[tuple[str, bytes]]:
    """The same of a picture that is upright and in sRGB, however it is opened."""
    try:
        yield from _sized(open_picture(), copies)
    except Exception as fault:  # as above
        raise UnreadablePicture(str(fault) or type(fault).__name__) from fault


def _sized(picture: Image.Image, copies: tuple[Copy, ...]) -> Iterator[tuple[str, bytes]]:
    for copy in copies:
        if picture.size != (copy.width, copy.height):
            size = (copy.width, copy.height)
            picture = picture.resize(size, Image.Resampling.LANCZOS, reducing_gap=2.0)
        yield copy.name, _jpeg(picture)


def _upright_srgb(path: Path, wanted: tuple[int, int]) -> Image.Image:
    with opened(path) as source:
        sideways = source.getexif().get(_ORIENTATION, 1) in (5, 6, 7, 8)
        size = wanted[::-1] if sideways else wanted
        source.draft("RGB", size)  # lets a JPEG decoder shrink while it reads; other formats ignore it
        source.load()
        picture = ImageOps.exif_transpose(_shrunk(source, size))
        profile = source.info.get("icc_profile")
    picture = _blended(picture)
    if profile and picture.mode in ("RGB", "CMYK", "L"):
        picture = _to_srgb(picture, profile)
    return picture.convert("RGB")


def _shrunk(source: Image.Image, size: tuple[int, int]) -> Image.Image:
    """A very large picture at one and a half of a size or more, made in bands: the whole is held once, never copied."""
    factor = min(source.width // size[0], source.height // size[1]) * 2 // 3
    if source.width * source.height <= LARGE_POINTS or factor < 2:
        return source
    band = factor * _BAND_LINES
    shrunk: Image.Image | None = None
    for top in range(0, source.height, band):
        part = source.crop((0, top, source.width, min(source.height, top + band)))
        part = _blended(part)
        part = (part if part.mode in ("L", "RGB", "CMYK") else part.convert("RGB")).reduce(factor)
        if shrunk is None:
            shrunk = Image.new(part.mode, (part.width, -(-source.height // factor)))
        shrunk.paste(part, (0, top // factor))
    assert shrunk is not None
    shrunk.getexif()[_ORIENTATION] = source.getexif().get(_ORIENTATION, 1)
    return shrunk


def _blended(picture: Image.Image) -> Image.Image:
    """A picture without transparency, in 8 bits."""
    if picture.mode in ("RGBA", "LA", "PA") or "transparency" in picture.info:
        paper = Image.new("RGB", picture.size, _PAPER)
        transparent = picture.convert("RGBA")
        paper.paste(transparent, mask=transparent.getchannel("A"))
        return paper
    if picture.mode.startswith("I;16") or picture.mode in ("I", "F"):
        picture = (
            picture.point(lambda value: value / 256).convert("L")
            if picture.mode != "F"
            else picture.convert("L")
        )
    return picture


def _to_srgb(picture: Image.Image, profile: bytes) -> Image.Image:
    """A photo in another colour space looks dull when its profile is dropped: convert first."""
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        target = ImageCms.createProfile("sRGB")
        converted = ImageCms.profileToProfile(picture, source, target, outputMode="RGB")
    except (ImageCms.PyCMSError, OSError, ValueError):
        return picture  # an unreadable profile: the colours as they stand are the best there is
    return converted if converted is not None else picture


def _jpeg(picture: Image.Image) -> bytes:
    """Only the pixels: a fresh image, so that no comment or tag of the source is carried along."""
    bare = Image.new("RGB", picture.size)
    bare.paste(picture)
    out = io.BytesIO()
    bare.save(out, "JPEG", quality=_QUALITY, progressive=True, optimize=True)
    return out.getvalue()
