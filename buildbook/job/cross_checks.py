"""What takes more than one file of a job to check: finishes of parts, photos that are named, woods, hanging.

In: a `Job` of what each file says. Out: the job with names set right, and problems.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from buildbook import limits
from buildbook.job.model import Job
from buildbook.job.notes.pictures import NAMED, WHOLE_PATH, Names, resolve, several
from buildbook.job.parts import adding, resawn, sets
from buildbook.job.parts.finished import finished
from buildbook.job.photo_model import Photo
from buildbook.job.photos.choices import NOTHING_CHOSEN, PhotoChoices
from buildbook.job.photos.chosen import with_choices
from buildbook.job.table import parts
from buildbook.job.text import shown
from buildbook.job.toml import job_toml
from buildbook.job.toml.job_toml import Stated
from buildbook.problems import Problems, did_you_mean
from buildbook.trade import movement, tables
from buildbook.trade.finish import schedule, stated
from buildbook.trade.records import NotKnown

_HANGS = ("wall", "ceiling")


def across(job: Job, stated: Stated, problems: Problems, choices: PhotoChoices = NOTHING_CHOSEN) -> Job:
    """The job, checked across its files: finishes filled in, photos by their names; what is wrong is told.

    `stated` is what job.toml says, with the lines of its keys, `choices` what photos.toml says.
    """
    tell = _Telling(stated, problems)
    job = finished(job, problems)
    _check_finishes(job, tell)
    _check_ready(job, tell)
    _check_woods(job, problems)
    _check_tallies(job, tell)
    resawn.check(job, problems)
    _check_hanging(job, tell)
    _check_loads(job, tell)
    _check_set(job, tell)
    job = replace(job, adds=adding.checked(job, tell.warn))
    return with_choices(_with_photos(job, tell), choices, problems)


@dataclass(frozen=True)
class _Telling:
    """Warnings on job.toml at a key, with its line where it has one."""

    stated: Stated
    problems: Problems

    def warn(self, field: str, message: str, hint: str) -> None:
        self.problems.warn(job_toml.FILE, message, hint, field=field, line=self.stated.lines.get(field))


# -- finishes ------------------------------------------------------------------------------------


def _check_finishes(job: Job, tell: _Telling) -> None:
    for finish in job.finishes:
        if job.parts and not job.bearing(finish.key):
            tell.warn(
                tell.stated.finish_fields.get(finish.key, "finish"),
                f"No part has the finish {shown(finish.key)}, so it has no area.",
                "Name it in the column finish of parts.csv.",
            )


def _check_ready(job: Job, tell: _Telling) -> None:
    """A piece that goes out before its finish may be used: of those that went together, by the coats until then."""
    for finish in job.finishes:
        if job.is_beneath(finish.key):
            continue
        family = stated(tables.finishes()[finish.family], light_use_days=finish.light_use_days)
        for gone in (batch.day for batch in job.batches if batch.day):
            coats = [coat for coat in finish.coats if len(job.batches) == 1 or coat <= gone]
            day = schedule(family, max(coats)).light_use_from if coats else None
            if day and day > gone:
                tell.warn(
                    "delivery" if job.deliveries else "delivered",
                    f"Delivered on {gone.isoformat()}, but {shown(finish.product or finish.key)} may be used"
                    f" with care only from {day.isoformat()}.",
                    "The client’s page says from when. See that the days of the coats are right, or deliver later.",
                )


# -- woods ---------------------------------------------------------------------------------------


def _check_woods(job: Job, problems: Problems) -> None:
    """A wood whose movement is not known, told once, at its first part."""
    told = set()
    for part in job.parts:
        if part.kind != "wood" or not part.key or part.key in told:
            continue
        rates = movement.rates(tables.species()[part.key], part.cut or "flat")
        if isinstance(rates, NotKnown):
            told.add(part.key)
            problems.warn(
                parts.FILE,
                f"How much {shown(part.material)} moves is not known: {rates.reason.rstrip('.')}.",
                "Its movement is left out.",
                row=part.row,
                field="material",
            )


def _check_tallies(job: Job, tell: _Telling) -> None:
    """A tally names a wood of the job, so that its yield can be counted; where there is one wood it need not."""
    woods = {part.key for part in job.parts if part.kind == "wood" and part.key}
    for number, working in enumerate(job.workings, 1):
        named = str(working.inputs.get("wood", ""))
        if working.kind != "tally" or not woods or (not named and len(woods) == 1):
            continue
        if not named:
            hint = "Write wood = the name of the wood, as in parts.csv."
            tell.warn(
                f"worked[{number}]", "A tally does not say which wood it is of: its yield is left out.", hint
            )
            continue
        if tables.species().key_of(named, job.shop.place) not in woods:
            hint = did_you_mean(named, {part.material for part in job.parts if part.kind == "wood"})
            message = f"A tally is of {shown(named)}, which is no wood of this job: its yield is left out."
            tell.warn(f"worked[{number}].wood", message, hint or "Name a wood as in parts.csv.")


# -- hanging -------------------------------------------------------------------------------------


def _check_hanging(job: Job, tell: _Telling) -> None:
    if job.stands in _HANGS and job.hanging is None:
        tell.warn(
            "stands",
            f"The piece hangs (stands = “{job.stands}”), but there is no [hanging] that can be read:"
            " its fixings are not worked out.",
            "Write [hanging] with method, fastener, wall and pull_height.",
        )
    if job.hanging and job.stands not in _HANGS:
        tell.warn(
            "hanging",
            "There is [hanging], but the piece does not stand on a wall.",
            'Write stands = "wall", or leave [hanging] out.',
        )


# -- loads ---------------------------------------------------------------------------------------


def _check_loads(job: Job, tell: _Telling) -> None:
    """One place that is said to carry more than the whole piece."""
    if job.contents_kg is None:
        return
    for load in job.loads:
        if load.kg > job.contents_kg:
            tell.warn(
                "loads",
                f"{load.kg:g} kg {load.place} is more than the whole piece carries, contents = {job.contents_kg:g} kg.",
                "Put right loads, or contents, which is for all of it.",
            )


# -- sets ----------------------------------------------------------------------------------------


def _check_set(job: Job, tell: _Telling) -> None:
    """How many pieces there are where only the title tells, and what the parts of several are counted for."""
    if "quantity" not in tell.stated.fields:
        told = next((found for said in (job.title, job.piece) if (found := sets.several(said))), None)
        if told:
            count = told.count or "the number of pieces"
            what = f"{shown(told.said)} tells of several pieces, and “quantity” is not said: all is reckoned for one."
            tell.warn("quantity", what, f"Write quantity = {count}, or quantity = 1 where it is one piece.")
    if job.cards == "each" and job.quantity > limits.CARDS:
        what = (
            f"A card for each of {job.quantity} pieces is more than can be printed at once ({limits.CARDS})."
        )
        where: dict[str, Any] = {"field": "cards", "line": tell.stated.lines.get("cards")}
        tell.problems.error(job_toml.FILE, what, 'Write cards = "one".', **where)
    if job.quantity == 1 or not job.parts:
        return
    if not job.parts_for:
        where = {"field": "quantity", "line": tell.stated.lines.get("quantity")}
        what = f"The job makes {job.quantity} pieces, and it is not said whether parts.csv counts for all of them."
        hint = 'Write parts_for = "all", or parts_for = "each" where it counts the parts of one.'
        tell.problems.error(job_toml.FILE, what, hint, **where)
    elif job.parts_for == "all":
        for part in sets.uneven(job):
            tell.problems.warn(
                parts.FILE,
                f"{part.qty} cannot be the same in each of {job.quantity} pieces: one is taken to have its share.",
                'See that it counts for all of them, or write parts_for = "each" in job.toml.',
                row=part.row,
                field="qty",
            )


# -- photos --------------------------------------------------------------------------------------


def _with_photos(job: Job, tell: _Telling) -> Job:
    names = Names(job.photos)
    lead = _photo(job.lead, "photos.lead", names, tell) if job.lead else ""
    client = [_photo(name, "photos.client", names, tell) for name in job.client_photos]
    return _each_under_one_name(replace(job, lead=lead, client_photos=tuple(name for name in client if name)))


def _photo(name: str, field: str, names: Names, tell: _Telling) -> str:
    """The photo that job.toml names, or "" with a warning."""
    if found := resolve(name, job_toml.FILE, names):
        return found
    if message := several(name, names):
        tell.warn(field, message, WHOLE_PATH)
        return ""
    tell.warn(
        field,
        f"{shown(name)} is not a photo of this job that can be read.",
        tell.problems.near(name, names, NAMED) or "Name it from the job folder, such as photos/front.jpg.",
    )
    return ""


def _each_under_one_name(job: Job) -> Job:
    """A picture that lies in several files goes by the name that the maker gives it first, so that a copy made later
    changes nothing.
    """
    named = [picture.name for entry in job.entries for picture in entry.pictures]
    named += [job.lead, *job.client_photos]
    photos: list[Photo] = []
    one: dict[str, str] = {}
    for photo in job.photos:
        every = (photo.name, *photo.also)
        first = next((name for name in named if name in every), photo.name) if photo.also else photo.name
        photos.append(replace(photo, name=first, also=tuple(name for name in every if name != first)))
        one |= dict.fromkeys(every, first)
    return replace(
        job,
        photos=tuple(sorted(photos, key=lambda photo: photo.name)),
        lead=one.get(job.lead, ""),
        client_photos=tuple(dict.fromkeys(one[name] for name in job.client_photos)),
        entries=tuple(
            replace(entry, pictures=tuple(replace(p, name=one[p.name]) for p in entry.pictures))
            for entry in job.entries
        ),
    )
