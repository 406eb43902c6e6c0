"""What keeps a page from being written, in a maker's words."""

from __future__ import annotations

from pathlib import Path

from buildbook.book.disk import write
from buildbook.problems import Problem
from buildbook.render.html.theme import ThemeError


def problem_of(fault: Exception, book: Path) -> Problem:
    """What keeps a page from being written, in words. Raises a fault that is none of the maker's."""
    match fault:
        case ThemeError():
            hint = "Put the theme right, or name another."
            return Problem("error", "shop.toml", f"{fault}.", hint, field="theme")
        case write.NotOurs():
            hint = "Move it, or bind into another folder."
            return Problem(
                "error", str(fault.path), "stands in the way and is not a file of this book.", hint
            )
        case OSError():
            said = f"cannot be written: {fault.strerror or fault}."
            return Problem("error", str(fault.filename or book), said, "Look at the disk and its rights.")
    raise fault
