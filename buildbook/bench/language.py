"""In which language the bench speaks: that of the shop, as far as it can be read."""

from __future__ import annotations

from pathlib import Path

from buildbook.job import read_shop, shop_around


def shop_language(folder: Path) -> str:
    """The language of the shop of a shelf, or of the shelf that a job lies in; English where none can be read."""
    try:
        shop, _ = read_shop(folder)
        return (shop if shop.name else shop_around(folder.absolute())[0]).language
    except OSError:
        return "en"
