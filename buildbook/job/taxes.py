"""What the tax on a price is called: as the shop says, else as its country calls it in its language."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache
from importlib import resources

from buildbook.job.shop_model import Shop


def tax_name(shop: Shop) -> str:
    """The name, for the middle of a sentence; empty where neither the shop nor the table has one."""
    language = shop.language.split("-")[0]
    return shop.quoting.tax_name.strip() or _names().get((shop.country_code, language), "")


@cache
def _names() -> Mapping[tuple[str, str], str]:
    text = resources.files(__package__).joinpath("data", "tax_names.csv").read_text("utf-8")
    rows = csv.DictReader(line for line in text.split("\n") if line and not line.startswith("# "))
    return {(row["country"], row["language"]): row["name"] for row in rows}
