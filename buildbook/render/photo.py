"""Sized copies of a photo: upright, in sRGB, with no metadata of any kind.

The name of a copy is made of the content of the photo and of this recipe, so that a copy that exists need not be made
again. Decoding happens once a photo; the sizes are shrunk one from the other.
"""

from __future__ import annotations

import hashlib
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageCms, ImageOps

from buildbook.job.photos.decode import LARGE_POINTS, opened

RECIPE = "1"  # part of each name: change it when the bytes of a copy would change
LONG_EDGES = (2016, 1008, 504)  # halves of one another, so that a JPEG decoder can shrink for us
SMALL_EDGE = 252  # for lists of many jobs, where what is decoded decides how much memory a page takes
_QUALITY = 80
_BAND_LINES = 32  # of a band, once it is shrunk
_ORIENTATION = 0x0112  # EXIF: how the camera was held
_PAPER = (255, 255, 255)  # what shows through where a picture is transparent


COPY_NAME = re.compile(r"[0-9a-f]{16}-[1-9][0-9]{0,3}\.jpg")
"""What `copies_of` calls its copies: the content's fingerprint and the long edge in pixels."""


@dataclass(frozen=True)
class Copy:
    """One sized copy: its file name and its size in pixels."""

    name: str
    width: int
    height: int


class UnreadablePicture(Exception):
    """The photo cannot be decoded; its cause is what the decoder raised."""


def copies_of(digest: str, width: int, height: int) -> tuple[Copy, ...]:
    """The copies that a photo of this content and upright size has, largest first; never larger than the photo."""
    stem = hashlib.sha256(f"{digest}/{RECIPE}".encode()).hexdigest()[:16]
    long_edge = max(width, height)
    edges = [min(LONG_EDGES[0], long_edge), *(e for e in LONG_EDGES[1:] if e < long_edge)]
    copies = []
    for edge in dict.fromkeys(edges):
        scale = edge / long_edge
        copies.append(Copy(f"{stem}-{edge}.jpg", max(1, round(width * scale)), max(1, round(height * scale))))
    return tuple(copies)


def small_copies_of(digest: str, width: int, height: int) -> tuple[Copy, ...]:
    """The copies for a list, largest first: the smallest of `copies_of` and one of `SMALL_EDGE`. For logs only."""
    smallest = copies_of(digest, width, height)[-1]
    long_edge = max(smallest.width, smallest.height)
    if long_edge <= SMALL_EDGE:
        return (smallest,)
    scale = SMALL_EDGE / long_edge
    name = smallest.name.replace(f"-{long_edge}.", f"-{SMALL_EDGE}.")
    small = Copy(name, max(1, round(smallest.width * scale)), max(1, round(smallest.height * scale)))
    return smallest, small


def encode(path: Path, copies: tuple[Copy, ...]) -> Iterator[tuple[str, bytes]]:
    """Name and JPEG bytes of each copy. Raises `UnreadablePicture` for whatever the decoder chokes on."""
    try:
        picture = _upright_srgb(path, (copies[0].width, copies[0].height))
        for copy in copies:
            if picture.size != (copy.width, copy.height):
                size = (copy.width, copy.height)
                picture = picture.resize(size, Image.Resampling.LANCZOS, reducing_gap=2.0)
            yield copy.name, _jpeg(picture)
    except Exception as fault:  # whatever a decoder makes of bytes that anyone may have written
        raise UnreadablePicture(str(fault) or type(fault).__name__) from fault


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
