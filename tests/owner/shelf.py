"""The six jobs on one shelf, bound as their makers would, in a language and a theme."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

from buildbook.book.bind import bind
from tests.conftest import ROOT
from tests.owner.questions import pieces


def lay_shelf(shelf: Path, language: str, theme: str) -> None:
    """Copy each job, with the shop.toml that it goes by, into a folder called by the key of its piece."""
    for piece in pieces():
        folder = Path(shutil.copytree(ROOT / piece.folder, shelf / piece.key))
        own = folder / "shop.toml"
        text = (own if own.exists() else (ROOT / piece.folder).parent / "shop.toml").read_text(
            encoding="utf-8"
        )
        text = re.sub(r"(?m)^(?:language|theme)\s*=.*\n", "", text)
        own.write_text(f'theme = "{theme}"\nlanguage = "{language}"\n{text}', encoding="utf-8")


def bind_shelf(place: Path, language: str, theme: str) -> Path:
    """The book of the six; it must bind without an error. Their handovers lie in `handover/<key>`."""
    shelf, book = place / "shelf", place / "book"
    lay_shelf(shelf, language, theme)
    bound = bind(shelf, book)
    if not bound.ok:
        raise RuntimeError("\n".join(str(p) for job in bound.jobs for p in job.problems))
    return book
