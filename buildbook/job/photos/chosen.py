"""What follows from the choices of photos.toml and from the folder photos/client, beside job.toml and the notes.

What decides where they disagree hangs on what is written alone, never on the time of a file, which copying changes:
what is put aside is shown nowhere, `client = false` keeps a picture in, and for the rest photos.toml counts; its lead
no longer where job.toml names another than the one it was chosen over (`instead_of`), which was written since.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import datetime, time
from typing import Any

from buildbook.job.log_model import LogEntry
from buildbook.job.model import Job
from buildbook.job.notes.pictures import NAMED, WHOLE_PATH, Names, resolve, several
from buildbook.job.photo_model import Photo
from buildbook.job.photos.choices import FILE, PhotoChoice, PhotoChoices
from buildbook.job.text import shown
from buildbook.problems import Problems, listed

CLIENT_FOLDER = "photos/client/"
_NAMED = 6  # pictures that one problem names


def with_choices(job: Job, choices: PhotoChoices, problems: Problems) -> Job:
    """The job with what was chosen of its pictures. In: a job whose pictures go each by one name."""
    said = _by_photo(job, choices, problems)
    aside = {name for name, choice in said.items() if choice.aside}
    photos = [_as_said(photo, said.get(photo.name)) for photo in job.photos]
    held_in = {name for name, choice in said.items() if choice.client is False}
    in_folder = [photo.name for photo in photos if _lies_in_client_folder(photo)]
    lead = _lead(job, choices, problems)
    _tell_held_in(job, said, aside, held_in, in_folder, lead, problems)
    _tell_captions(job, said, problems)
    marked = (name for name, choice in said.items() if choice.client)
    every = dict.fromkeys((*job.client_photos, *marked, *in_folder))
    return replace(
        job,
        photos=tuple(photo for photo in photos if photo.name not in aside),
        aside=tuple(photo for photo in photos if photo.name in aside),
        lead_of_job_toml=job.lead,
        lead="" if lead in aside | held_in else lead,
        client_photos=tuple(name for name in every if name not in aside | held_in),
        entries=tuple(_entry(entry, said, aside, held_in) for entry in job.entries),
    )


def _by_photo(job: Job, choices: PhotoChoices, problems: Problems) -> dict[str, PhotoChoice]:
    """Each choice by the photo that it is of, in the order of the file; told where it is of none, or of one twice."""
    names = Names(job.photos)
    one = {other: photo.name for photo in job.photos for other in (photo.name, *photo.also)}
    found: dict[str, PhotoChoice] = {}
    for choice in choices.photos:
        where: dict[str, Any] = {"line": choice.line, "field": f"photo[{choice.number}].file"}
        resolved = resolve(choice.file, FILE, names)
        if resolved is None:
            _tell_no_photo(choice.file, names, problems, where)
        elif (name := one[resolved]) in found:
            message = f"{shown(choice.file)} has two tables [[photo]]; the first counts."
            problems.warn(FILE, message, "Join the two.", **where)
        else:
            found[name] = choice
    return found


def _tell_no_photo(written: str, names: Names, problems: Problems, where: Mapping[str, Any]) -> None:
    if message := several(written, names):
        problems.warn(FILE, message, WHOLE_PATH, **where)
        return
    message = f"{shown(written)} is not a photo of this job that can be read."
    hint = problems.near(written, names, NAMED) or "Put the picture back, or delete this line."
    problems.warn(FILE, message, hint, **where)


def _as_said(photo: Photo, choice: PhotoChoice | None) -> Photo:
    if choice is None:
        return photo
    if choice.turn:
        width, height = (photo.width, photo.height) if choice.turn == _HALF else (photo.height, photo.width)
        digest = hashlib.sha256(f"{photo.digest} turned {choice.turn}".encode()).hexdigest()
        photo = replace(photo, width=width, height=height, digest=digest, turn=choice.turn)
    if choice.day:
        same = photo.taken is not None and photo.taken.date() == choice.day
        taken = photo.taken if same else datetime.combine(choice.day, time())
        photo = replace(photo, taken=taken, timed=same and photo.timed, day_from="maker")
    return replace(photo, caption=choice.caption or "")


_HALF = 180


def _lies_in_client_folder(photo: Photo) -> bool:
    return any(name.casefold().startswith(CLIENT_FOLDER) for name in (photo.name, *photo.also))


def _lead(job: Job, choices: PhotoChoices, problems: Problems) -> str:
    """The lead of the two files."""
    if not choices.lead:
        return job.lead
    names = Names(job.photos)
    where: dict[str, Any] = {"line": choices.lead_line, "field": "lead"}
    found = resolve(choices.lead, FILE, names)
    if found is None:
        _tell_no_photo(choices.lead, names, problems, where)
        return job.lead
    photo = job.photo(found)
    own = photo.name if photo else found
    if not job.lead or job.lead == own:
        return own
    over = resolve(choices.instead_of, FILE, names) if choices.instead_of else None
    before = job.photo(over) if over else None
    written_since = bool(choices.instead_of) and (before is None or before.name != job.lead)
    counts = job.lead if written_since else own
    problems.warn(
        FILE,
        f"The lead is {shown(own)} here and {shown(job.lead)} in job.toml; {shown(counts)} counts.",
        "Keep one of the two.",
        **where,
    )
    return counts


def _entry(entry: LogEntry, said: Mapping[str, PhotoChoice], aside: set[str], held_in: set[str]) -> LogEntry:
    """An entry without pictures that are put aside; what is kept in is not for the client here either."""
    return replace(
        entry,
        pictures=tuple(
            replace(
                picture,
                for_client=picture.for_client and picture.name not in held_in,
                caption=_caption(said.get(picture.name), picture.caption),
            )
            for picture in entry.pictures
            if picture.name not in aside
        ),
    )


def _caption(choice: PhotoChoice | None, written: str) -> str:
    return choice.caption if choice and choice.caption else written


# -- telling -------------------------------------------------------------------------------------


def _tell_held_in(
    job: Job,
    said: Mapping[str, PhotoChoice],
    aside: set[str],
    held_in: set[str],
    in_folder: Iterable[str],
    lead: str,
    problems: Problems,
) -> None:
    """Pictures that something else shows the client: one problem for those that stay in, one for those put aside."""
    elsewhere = {lead, *job.client_photos, *in_folder}
    elsewhere |= {p.name for entry in job.entries for p in entry.pictures if p.for_client}
    for names, why in ((held_in - aside, "client = false"), (aside, "aside = true")):
        if both := [name for name in said if name in names & elsewhere]:
            problems.warn(
                FILE,
                f"{_listing(both)} would be shown to the client, but {why} here counts.",
                "Delete the one or the other.",
                line=said[both[0]].line,
            )


def _tell_captions(job: Job, said: Mapping[str, PhotoChoice], problems: Problems) -> None:
    """Pictures that the notes call otherwise, all in one problem."""
    written = {p.name: p.caption for e in job.entries for p in e.pictures if p.caption}
    if other := [
        name
        for name, choice in said.items()
        if choice.caption and written.get(name, choice.caption) != choice.caption
    ]:
        problems.warn(
            FILE,
            f"{_listing(other)} has other words in the notes; the caption here counts.",
            "Keep one of the two.",
            line=said[other[0]].line,
        )


def _listing(names: list[str]) -> str:
    more = [f"{len(names) - _NAMED} more"] if len(names) > _NAMED else []
    return listed([*map(shown, names[:_NAMED]), *more])
