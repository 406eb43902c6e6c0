"""By what a thing is the same in every job, and where it stands on the pages across jobs.

In: what a job says of a thing. Out: its key, of the table of the trade or of the maker's own word; and the address of
its place, seen from the top of a book, which hangs on nothing but the key.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

from buildbook.folding import folded
from buildbook.job.model import Job, Part
from buildbook.job.notes.jigs import jigs_of
from buildbook.summary.model import FinishUse, Summary


def finish_key(use: FinishUse) -> str:
    """The family with the product."""
    return f"{use.family}/{folded(use.product)}"


def joint_key(name: str) -> str:
    return folded(name)


def hardware_key(part: Part) -> str:
    """The same for every size."""
    return folded(part.material or part.name)


def supplier_key(name: str) -> str:
    return folded(name)


def place_of(key: str) -> str:
    """The id of a thing on its page: letters and figures that every address takes."""
    spread = unicodedata.normalize("NFKD", key.replace("ß", "ss"))
    plain = "".join(sign for sign in spread if not unicodedata.combining(sign)).lower()
    signs = (sign if sign.isascii() and sign.isalnum() else "-" for sign in plain)
    return "-".join(part for part in "".join(signs).split("-") if part) or "thing"


def address(kind: str, key: str) -> str:
    """A thing on the page of its kind: `woods.html#black-walnut`."""
    return f"{kind}.html#{place_of(key)}"


def named_in(job: Job, summary: Summary) -> Iterator[tuple[str, str]]:
    """What a job names that has a place on a page across jobs, each name as it is written with its address."""
    for part in job.parts:
        if part.kind == "wood":
            yield part.material, address("woods", part.same)
        elif part.kind == "hardware":
            yield part.material or part.name, address("hardware", hardware_key(part))
        if part.supplier:
            yield part.supplier, address("suppliers", supplier_key(part.supplier))
    for use in summary.finish:
        if use.product:
            yield use.product, address("finishes", finish_key(use))
    for name in job.joinery:
        yield name, address("joinery", joint_key(name))
    for _, _, jig in jigs_of(job.entries):
        yield jig.name, address("jigs", jig.key)
