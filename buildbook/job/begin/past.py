"""The job that a new one begins like: a folder, or what it is called on the shelf."""

from __future__ import annotations

import os
import tomllib
from dataclasses import dataclass
from pathlib import Path

from buildbook import limits
from buildbook.folding import folded
from buildbook.job import find_jobs, read_job
from buildbook.job.begin.wishes import BeginError
from buildbook.job.folder import PARTS_FILES
from buildbook.job.lying import find
from buildbook.job.model import Job, Part
from buildbook.job.places import job_name
from buildbook.job.plain_file import NotRead, read_plain
from buildbook.job.table.workbook import is_workbook
from buildbook.job.toml.natural import as_toml
from buildbook.problems import did_you_mean, listed

_FACTS = "job.toml"


@dataclass(frozen=True)
class PastJob:
    """A past job: its files as they are, and what reading it tells.

    name   number and title, for a line in the new job.toml.
    parts  as they were read, by the row of their file. parts_file: its name, that of a spreadsheet too.
    job    all of it, as it was read, without pictures.
    """

    folder: Path
    name: str
    job_toml: bytes
    parts_file: str
    parts_csv: bytes
    units: str
    language: str
    parts: tuple[Part, ...]
    job: Job


def find_past(called: str, shelf: Path) -> PastJob:
    """The job of a folder, or the one of the shelf with this number or name. `BeginError` where there is none."""
    folder = Path(called).expanduser()
    if find_jobs(folder) == [folder]:
        return _read(folder)
    jobs = find_jobs(shelf)
    names = {path: _names(path) for path in jobs}
    found = [path for path in jobs if folded(called) in map(folded, names[path])]
    if len(found) == 1:
        return _read(found[0])
    if found:
        said = listed(map(job_name, found))
        raise BeginError(f"“{called}” may be {said}. Give the name of the folder.")
    known = [name for path in jobs for name in names[path]]
    hint = did_you_mean(called, known) or f"Jobs are looked for in {shelf}."
    raise BeginError(f"There is no job “{called}”. {hint}")


def _names(folder: Path) -> tuple[str, ...]:
    """What a job is called: its folder, its number, its title."""
    try:
        facts = tomllib.loads(as_toml(_bytes(folder, _FACTS, limits.TABLE_BYTES).decode("utf-8-sig")))
    except (ValueError, RecursionError):
        facts = {}
    stated = (facts.get(key) for key in ("number", "title"))
    return (job_name(folder), *(name for name in stated if isinstance(name, str) and name))


def _read(folder: Path) -> PastJob:
    job = read_job(folder, pictures=False)
    table = next((name for name in PARTS_FILES if find(folder, name)), PARTS_FILES[0])
    called = " ".join(name for name in (job.number, job.title) if name) or job.folder
    return PastJob(
        folder=folder,
        name=called,
        job_toml=_bytes(folder, _FACTS, limits.TABLE_BYTES),
        parts_file=table,
        parts_csv=_bytes(folder, table, limits.WORKBOOK_BYTES if is_workbook(table) else limits.TABLE_BYTES),
        units=job.units,
        language=job.shop.language,
        parts=job.parts,
        job=job,
    )


def _bytes(folder: Path, name: str, most: int) -> bytes:
    """A file of a job; nothing where there is none, or none that can be read."""
    try:
        names = {one.casefold(): one for one in os.listdir(folder)}
        return read_plain(folder / names.get(name, name), most)
    except (OSError, NotRead):
        return b""
