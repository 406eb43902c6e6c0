"""The pages across the jobs of a book, from the records that bound jobs left."""

from __future__ import annotations

from collections.abc import Mapping

from buildbook.book.records import BookRecords
from buildbook.job.shop_model import Shop
from buildbook.pages.past.across import across_pages, newest_first
from buildbook.pages.past.years import years_page
from buildbook.render.html.theme import Theme


def across_files(found: BookRecords, shop: Shop, theme: Theme, stale: Mapping[str, str]) -> dict[str, bytes]:
    """The pages across the jobs, by name. `stale`: why the record of a job is of an older binding. Raises
    `ThemeError`.
    """
    shelf = newest_first((record.used for record in found.records), stale, len(found.without))
    pages = {f"{kind}.html": theme.across_page(page) for kind, page in across_pages(shelf, shop).items()}
    pages["years.html"] = theme.years_page(years_page(shelf, shop))
    return {name: page.encode() for name, page in pages.items()}
