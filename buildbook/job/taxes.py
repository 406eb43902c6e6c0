"""What the tax on a price is called where the shop does not say: as its country calls it in its language."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache
from importlib import resources

from buildbook.job.shop_model import Shop


def usual_tax_name(shop: Shop) -> str:
    """The name, for the middle of a sentence; empty where the table has none."""
    return _names().get((shop.country_code, shop.language.split("-")[0]), "")


@cache
def _names() -> Mapping[tuple[str, str], str]:
    text = resources.files(__package__).joinpath("data", "tax_names.csv").read_text("utf-8")
    rows = csv.DictReader(line for line in text.split("\n") if line and not line.startswith("# "))
    return {(row["country"], row["language"]): row["name"] for row in rows}
