"""What keeps a page from being written, in a maker's words."""

from __future__ import annotations

import errno
import os
from pathlib import Path

from buildbook.book.disk import write
from buildbook.job.text import as_text
from buildbook.problems import Problem
from buildbook.render.html.theme import ThemeError

_TO_DO = {
    errno.ENOSPC: "The disk is full: make room on it.",
    errno.EDQUOT: "Your share of the disk is full: make room on it.",
    errno.EFBIG: "The disk takes no file of this size: name another place with --to.",
    errno.EROFS: "The disk may only be read: name another place with --to.",
    errno.EACCES: "See who may write into that folder, and whether another program has the file open.",
    errno.EPERM: "See who may write into that folder, and whether another program has the file open.",
    errno.EIO: "The disk fails: copy what is dear to you to another one, then try again.",
    errno.ENAMETOOLONG: "Name a place with a shorter path with --to.",
    errno.ENOTDIR: "A file stands where a folder of the book belongs: move it.",
    errno.EEXIST: "A file stands where a folder of the book belongs: move it.",
    errno.EMFILE: "Close other programs, and try again.",
    errno.ENFILE: "Close other programs, and try again.",
    errno.ENOENT: "Something was moved or deleted while it was bound: bind again.",
}
_OF_WRITING = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EROFS)
_LOOK = "Look at the disk and its rights, and bind again."
_NOT_READ = "Look at the disk and its rights, and try again."


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
            return _of_the_system(fault, book)
    raise fault


def _of_the_system(fault: OSError, book: Path) -> Problem:
    """Below the book something was to be written; elsewhere, in a job or a theme, it was to be read."""
    said, number = fault.strerror or str(fault), fault.errno or 0
    place = Path(os.fsdecode(fault.filename)) if isinstance(fault.filename, str | bytes) else book
    in_book = place == book or book in place.parents
    shown = as_text(str(write.meant_for(place) if in_book else place))
    if not in_book and number not in _OF_WRITING:
        return Problem("error", shown, f"cannot be read: {said}.", _NOT_READ)
    return Problem("error", shown, f"cannot be written: {said}.", _TO_DO.get(number, _LOOK))
