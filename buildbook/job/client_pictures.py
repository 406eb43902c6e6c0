"""Which pictures the client sees, in the order of the page: the lead, those of the story, the others."""

from __future__ import annotations

from typing import NamedTuple

from buildbook.job.model import Job


class ClientPictures(NamedTuple):
    """Names of photos; the lead is empty where there is none, and what the story shows is not in the gallery."""

    lead: str
    story: tuple[str, ...]
    gallery: tuple[str, ...]


def client_pictures(job: Job) -> ClientPictures:
    """Those of a job that can be read. Without a lead the first that the client may see takes its place."""
    there = {photo.name for photo in job.photos}
    story = dict.fromkeys(
        picture.name
        for entry in job.entries
        if entry.for_client
        for picture in entry.pictures
        if picture.for_client and picture.name in there
    )
    chosen = [name for name in job.client_photos if name in there]
    lead = job.lead if job.lead in there else next(iter((*chosen, *story)), "")
    return ClientPictures(
        lead, tuple(story), tuple(name for name in chosen if name != lead and name not in story)
    )


def without_words(job: Job) -> tuple[str, ...]:
    """The pictures that the client sees and that have no words of the maker, by their names."""
    captioned = {p.name for e in job.entries for p in e.pictures if p.for_client and p.caption.strip()}
    captioned |= {photo.name for photo in job.photos if photo.caption}
    seen = client_pictures(job)
    every = dict.fromkeys((*([seen.lead] if seen.lead else []), *seen.story, *seen.gallery))
    return tuple(name for name in every if name not in captioned)
