"""drawings/ -> `DrawingFile`s: the maker's own drawings, for the log alone.

Pictures are read as photos are. An SVG is taken only where it draws and does nothing else: no script, no handler, no
address outside itself, no entity; any other is named and not shown. A PDF is known by its first bytes. Whatever else
lies there is named.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from buildbook import limits
from buildbook.job.photo_model import DrawingFile, DrawingKind
from buildbook.job.photos.headers import SUFFIXES, KnownPhoto, files_below, read_photo, tell
from buildbook.job.plain_file import NotRead, inside, read_plain
from buildbook.problems import Problems

FOLDER = "drawings"
_PDF = b"%PDF-"
_SVG = "{http://www.w3.org/2000/svg}"
_DOES = frozenset(
    ("script", "foreignObject", "iframe", "audio", "video", "animate", "animateMotion", "animateTransform", "set",
     "handler", "listener", "image", "a")
)  # fmt: skip
"""Elements of an SVG that run, load or change something, or lead away."""
_LEADS_OUT = re.compile(
    r"(?:url\(\s*['\"]?(?!\s*['\"]?#)|@import|javascript:|data:|expression\()", re.IGNORECASE
)
_OF_THE_CAMERA = frozenset(
    ("img", "dsc", "dscn", "dscf", "pxl", "scan", "image", "photo", "picture", "drawing", "page", "screenshot",
     "whatsapp", "untitled", "bild", "foto", "zeichnung", "seite", "unbenannt", "bildschirmfoto", "copy", "kopie")
)  # fmt: skip
_SHORTEST_WORD = 3  # letters of a word that says something


def read_drawings(
    folder: Path, problems: Problems, known: Mapping[str, KnownPhoto] = MappingProxyType({})
) -> tuple[DrawingFile, ...]:
    """The drawings of a job folder, by name. `known`: by name, photos that need not be read for their digest."""
    found: list[DrawingFile] = []
    for name, path in files_below(folder, FOLDER, problems):
        if len(found) == limits.DRAWINGS:
            message = f"There are more than {limits.DRAWINGS:,} drawings; those after {found[-1].name} are left out."
            problems.warn(FOLDER, message, "Keep those by which the piece was made.")
            break
        caption = caption_of(name)
        suffix = path.suffix.lower()
        if suffix in SUFFIXES:
            if photo := read_photo(name, path, folder, problems, known.get(name)):
                found.append(DrawingFile(name, photo.path, "picture", caption, photo, photo.content))
        elif suffix in (".svg", ".pdf"):
            found.append(_file(name, path, folder, caption, problems))
        else:
            found.append(DrawingFile(name, path, "other", caption))
    return tuple(found)


def _file(name: str, path: Path, folder: Path, caption: str, problems: Problems) -> DrawingFile:
    """An SVG or a PDF; what is not safe to show, or none, is only named."""
    try:
        path = inside(path, folder)
        data = read_plain(path, limits.DRAWING_BYTES)
    except NotRead as why:
        tell(name, why, problems)
        return DrawingFile(name, path, "other", caption)
    kind: DrawingKind = "pdf" if data.startswith(_PDF) else "svg"
    if path.suffix.lower() == ".svg" and not only_draws(data):
        message = "This SVG does more than draw, or cannot be read; the log names it and does not show it."
        problems.warn(name, message, "Save it as plain SVG, without scripts, links and pictures, or as PNG.")
        kind = "other"
    elif path.suffix.lower() == ".pdf" and kind != "pdf":
        problems.warn(name, "This is no PDF; the log names it and does not link it.", "Save it again as PDF.")
        kind = "other"
    return DrawingFile(name, path, kind, caption, content=hashlib.sha256(data).hexdigest())


def only_draws(data: bytes) -> bool:
    """Whether an SVG is one, and neither runs nor loads anything: it may then be shown as a picture."""
    from defusedxml import DefusedXmlException  # takes long to load, and is seldom needed
    from defusedxml.ElementTree import ParseError, fromstring

    if b"<?xml-stylesheet" in data:
        return False
    try:
        root = fromstring(data, forbid_dtd=True)
    except (DefusedXmlException, ParseError, ValueError, LookupError, RecursionError):
        return False
    return root.tag == f"{_SVG}svg" and all(_is_harmless(element) for element in root.iter())


def _is_harmless(element: object) -> bool:
    tag = str(getattr(element, "tag", ""))
    if tag.startswith("{") and not tag.startswith(_SVG):
        return not re.search(r"xhtml", tag)  # what an editor notes of itself
    if tag.removeprefix(_SVG) in _DOES or _LEADS_OUT.search(getattr(element, "text", None) or ""):
        return False
    attributes: Mapping[str, str] = getattr(element, "attrib", {})
    for key, value in attributes.items():
        name = key.rpartition("}")[2].casefold()
        if name.startswith("on") or (name in ("href", "src") and not value.strip().startswith("#")):
            return False
        if _LEADS_OUT.search(value):
            return False
    return True


def caption_of(name: str) -> str:
    """What the name of a file says: `front-elevation_2.png` is a front elevation 2; nothing of `IMG_1234.jpg`,
    and nothing where it would only say the name again.
    """
    words = re.sub(r"[-_.]+", " ", Path(name).stem).split()
    telling = [
        word
        for word in words
        if len(word) >= _SHORTEST_WORD and word.isalpha() and word.casefold() not in _OF_THE_CAMERA
    ]
    said = " ".join(words)
    return said if telling and said != Path(name).stem else ""
