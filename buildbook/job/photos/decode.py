"""Opens picture files, whose bytes anyone may have written, for the readers and for the maker of copies."""

from __future__ import annotations

import threading
import warnings
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from functools import cache
from pathlib import Path

from PIL import Image, UnidentifiedImageError

from buildbook import limits
from buildbook.job.plain_file import NotRead, open_plain
from buildbook.problems import Problem

_HEIF_MARK = b"ftyp"  # bytes 4 to 8 of the boxes that HEIF is made of (ISO/IEC 14496-12)
_FORMATS = ("JPEG", "PNG", "WEBP", "TIFF", "HEIF")


@contextmanager
def opened(path: Path) -> Iterator[Image.Image]:
    """A picture, its header read; `path` is no link. Pillow's own warnings say nothing that a maker can act on.

    Raises `NotRead`, and whatever the decoder raises.
    """
    with open_plain(path, limits.PICTURE_BYTES) as file:
        if file.read(8)[4:] == _HEIF_MARK:  # by content: phones also write it under .jpg
            _learn_heif()
        file.seek(0)
        with _QUIET, Image.open(file, formats=_known_formats()) as image:
            yield image


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
    Image.init()
    return tuple(name for name in _FORMATS if name in Image.OPEN)


@cache
def _learn_heif() -> None:
    from pillow_heif import register_heif_opener

    register_heif_opener()


def what_is_wrong(name: str, fault: BaseException | None) -> Problem:
    """What a decoder's fault means to a maker: the picture is passed over."""
    hint = "Copy it off the camera again."
    if isinstance(fault, NotRead):
        return Problem("warning", name, fault.message, fault.hint)
    if isinstance(fault, Image.DecompressionBombError):
        return Problem("warning", name, "This picture is too large to open.", "Save a smaller copy of it.")
    if isinstance(fault, UnidentifiedImageError):
        return Problem("warning", name, "This is not a picture that can be read.", hint)
    if isinstance(fault, OSError) and "truncated" in str(fault):
        return Problem("warning", name, "Part of this picture is missing.", hint)
    return Problem("warning", name, "This picture is broken.", hint)
