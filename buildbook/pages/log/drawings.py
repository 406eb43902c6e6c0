"""The maker's own drawings as the log shows them: pictures, SVGs as pictures, PDFs linked, others named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from buildbook.job.photo_model import DrawingFile
from buildbook.pages.phrases import Phrases
from buildbook.pages.shared import Picture

_LETTERS = 16  # of a digest in a name


@dataclass(frozen=True)
class LogDrawing:
    """A drawing with the name of its file, and what that says of it. `picture` of one that is a photo; `file`, in the
    folder of the log, of an SVG or a PDF; neither of what is only named.
    """

    name: str
    caption: str
    picture: Picture | None = None
    file: str = ""
    is_image: bool = False


def file_of(drawing: DrawingFile) -> str:
    """Where an SVG or a PDF lies in the folder of the log: by its content: no name that a maker gave leads anywhere."""
    return f"drawings/{drawing.content[:_LETTERS]}.{drawing.kind}"


def log_drawings(drawings: Sequence[DrawingFile], phrases: Phrases) -> tuple[LogDrawing, ...]:
    """What is seen first, then what is linked, then what is named."""
    order = {"picture": 0, "svg": 0, "pdf": 1, "other": 2}
    return tuple(
        _drawing(one, phrases) for one in sorted(drawings, key=lambda one: (order[one.kind], one.name))
    )


def _drawing(one: DrawingFile, phrases: Phrases) -> LogDrawing:
    name = one.name.partition("/")[2]
    if one.photo:
        beside = f"{one.caption} · {name}" if one.caption else name
        alt = phrases("log.drawing", name=name)
        picture = Picture(one.photo.digest, one.photo.width, one.photo.height, alt, beside)
        return LogDrawing(name, one.caption, picture)
    if one.kind == "other":
        return LogDrawing(name, one.caption)
    return LogDrawing(name, one.caption, None, file_of(one), one.kind == "svg")
