"""What a job is made from, as it lies on the disk: its folder, the shop around it, the themes that its pages use.

One `Inputs` serves one binding: what jobs have in common (shop.toml, prices.csv, themes) is looked at once.
"""

from __future__ import annotations

import os
import time
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from buildbook import limits
from buildbook.book.redo.made import Made
from buildbook.book.redo.noted import (
    FILE,
    LINK,
    FoundFile,
    Noted,
    content_of,
    found_at,
    found_below,
    is_settled,
    is_surely_as,
    plain_name,
    target_of,
)
from buildbook.book.redo.state import shared_state
from buildbook.job.photo_model import PhotoHeader, Video, VideoFacts
from buildbook.job.photos.drawings import FOLDER as DRAWINGS
from buildbook.job.photos.headers import FOLDER as PHOTOS
from buildbook.job.photos.headers import SUFFIXES, VIDEO_SUFFIXES, KnownPhoto
from buildbook.render.html.theme import Theme, is_plain, themes_folder

JOB, SHELF, ABOVE, THEMES = "job/", "shelf/", "shelf/../", "themes/"
"""What the names of inputs begin with, by where they lie: no path of a machine is kept."""

_DIGEST_LETTERS = 64
_SHOP_FILES = ("shop.toml", "prices.csv", "prices.xlsx", "prices.ods")
_LONGEST_TEXT = max(
    limits.TABLE_BYTES, limits.WORKBOOK_BYTES, limits.NOTE_BYTES, limits.TOML_BYTES, limits.RECORD_BYTES
)


class Inputs:
    """Looks at inputs, and notes each with its content, which is read only where it may have changed.

    themes_read  the project's own themes by their names, of those whose files were noted before they were read
    """

    def __init__(self) -> None:
        self.themes_read: dict[str, Theme] = {}
        self.begun_ns = time.time_ns()
        self._around: dict[str, list[FoundFile]] = {}
        self._states: dict[tuple[str, ...], bytes | None] = {}
        self._contents: dict[FoundFile, str] = {}

    def of_job(self, folder: Path) -> tuple[FoundFile, ...]:
        """All that a job is made from but the themes of its pages."""
        top = os.path.abspath(folder)
        return (*found_below(JOB, top), *self._shop(os.path.dirname(top)))

    def of_themes(self, shelf: Path, themes: Sequence[str]) -> tuple[FoundFile, ...]:
        """The files of themes that are named beside a shop.toml, but for those in a job folder."""
        return tuple(one for name in themes for one in self._theme(name, os.path.abspath(shelf)))

    def around(self, shelf: str, themes: Sequence[str]) -> bytes | None:
        """What jobs of a shelf with these themes have in common, as `state.state_found` takes it."""
        key = (shelf, *themes)
        if key not in self._states:
            found = (*self._shop(shelf), *self.of_themes(Path(shelf), themes))
            self._states[key] = shared_state(found)
        return self._states[key]

    def noted(
        self, found: Iterable[FoundFile], root: Path, before: Mapping[str, Noted], noted_ns: int
    ) -> tuple[Noted, ...]:
        """What was found, with its content: that of before where a file is surely as it was then."""
        top = os.path.abspath(root)
        return tuple(self._noted(one, top, before.get(one.name), noted_ns) for one in found)

    def is_settled(self, before: Made, noted: Sequence[Noted]) -> bool:
        """Whether a record may stay as it is: all was as noted then, and nothing had to be read to know."""
        return before.inputs == noted and all(
            one.facts.kind != FILE or is_settled(one.facts, before.begun_ns) for one in noted
        )

    def _noted(self, found: FoundFile, top: str, before: Noted | None, noted_ns: int) -> Noted:
        if before is not None and is_surely_as(found.facts, before, noted_ns):
            return before
        content = self._contents.get(found)
        if content is None:
            content = content_of(found, _most(found), top)
            if not found.name.startswith(JOB):
                self._contents[found] = content
        return Noted(found.name, found.facts, content)

    def _shop(self, shelf: str) -> list[FoundFile]:
        """shop.toml and the prices of a shelf, whatever the capitals; where one is a link, whether the folder around
        has a shop.toml, which decides whether it may be.
        """
        if shelf not in self._around:
            found = list(_of_shop(SHELF, shelf))
            if any(one.facts.kind == LINK for one in found):
                found += _of_shop(ABOVE, os.path.dirname(shelf))
            self._around[shelf] = found
        return self._around[shelf]

    def _theme(self, name: str, shelf: str) -> list[FoundFile]:
        """The folders in which a theme of this name is looked for, but those in jobs."""
        if not is_plain(name):
            return []
        place = f"{shelf}\0{name}"
        if place not in self._around:
            found = list(_tree(f"{THEMES}{name}", os.path.join(themes_folder(), name)))
            found += _tree(f"{SHELF}{name}", os.path.join(shelf, name))
            self._around[place] = found
        return self._around[place]


def _of_shop(name: str, folder: str) -> Iterator[FoundFile]:
    try:
        inside = sorted(os.listdir(folder))
    except OSError:
        inside = []
    for own in inside:
        if own.casefold() in _SHOP_FILES:
            one = found_at(name + plain_name(own), os.path.join(folder, own))
            yield one
            if one.facts.kind == LINK:
                yield from target_of(one.name, one.path)


def _tree(name: str, top: str) -> Iterator[FoundFile]:
    """A folder and all below it; it may be a link. What has no theme.toml is no theme, and not looked into."""
    yield found_at(name, top)
    yield found_at(f"{name}/theme.toml?", os.path.join(top, "theme.toml"))
    if os.path.isfile(os.path.join(top, "theme.toml")):
        yield from found_below(f"{name}/", top)


def _most(found: FoundFile) -> int:
    """How many bytes of a file any reader takes."""
    ending = os.path.splitext(found.path)[1].lower()
    if ending in VIDEO_SUFFIXES and found.name.startswith(JOB):
        return limits.VIDEO_BYTES
    is_picture = ending in SUFFIXES
    return limits.PICTURE_BYTES if is_picture or not found.name.startswith(JOB) else _LONGEST_TEXT


def photos_among(inputs: Iterable[Noted], headers: Mapping[str, PhotoHeader]) -> dict[str, KnownPhoto]:
    """What is known of the photos of a job, by their names in its folder, without opening one."""
    return {
        one.name.removeprefix(JOB): KnownPhoto(one.content, headers.get(one.content))
        for one in inputs
        if one.name.startswith((f"{JOB}{PHOTOS}/", f"{JOB}{DRAWINGS}/")) and _is_one_of(one, SUFFIXES)
    }


def videos_among(inputs: Iterable[Noted], facts: Mapping[str, VideoFacts]) -> dict[str, VideoFacts]:
    """What is known of the videos of a job, by their names in its folder, without opening one."""
    return {
        one.name.removeprefix(JOB): facts[one.content]
        for one in inputs
        if one.name.startswith(f"{JOB}{PHOTOS}/") and one.content in facts and _is_one_of(one, VIDEO_SUFFIXES)
    }


def read_of_videos(inputs: Iterable[Noted], videos: Iterable[Video]) -> dict[str, VideoFacts]:
    """What was read of the videos of a job, by the digest of their content."""
    by_name = {JOB + video.name: video.facts for video in videos if video.facts}
    return {
        one.content: by_name[one.name]
        for one in inputs
        if one.name in by_name and _is_one_of(one, VIDEO_SUFFIXES)
    }


def _is_one_of(noted: Noted, suffixes: Collection[str]) -> bool:
    """Whether it is a file of such a name, whose content is known; a link is none."""
    has_digest = len(noted.content) == _DIGEST_LETTERS and " " not in noted.content
    is_named = os.path.splitext(noted.name)[1].lower() in suffixes
    return noted.facts.kind == FILE and noted.facts.size > 0 and is_named and has_digest
