"""What the matching piece will lack, for `proof`: figures of its joints, places of its fittings, what held a glue-up.

In: a `Job` with dated notes. Out: at most three warnings, what cannot be cut first. Words are `data/matching.toml`.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Sequence
from functools import cache
from importlib import resources
from itertools import islice
from pathlib import PurePosixPath
from typing import Any

from buildbook.folding import folded
from buildbook.job.model import Job
from buildbook.job.notes.measures import measures, parts_named
from buildbook.job.text import shown
from buildbook.problems import Problem, listed
from buildbook.signs import holds

_AT_MOST = 3
_STEM = 5  # letters by which two forms of a word are one: dovetail, dovetailed; Schwalbe, Schwalben
_NOTES = "notes.md"


@cache
def _table() -> dict[str, Any]:
    text = resources.files("buildbook.job").joinpath("data", "matching.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def lacks_for_a_match(job: Job) -> list[Problem]:
    """What to ask now, worst first; nothing of a job without dated notes."""
    if not job.entries:
        return []
    return list(islice(_lacking(job), _AT_MOST))


def _lacking(job: Job) -> Iterator[Problem]:
    """All that is lacking. Problems are shown by the letters of their sentences: these follow each other in them."""
    if joints := _joints_without_figures(job):
        yield _ask(
            f"Figures of these joints are missing: {listed(joints)}.",
            "Write a Joint: line on the day each was cut, such as “Joint: tenon 34 x 8, haunch 12, Rail > Stile”.",
        )
    if fittings := _fittings_without_place(job):
        yield _ask(
            f"Places of these fittings are missing: {listed(fittings)}.",
            "Write an At: line on the day each went in, such as “At: hinge 56 from ends”.",
        )
    if glue := _glue_without_bars(job):
        yield _ask(
            f"The bars of the glue-up are missing, for {shown(glue)}.",
            "Write a Glue: line on the day, such as “Glue: open 10 min, 3 h in six bars, ends first”.",
        )
    if pictures := _captions_of_files(job):
        yield _ask(
            f"The caption of a picture is only the name of its file: {listed(pictures)}.",
            "Write what it shows.",
        )
    if job.photos and not _shown_from_behind(job):
        yield _ask(
            "No picture is said to show the back or the underside.",
            "Take one, or say it in the caption, such as “The back, before it went to the wall”.",
        )


def _marks(job: Job, key: str) -> list[str]:
    return [mark.text for entry in job.entries for mark in entry.marks if mark.key == key]


def _joints_without_figures(job: Job) -> list[str]:
    """The joints of the job that no line with a figure names by a word that no other joint of the job has."""
    told = [text for text in _marks(job, "joint") if measures(text, "joint", job.units)]
    stems = [_stems(text) for text in told]
    named = {joint: _stems(joint) for joint in job.joinery}
    lacking = []
    for joint, own in named.items():
        others = set().union(*(words for name, words in named.items() if name != joint))
        if not any((own - others or own) & words for words in stems):
            lacking.append(shown(joint))
    return lacking


def _stems(text: str) -> set[str]:
    words = re.findall(r"[^\W\d_]+", folded(text))
    return {word[:_STEM] for word in words if len(word) > 2 and word not in _table()["joints"]["idle"]}


def _fittings_without_place(job: Job) -> list[str]:
    """The hinges, knobs, locks and catches of the parts that no line says the place of, by name or by kind."""
    told = [text for text in _marks(job, "at") if measures(text, "at", job.units)]
    lacking: list[str] = []
    for part in job.parts:
        if part.kind != "hardware" or any(parts_named(text, [part.name]) for text in told):
            continue
        kinds = [words for words in _table()["fittings"].values() if holds(words, part.name, part.material)]
        if kinds and not any(holds(words, *told) for words in kinds):
            lacking.append(shown(part.name))
    return list(dict.fromkeys(lacking))


def _glue_without_bars(job: Job) -> str:
    """The first glue among the supplies, where no line counts what pressed."""
    words: Sequence[str] = _table()["glue"]["words"]
    glues = [part for part in job.parts if part.kind == "supply" and holds(words, part.name, part.material)]
    counts = any(
        figure.kind == "count" for text in _marks(job, "glue") for figure in measures(text, "glue", job.units)
    )
    return "" if counts or not glues else glues[0].material or glues[0].name


def _captions_of_files(job: Job) -> list[str]:
    """The captions, of notes and of photos.toml, that only repeat the name of the file."""
    captions = [(picture.name, picture.caption) for entry in job.entries for picture in entry.pictures]
    captions += [(photo.name, photo.caption) for photo in job.photos]
    return list(
        dict.fromkeys(
            shown(caption)
            for name, caption in captions
            if caption
            and folded(caption) in (folded(PurePosixPath(name).stem), folded(PurePosixPath(name).name))
        )
    )


def _shown_from_behind(job: Job) -> bool:
    """Whether a caption or the name of a file, or of its folder, says that a picture shows what is not seen in use."""
    said = [picture.caption for entry in job.entries for picture in entry.pictures]
    said += [photo.caption for photo in job.photos]
    said += [re.sub(r"[-_./]+", " ", photo.name) for photo in job.photos]
    return holds(_table()["behind"]["words"], *said)


def _ask(message: str, hint: str) -> Problem:
    return Problem("warning", _NOTES, message, hint)
