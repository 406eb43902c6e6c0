"""The pages across the jobs of a book, from the records that bound jobs left."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from buildbook.book.past.records import BookRecords, LeftRecord
from buildbook.book.past.without import without_failing
from buildbook.job.shop_model import Shop
from buildbook.pages.past.across import across_pages, newest_first
from buildbook.pages.past.years import years_page
from buildbook.problems import Problems
from buildbook.render.html.theme import Theme


def across_files(
    found: BookRecords, shop: Shop, theme: Theme, stale: Mapping[str, str], problems: Problems
) -> dict[str, bytes]:
    """The pages across the jobs, by name, without those of jobs at which they fail, which are told. `stale`: why the
    record of a job is of an older binding. Raises `ThemeError`.
    """

    def pages(records: Sequence[LeftRecord]) -> dict[str, bytes]:
        return _pages(records, shop, theme, stale, len(found.without))

    return without_failing(pages, found.records, lambda record: record.key, problems)


def _pages(
    records: Sequence[LeftRecord], shop: Shop, theme: Theme, stale: Mapping[str, str], missing: int
) -> dict[str, bytes]:
    shelf = newest_first((record.used for record in records), stale, missing)
    pages = {f"{kind}.html": theme.across_page(page) for kind, page in across_pages(shelf, shop).items()}
    pages["years.html"] = theme.years_page(years_page(shelf, shop))
    return {name: page.encode() for name, page in pages.items()}
