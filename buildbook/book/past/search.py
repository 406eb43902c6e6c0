"""Finding past work from the terminal: asks a book by its own index, or a shelf by reading its jobs. Both answer in the
same order.
"""

from __future__ import annotations

from pathlib import Path

from buildbook import limits
from buildbook.book.past.found import Ask, FoundJob, NothingToAsk, found_by
from buildbook.book.past.passages import read_passages
from buildbook.find import scripts
from buildbook.find.index import Index
from buildbook.find.packing import unpack
from buildbook.job.plain_file import NotRead, read_plain
from buildbook.problems import Problems


def find_in(
    folder: Path, text: str, most: int | None = None, problems: Problems | None = None
) -> tuple[int, list[FoundJob]]:
    """How many jobs of a book, a shelf or a job folder answer a question, and the first `most`, in order. A job that
    cannot be searched is added to `problems`, and the others answer.

    Raises `NothingToAsk`.
    """
    return open_past_work(folder, Problems() if problems is None else problems)(text, most)


def open_past_work(folder: Path, problems: Problems) -> Ask:
    """A book, a shelf or a job folder read once, to be asked as often as you like. Raises `NothingToAsk`."""
    if (folder / scripts.INDEX).is_file():
        index = _index_of(folder / scripts.INDEX)
        return lambda text, most: found_by(
            index, text, most, lambda key: read_passages(folder / "jobs" / key) or ()
        )
    from buildbook.book.past.shelf_search import open_shelf  # reads jobs, for which much is loaded

    return open_shelf(folder, problems)


def _index_of(path: Path) -> Index:
    try:
        return unpack(scripts.read_index(read_plain(path, limits.INDEX_BYTES).decode("utf-8")))
    except (NotRead, ValueError, KeyError, TypeError, IndexError, AttributeError, RecursionError) as error:
        raise NothingToAsk(f"{path} cannot be read. Bind the book again.") from error
