"""A stretch of the words of a job, as it is searched and shown."""

from __future__ import annotations

from typing import NamedTuple


class Excerpt(NamedTuple):
    """A stretch of a job's words: the field, where in the job (a day, a part), and the text.

    at      the id of where it stands on the page of its log, empty for what has none of its own.
    called  keys of `lexicon.called`, between blanks: words by which it is asked for and that it does not hold.
    """

    field: str
    where: str
    text: str
    at: str = ""
    called: str = ""
