"""What past work is found by, at the top of a book: the index, made from what bound jobs left, and the scripts that ask
it.
"""

from __future__ import annotations

from collections.abc import Sequence

from buildbook.book.past.records import LeftRecord
from buildbook.book.past.without import without_failing
from buildbook.find.index import build
from buildbook.find.scripts import INDEX
from buildbook.job.shop_model import Shop
from buildbook.problems import Problems
from buildbook.render.html.search import SCRIPTS, index_script, script
from buildbook.words import Words


def book_files(records: Sequence[LeftRecord], shop: Shop, problems: Problems) -> dict[str, bytes]:
    """The files by name. A job that cannot be searched is told."""

    def of(some: Sequence[LeftRecord]) -> str:
        index = build((record.find for record in some), shop.units)
        return index_script(index, Words(shop.language), shop.units)

    index = without_failing(of, records, lambda record: record.key, problems)
    return {
        INDEX: index.encode(),
        **{name: script(name).encode() for name in SCRIPTS},
    }
