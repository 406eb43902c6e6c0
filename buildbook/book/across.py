"""Pages across the jobs of a book: each bound job leaves used.json beside its log, the pages are made from those."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from buildbook.book.left import all_left
from buildbook.job.model import Job
from buildbook.job.shop_model import Shop
from buildbook.left.used import Used
from buildbook.left.used_of import used_of
from buildbook.pages.past.across import across_pages, newest_first
from buildbook.pages.past.years import years_page
from buildbook.render.html.theme import Theme
from buildbook.summary.as_json import as_text
from buildbook.summary.model import Summary

RECORD = "used.json"


def used_file(job: Job, summary: Summary) -> dict[str, bytes]:
    """What a job leaves beside its log, by name."""
    return {RECORD: as_text(used_of(job, summary).as_json()).encode()}


def across_files(
    book: Path, shop: Shop, theme: Theme, stale: Mapping[str, str], jobs: int
) -> dict[str, bytes]:
    """The pages across the jobs, by name. `stale`: why the record of a job is of an older binding; `jobs`: how many
    have been bound into the book, maybe before there were such records. Raises `ThemeError`.
    """
    records = all_left(book, RECORD, Used.from_json)
    shelf = newest_first(records, stale, max(0, jobs - len(records)))
    pages = {f"{kind}.html": theme.across_page(page) for kind, page in across_pages(shelf, shop).items()}
    pages["years.html"] = theme.years_page(years_page(shelf, shop))
    return {name: page.encode() for name, page in pages.items()}
