"""Where a shop's own theme may lie.

Beside the shop.toml of the shelf. A job folder may come from elsewhere, and a theme decides what the maker's private
pages load: one in a job folder is used only where the shelf's own shop.toml says so.
"""

from __future__ import annotations

import os
from pathlib import Path

from buildbook.job import has_shop, read_shop
from buildbook.job.shop_model import Shop
from buildbook.render.html.theme import Theme, ThemeError, is_plain, load_theme, theme_names


def theme_of(shop: Shop, job: Path | None, *shelves: Path) -> Theme:
    """The theme that a shop names. `shelves` may hold its shop.toml; without any it is the folder around the job.

    Raises `ThemeError`.
    """
    name = shop.theme
    if name in theme_names() or not is_plain(name):
        return load_theme(name)
    around = shelves or ((Path(os.path.abspath(job)).parent,) if job else ())
    places = [shelf for shelf in around if has_shop(shelf)]
    if job and (job / name / "theme.toml").is_file():
        if not any(read_shop(shelf)[0].themes_in_jobs for shelf in places):
            raise ThemeError(
                f"theme {name}: it lies in the job folder; from there one is used only where the shop.toml "
                "of the shelf says themes_in_jobs = true"
            )
        if not (job / name).resolve().is_relative_to(job.resolve()):
            raise ThemeError(f"theme {name}: a link that leads out of the job folder")
        places.append(job)
    return load_theme(name, beside=places)
