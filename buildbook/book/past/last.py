"""What the last binding made of the pages across jobs, held against what they are made from now."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property
from pathlib import Path

from buildbook.book.past.records import RECORD
from buildbook.book.place import LOGS
from buildbook.book.redo import decide as redo
from buildbook.book.redo.inputs import SHELF, THEMES
from buildbook.book.redo.made import Made
from buildbook.find.scripts import INDEX
from buildbook.render.html.search import SCRIPTS

_LIST_PAGE = "index.html"
_OF_SEARCH = {INDEX, *SCRIPTS}


class Last:
    """The last binding's record (None: there is none to go by) beside what there is now."""

    def __init__(self, before: Made | None, now: Made, book: Path) -> None:
        self.now = now
        self._before = before
        self._book = book

    @property
    def is_all_as_it_was(self) -> bool:
        """Whether nothing need be made."""
        return (
            self._before is not None
            and not redo.what_changed(self._before, self.now.inputs)
            and not self._amiss
        )

    @property
    def was_read(self) -> bool:
        """Whether a file had to be read to know."""
        return self._looked[1]

    @property
    def whole_records(self) -> frozenset[str]:
        """The jobs whose record was found to be ours, and has not changed since."""
        before = self._before
        if before is None or before.program != self.now.program:
            return frozenset()
        start, end = f"{LOGS}/", f"/{RECORD}"
        was = {one.name: one.content for one in before.inputs}
        same = (one.name for one in self.now.inputs if one.content and was.get(one.name) == one.content)
        keys = (
            name[len(start) : -len(end)] for name in same if name.startswith(start) and name.endswith(end)
        )
        return frozenset(keys) - frozenset(before.without)

    @property
    def of_themes(self) -> list[tuple[str, str]]:
        """The files of the themes, by name and content."""
        ours = (one for one in self.now.inputs if one.name.startswith((THEMES, SHELF)))
        return [(one.name, one.content) for one in ours]

    def files_of(self, group: str, key: str) -> dict[str, str]:
        """Name and SHA-256 of the files of a group that need not be made again; none where they must be."""
        before = self._before
        if before is None or before.program != self.now.program or before.problems:
            return {}
        names = {one.name: one.content for one in before.outputs if _group_of(one.name) == group}
        as_was = before.groups.get(group) == key and not any(name in self._amiss for name in names)
        return names if as_was else {}

    @property
    def _amiss(self) -> dict[str, str]:
        return self._looked[0]

    @cached_property
    def _looked(self) -> tuple[dict[str, str], bool]:
        return redo.what_is_amiss(self._before, self._book) if self._before else ({}, False)


def _group_of(name: str) -> str:
    if name == _LIST_PAGE:
        return "list"
    if name in _OF_SEARCH:
        return "search"
    return "across" if name.endswith(".html") else ""


@contextmanager
def without_collecting() -> Iterator[None]:
    """No search for cycles among objects: thousands of records are made, none with a cycle, and looking for one costs
    as much as reading them.
    """
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()
