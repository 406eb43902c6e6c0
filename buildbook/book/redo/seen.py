"""One job as a binding sees it: what it was made from last time, what there is now, and whether it is made again."""

from __future__ import annotations

import json
import os
import time
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from buildbook.book.disk import write
from buildbook.book.disk.write import Staging, sha256
from buildbook.book.lock import OWN
from buildbook.book.place import HANDOVERS, LOGS
from buildbook.book.redo import decide as redo
from buildbook.book.redo.inputs import JOB, SHELF, THEMES, Inputs, photos_among, read_of_videos, videos_among
from buildbook.book.redo.made import (
    Brief,
    KeptPrint,
    Made,
    keep_made,
    place_of,
    place_of_past,
    read_brief,
    read_made,
)
from buildbook.book.redo.noted import FILE, FoundFile, Noted, found_at, is_surely_as
from buildbook.book.redo.program import imaging, program
from buildbook.book.redo.state import state_found, state_noted
from buildbook.book.sealed.seal import Fingerprints
from buildbook.job.model import Photo
from buildbook.job.photo_model import Video, VideoFacts
from buildbook.job.photos.headers import KnownPhoto
from buildbook.job.places import job_name
from buildbook.job.plain_file import NotRead, read_plain
from buildbook.job.slug import named
from buildbook.limits import LEFT_BYTES
from buildbook.problems import Problem


@dataclass(frozen=True)
class Written:
    """What a binding of one job wrote: its two folders, with which themes, from which photos and videos; its prints.

    past  what it has for estimates, written when its folders lie in the book; nothing where that cannot be told
    """

    folders: tuple[Staging, ...]
    themes: tuple[str, ...]
    photos: tuple[Photo, ...]
    videos: tuple[Video, ...]
    prints: Mapping[str, KeptPrint]
    past: bytes = b""


@dataclass(frozen=True)
class Seen:
    """A job before it is bound.

    themes  the names of the themes whose files are among what was found; own: what was found without them
    before  its record; None where it is made from nothing
    why     what changed; nothing where the book has the job as it is
    """

    path: Path
    book: Path
    inputs: Inputs
    themes: tuple[str, ...]
    own: tuple[FoundFile, ...]
    found: tuple[FoundFile, ...]
    noted: tuple[Noted, ...]
    before: Made | None
    why: tuple[str, ...]

    @property
    def photos(self) -> dict[str, KnownPhoto]:
        """What is known of its photos without opening one."""
        return photos_among(self.noted, self.before.headers if self.before else {})

    @property
    def videos(self) -> dict[str, VideoFacts]:
        """What is known of its videos, if the same library would be asked again."""
        return videos_among(self.noted, self.before.videos) if self.before and self.keeps_pictures else {}

    @property
    def keeps_pictures(self) -> bool:
        """Whether the copies of photos in the book are those that would be made now."""
        return self.before is not None and self.before.imaging == imaging()

    @property
    def is_of_this_program(self) -> bool:
        """Whether the book has what this program made, with these libraries."""
        return self.before is not None and self.before.program == program()

    @property
    def prints(self) -> Mapping[str, KeptPrint]:
        return self.before.prints if self.before else {}

    @property
    def made_with(self) -> str:
        """One digest of the program and of the files of the themes."""
        of_themes = tuple(f"{start}{name}/" for name in self.themes for start in (THEMES, SHELF, JOB))
        files = [(one.name, one.content) for one in self.noted if one.name.startswith(of_themes)]
        return sha256(json.dumps((program(), files)).encode())

    def sure_in(self, folder: str) -> Collection[str]:
        """The files of a folder of the book that are surely as they were written there, by their names in it."""
        if self.before is None:
            return ()
        ours = [one for one in self.before.outputs if one.name.startswith(folder)]
        now = redo.outputs_as_noted(self.book, ((one.name, one.content) for one in ours))
        return {
            one.name.removeprefix(folder)
            for one, was in zip(now, ours, strict=True)
            if one.facts.kind == FILE and is_surely_as(one.facts, was, self.before.done_ns)
        }

    def using(self, themes: tuple[str, ...]) -> Seen:
        """The same with the files of these themes noted; to be asked before they are read."""
        if themes == self.themes:
            return self
        found = (*self.own, *self.inputs.of_themes(_shelf(self.path), themes))
        was = {one.name: one for one in self.noted}
        noted = self.inputs.noted(found, self.path, was, self.inputs.begun_ns)
        return replace(self, themes=themes, found=found, noted=noted)

    def leave(self, written: Written, problems: tuple[Problem, ...], sealed: Fingerprints) -> None:
        """Leave a record of what was made; none where something changed while it was made."""
        still = all(found_at(one.name, one.path).facts == one.facts for one in self.found)
        if not still or written.themes != self.themes:
            return
        past = _keep_past(self.book, job_name(self.path), written.past)
        made = Made(
            program=program(),
            imaging=imaging(),
            begun_ns=self.inputs.begun_ns,
            done_ns=time.time_ns(),
            themes=self.themes,
            inputs=self.noted,
            outputs=redo.outputs_as_noted(self.book, [*_files_of(self.book, written.folders), *past]),
            problems=problems,
            sealed=sealed,
            headers={p.content: p.header for p in written.photos if p.header},
            videos=read_of_videos(self.noted, written.videos),
            prints=written.prints,
            named=named(self.path),
            past="".join(digest for _, digest in past),
        )
        keep_made(place_of(self.book, job_name(self.path)), made, _state_noted(made))


def look(path: Path, book: Path, inputs: Inputs, *, again: bool = False) -> Seen:
    """Look at a job, and at what the book has of it. What had to be read to know is noted anew."""
    return _look(
        path, book, inputs, None if again else read_made(place_of(book, job_name(path))), again=again
    )


def _look(
    path: Path, book: Path, inputs: Inputs, before: Made | None, *, again: bool = False, notes: bool = True
) -> Seen:
    seen = _noted_now(path, book, inputs, before)
    noted = seen.noted
    if before is None:
        return replace(seen, why=(redo.ASKED if again else redo.NEVER_MADE,))
    amiss, read = redo.what_is_amiss(before, book)
    changes = [*redo.what_changed(before, noted), *amiss.values()]
    if notes and not changes and (read or not inputs.is_settled(before, noted)):
        anew = replace(before, inputs=noted, begun_ns=inputs.begun_ns, done_ns=time.time_ns())
        keep_made(place_of(book, job_name(path)), anew, _state_noted(anew))
    return replace(seen, why=redo.told(changes))


def _noted_now(path: Path, book: Path, inputs: Inputs, before: Made | None) -> Seen:
    """What a job is made from, noted anew where it is not surely as it was; nothing is held against anything."""
    themes = before.themes if before else ()
    own = inputs.of_job(path)
    found = (*own, *inputs.of_themes(_shelf(path), themes))
    was = {one.name: one for one in before.inputs} if before else {}
    noted = inputs.noted(found, path, was, before.begun_ns if before else 0)
    return Seen(path, book, inputs, themes, own, found, noted, before, ())


def as_before(path: Path, book: Path, inputs: Inputs, *, notes: bool = True) -> Brief | Made | None:
    """The record of a job that the book has as it is now; None for one that is to be bound. Nothing is read of a job
    without a record.
    """
    try:
        place = place_of(book, job_name(path))
        brief = read_brief(place)
        if brief is None:
            return None
        if _is_as_noted(path, book, brief, inputs):
            return brief
        before = read_made(place)
        if before is None:
            return None
        seen = _look(path, book, inputs, before, notes=notes)
    except OSError:  # what it is will be told when it is bound
        return None
    return None if seen.why else seen.before


def past_as_before(path: Path, book: Path, inputs: Inputs) -> bytes | None:
    """What a job left for estimates, if it is made from what it was made from then; its pages need not be as they were.
    None where it left nothing, or that is not to the byte what was written.
    """
    key = job_name(path)
    try:
        brief = read_brief(place_of(book, key))
        if brief is None or not brief.past:
            return None
        if not _is_as_noted(path, book, brief, inputs):
            before = read_made(place_of(book, key))
            if before is None or before.past != brief.past:
                return None
            if redo.what_changed(before, _noted_now(path, book, inputs, before).noted):
                return None
        data = read_plain(place_of_past(book, key), LEFT_BYTES)
    except (OSError, NotRead):
        return None
    return data if sha256(data) == brief.past else None


def _keep_past(book: Path, key: str, past: bytes) -> list[tuple[str, str]]:
    """Write what a job has for estimates: its name in the book and its SHA-256. Nothing where it cannot be written, and
    then the next estimate reads the job.
    """
    place = place_of_past(book, key)
    try:
        if past:
            write.write_or_lose(place, past)
            return [(place.relative_to(book).as_posix(), sha256(past))]
        place.unlink(missing_ok=True)
    except OSError:
        pass
    return []


def _is_as_noted(path: Path, book: Path, brief: Brief, inputs: Inputs) -> bool:
    """Whether the system tells of a job and of what was made of it what it told then: nothing else is looked at."""
    if not brief.state or brief.program != program():
        return False
    return brief.state == _state_found(path, book, brief, inputs)


def _state_noted(made: Made) -> str:
    own = [one for one in made.inputs if one.name.startswith(JOB)]
    shared = [one for one in made.inputs if not one.name.startswith(JOB)]
    return state_noted(own, shared, made.outputs, made.begun_ns, made.done_ns)


def _state_found(path: Path, book: Path, brief: Brief, inputs: Inputs) -> str:
    key, folder, top = job_name(path), os.path.abspath(path), os.fspath(book)
    pages = [(f"{where}/{key}/", f"{top}/{where}/{key}") for where in (LOGS, HANDOVERS)]
    names = [f"{OWN}/{where}/{key}.json" for where in (LOGS, HANDOVERS)]
    if brief.past:
        names.append(place_of_past(book, key).relative_to(book).as_posix())
    others = [(name, f"{top}/{name}") for name in names]
    return state_found((JOB, folder), inputs.around(os.path.dirname(folder), brief.themes), pages, others)


def _shelf(job: Path) -> Path:
    return Path(os.path.abspath(job)).parent


def _files_of(book: Path, folders: tuple[Staging, ...]) -> Iterator[tuple[str, str]]:
    """Every file that a binding wrote for a job, by its name in the book and its SHA-256."""
    for folder in folders:
        place = folder.place.relative_to(book).as_posix()
        yield from ((f"{place}/{name}", digest) for name, digest in folder.digests.items())
        yield f"{place}/{folder.list_name}", folder.list_digest
        if folder.second:
            yield folder.second.relative_to(book).as_posix(), folder.list_digest
