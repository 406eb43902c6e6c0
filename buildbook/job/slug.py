"""The name by which a piece leaves the shop: in its page's address, its archive's name, the folder inside that.

Made of the number and the title, which leave anyway; never of the job folder's name, in which a maker may have written
who it is for.
"""

from __future__ import annotations

import os
import re
import tomllib
import unicodedata
from collections.abc import Mapping, Sequence
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from buildbook import limits
from buildbook.job.folder import find_jobs, has_shop, shop_around
from buildbook.job.model import Job
from buildbook.job.places import job_name
from buildbook.job.plain_file import NotRead, read_plain
from buildbook.job.shop_model import Shop
from buildbook.job.text import shown
from buildbook.job.toml.job_toml import FILE
from buildbook.job.toml.lines import load_of
from buildbook.problems import Problem, Severity

LONGEST = 60
"""Characters of a slug: fits a printed code, a mail and every file system beside what is put around it."""

UNNAMED = "piece"
"""For a job with neither number nor title in letters or digits of ours."""

_SPELT_OUT = str.maketrans(
    {
        **{"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss", "æ": "ae", "ø": "oe", "œ": "oe", "å": "aa", "ł": "l"},
        **{"đ": "d", "þ": "th", "ð": "d"},
    }
)
"""Letters that decomposition does not take apart, or takes apart into what nobody writes."""

_RESERVED = re.compile(r"con|prn|aux|nul|com\d|lpt\d")  # names that some systems keep for themselves
_TABLE = re.compile(r"^\s*\[", re.MULTILINE)


def slug(*texts: str) -> str:
    """`2026-014`, `Küchenschrank` → `2026-014-kuechenschrank`: ASCII, lower case, hyphens, at most `LONGEST` signs;
    empty where nothing is left of the texts.

    Source: letters by compatibility decomposition (Unicode Standard Annex 15), German umlauts spelt out as DIN 5007-2
    does.
    """
    composed = unicodedata.normalize("NFC", " ".join(texts)).lower().translate(_SPELT_OUT)
    apart = unicodedata.normalize("NFKD", composed).lower()
    plain = "".join(sign for sign in apart if sign not in "'’" and not unicodedata.combining(sign))
    hyphened = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")
    if len(hyphened) > LONGEST:
        whole, _, _ = hyphened[: LONGEST + 1].rpartition("-")
        hyphened = whole or hyphened[:LONGEST]
    return f"{UNNAMED}-{hyphened}" if _RESERVED.fullmatch(hyphened) else hyphened


def slug_of(job: Job) -> str:
    """The slug of a job; `UNNAMED` where it has neither number nor title."""
    return slug(job.number, job.title) or UNNAMED


# -- two jobs of one name --------------------------------------------------------------------------


class JobSlug(NamedTuple):
    """The slug of a job by its job.toml, maybe empty, and whether it states an address of its own."""

    slug: str
    has_address: bool


def same_slug(
    folder: Path, jobs: Sequence[Path], known: Mapping[Path, JobSlug] = MappingProxyType({})
) -> dict[Path, Problem]:
    """Those of a folder's jobs whose number and title make the name of an earlier job of the shelf, and what to do.
    `known`: those that need not be read for it.

    Their archives would replace one another: a warning. Where the shop has an address for pages that is made of the
    name, the card of one would lead to the page of the other: then the later one is refused.
    """
    found: dict[Path, Problem] = {}
    first: dict[str, Path] = {}
    shop, _ = shop_around(jobs[0].absolute()) if jobs else (Shop(), None)
    for path in _of_the_shelf(folder, jobs):
        own, has_address = known.get(path) or named(path)
        before = first.setdefault(own, path) if own else path
        if before is path:
            continue
        said = f"Number and title make the same name, {shown(own)}, as those of {shown(job_name(before))}."
        severity: Severity = "error" if shop.pages_at and not has_address else "warning"
        hint = "Give each piece its own number."
        found[path] = Problem(severity, f"{job_name(path)}/{FILE}", said, hint, field="number")
    asked = {os.path.abspath(path): path for path in jobs}
    return {asked[key]: problem for path, problem in found.items() if (key := os.path.abspath(path)) in asked}


def _of_the_shelf(folder: Path, jobs: Sequence[Path]) -> Sequence[Path]:
    """The jobs to compare: of one job alone, all of the shelf that it lies on."""
    alone = len(jobs) == 1 and os.path.abspath(folder) == os.path.abspath(jobs[0])
    around = Path(os.path.abspath(folder)).parent
    return find_jobs(around) if alone and has_shop(around) and not has_shop(folder) else jobs


def named(job: Path) -> JobSlug:
    """The slug by what a job.toml says at its top, and whether it states an address of its own. Empty where it says
    nothing, or cannot be read: that is told when the job is.
    """
    try:
        text = read_plain(job / FILE, limits.TOML_BYTES).decode("utf-8-sig")
    except (NotRead, ValueError):
        return JobSlug("", False)
    top = _TABLE.search(text)
    facts = (_toml(text[: top.start()]) if top else None) or _toml(text) or {}
    said = (facts.get("number"), facts.get("title"))
    return JobSlug(slug(*(text for text in said if isinstance(text, str))), bool(facts.get("page")))


def _toml(text: str) -> dict[str, object] | None:
    """None for what is no TOML: a bracket in words of several lines may have cut it off."""
    if not load_of(text).is_bearable:
        return None
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError):
        return None
