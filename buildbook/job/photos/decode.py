"""Opens picture files, whose bytes anyone may have written, for the readers and for the maker of copies."""

from __future__ import annotations

import mmap
import os
import re
import threading
import warnings
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from functools import cache
from pathlib import Path
from typing import BinaryIO

from PIL import Image, UnidentifiedImageError

from buildbook import limits
from buildbook.job.plain_file import NotRead, disk_fails, not_read, open_plain
from buildbook.problems import Problem

_HEIF_MARK = b"ftyp"  # bytes 4 to 8 of the boxes that HEIF is made of (ISO/IEC 14496-12)
_FORMATS = ("JPEG", "PNG", "WEBP", "TIFF", "HEIF")
_WHOLE = ("WEBP", "TIFF", "HEIF")  # formats that are opened through a copy as large as the picture
_LAYER = b"\xff\xda"  # begins a layer of a JPEG (start of scan, ISO/IEC 10918-1)
_BLOCK_BYTES = (
    64 * 1024 * 1024
)  # of memory that Pillow takes at once: so large, glibc gives it back when it is freed
_COPIES = 3  # of its size that opening takes in those formats, and turning and blending in all
_MILLION = 1_000_000
LARGE_POINTS = 40 * _MILLION
"""A picture of more points is shrunk in bands before anything else is done to it, so that it is held once."""


class TooMuch(Exception):
    """A picture beyond what is opened; the text says of what it has too much, and how much may be."""


@contextmanager
def opened(path: Path) -> Iterator[Image.Image]:
    """A picture, its header read; `path` is no link. Pillow's own warnings say nothing that a maker can act on.

    Raises `NotRead`, `TooMuch`, and whatever the decoder raises.
    """
    with open_plain(path, limits.PICTURE_BYTES) as file:
        if file.read(8)[4:] == _HEIF_MARK:  # by content: phones also write it under .jpg
            _learn_heif()
        _check_marks(file)
        file.seek(0)
        with _QUIET, Image.open(file, formats=_known_formats()) as image:
            _check_size(image, file)
            yield image


def _check_marks(file: BinaryIO) -> None:
    """Walks the segments of a JPEG up to its picture, as its decoder will, which keeps each."""
    file.seek(0)
    if file.read(2) != b"\xff\xd8":
        return
    for _ in range(limits.PICTURE_MARKS):
        mark = file.read(2)
        if len(mark) < 2 or mark == _LAYER:
            return
        if mark[0] != 0xFF or mark[1] in (0x00, 0xFF):
            file.seek(-1, os.SEEK_CUR)  # a byte that only fills up
        elif not 0xD0 <= mark[1] <= 0xD9:  # these have no length
            file.seek(max(0, int.from_bytes(file.read(2), "big") - 2), os.SEEK_CUR)
    raise TooMuch(f"has more than {limits.PICTURE_MARKS:,} segments before the picture itself")


def _check_size(image: Image.Image, file: BinaryIO) -> None:
    """By what the header says, before anything is decoded."""
    points = image.width * image.height
    layered = _is_layered(image)
    most = limits.WHOLE_POINTS if layered or image.format in _WHOLE else limits.PICTURE_POINTS
    if image.format == "WEBP":
        most = limits.WEBP_POINTS
    if points > most:
        raise TooMuch(f"has {points // _MILLION:,} million points; {most // _MILLION} million can be opened")
    if (edge := max(image.size)) > limits.PICTURE_EDGE:
        raise TooMuch(f"is {edge:,} points long; {limits.PICTURE_EDGE:,} can be opened")
    if layered and (layers := _layers(file)) > limits.PICTURE_LAYERS:
        raise TooMuch(f"comes in {layers:,} layers; {limits.PICTURE_LAYERS} can be opened")


def _layers(file: BinaryIO) -> int:
    """How many layers a JPEG has: within them the mark cannot stand. Memory is not taken for the whole file."""
    with mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ) as content:
        return sum(1 for _ in re.finditer(_LAYER, content))


def _is_layered(image: Image.Image) -> bool:
    return image.format == "JPEG" and bool(image.info.get("progressive"))


def points_held(path: Path, size: tuple[int, int]) -> int:
    """Points, at four bytes each, that opening a picture to be shown at a size holds at once. 0 for what is none."""
    try:
        with opened(path) as image:
            points = image.width * image.height
            layered = _is_layered(image)
            shrinks = image.draft("RGB", size) is not None
            drafted = image.width * image.height if shrinks else points
            copies = 1 if drafted > LARGE_POINTS and image.format not in _WHOLE else _COPIES
            return drafted * copies + (points * 2 if layered else 0)
    except Exception:  # told by whoever opens it to be shown
        return 0


class _Quiet:
    """Keeps warnings still while any thread is in it; `catch_warnings` alone mixes the filters of threads."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._inside = 0
        self._kept: ExitStack | None = None

    def __enter__(self) -> None:
        with self._lock:
            self._inside += 1
            if self._kept is None:
                self._kept = ExitStack()
                self._kept.enter_context(warnings.catch_warnings())
                warnings.simplefilter("ignore")

    def __exit__(self, *fault: object) -> None:
        with self._lock:
            self._inside -= 1
            if self._kept is not None and not self._inside:
                self._kept.close()
                self._kept = None


_QUIET = _Quiet()


def _known_formats() -> tuple[str, ...]:
    _set_up()
    return tuple(name for name in _FORMATS if name in Image.OPEN)


@cache
def _set_up() -> None:
    Image.init()
    Image.core.set_block_size(_BLOCK_BYTES)


@cache
def _learn_heif() -> None:
    from pillow_heif import register_heif_opener

    register_heif_opener()


def what_is_wrong(name: str, fault: BaseException | None) -> Problem:
    """What a decoder's fault means to a maker: the picture is passed over. An error where it is none of the picture."""
    hint = "Copy it off the camera again."
    if isinstance(fault, OSError) and disk_fails(fault):
        fault = not_read(fault)
    if isinstance(fault, NotRead):
        return Problem("error" if fault.fails else "warning", name, fault.message, fault.hint)
    if isinstance(fault, TooMuch):
        return Problem("warning", name, f"This picture {fault}.", "Save a smaller copy of it.")
    if isinstance(fault, Image.DecompressionBombError):
        most = limits.PICTURE_POINTS // _MILLION
        too_large = f"This picture is too large to open: it may have {most} million points."
        return Problem("warning", name, too_large, "Save a smaller copy of it.")
    if isinstance(fault, UnidentifiedImageError):
        return Problem("warning", name, "This is not a picture that can be read.", hint)
    if isinstance(fault, OSError) and "truncated" in str(fault):
        return Problem("warning", name, "Part of this picture is missing.", hint)
    return Problem("warning", name, "This picture is broken.", hint)
