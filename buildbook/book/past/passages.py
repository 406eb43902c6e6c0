"""The words of a job, as its binding left them beside its log."""

from __future__ import annotations

from pathlib import Path

from buildbook.find import scripts
from buildbook.find.excerpt import Excerpt
from buildbook.job.plain_file import NotRead, read_plain
from buildbook.limits import LEFT_BYTES


def read_passages(folder: Path) -> tuple[Excerpt, ...] | None:
    """The words of the job whose log is in a folder; None where they cannot be read."""
    try:
        data = read_plain(folder / scripts.WORDS, LEFT_BYTES)
    except NotRead:
        return None
    return scripts.read_words(data)
