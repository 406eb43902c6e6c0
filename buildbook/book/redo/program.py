"""This program and the libraries that pages are made with, as one digest: what another one made is made again."""

from __future__ import annotations

import hashlib
import os
import sys
from functools import cache
from importlib import metadata
from pathlib import Path

import buildbook
from buildbook.render.copies import RECIPE
from buildbook.render.html.theme import theme_names

IMAGING = ("av", "pillow", "pillow-heif")
"""What decodes and encodes photos, and pictures of videos where it is there."""

LIBRARIES = (
    *IMAGING, "defusedxml", "icalendar", "jinja2", "markdown-it-py", "markupsafe", "mdurl", "msgspec", "openpyxl",
    "pint", "python-dateutil", "segno", "typst", "tzdata", "xlsxwriter",
)  # fmt: skip
"""What the bytes of a page may hang on; the others show, watch or lock."""

_NOT_OURS = ("__pycache__", "themes")  # what Python keeps; themes are noted file by file


@cache
def program() -> str:
    """SHA-256 of the files of this program, the versions of its libraries and of Python. The same all the while it
    runs.
    """
    top = Path(buildbook.__file__).parent
    running = hashlib.sha256(f"{sys.version}\n{_versions(LIBRARIES)}\n{theme_names()}\n".encode())
    for here, folders, files in os.walk(top):
        folders[:] = sorted(name for name in folders if name not in _NOT_OURS)
        for name in sorted(files):
            content = Path(here, name).read_bytes()
            running.update(f"{os.path.relpath(here, top)}/{name}\n{len(content)}\n".encode())
            running.update(content)
    return running.hexdigest()


@cache
def imaging() -> str:
    """What the copies of photos are made with."""
    return f"{RECIPE}\n{_versions(IMAGING)}"


def _versions(names: tuple[str, ...]) -> str:
    return "\n".join(f"{name} {_version(name)}" for name in names)


def _version(name: str) -> str:
    try:
        return metadata.version(name)
    except metadata.PackageNotFoundError:
        return "none"
