"""`buildbook` alone: what can be done next in the folder that one is in. It writes nothing and reads no job."""

from __future__ import annotations

import os
from collections.abc import Iterator

from buildbook.cli import here
from buildbook.cli.terminal import err, out

ENGLISH = "en"
_ALL = "buildbook --help"
_NAMED = 3  # handovers that are offered by name
_WIDEST_COMMAND = 44  # signs of a command, before the sentence beside it begins

Step = tuple[str, str]
"""What to type, and what that does."""


def tell_what_is_next(folder: str = os.curdir) -> int:
    """Say what a folder is and what can be done next; the exit code is 0 unless it cannot be listed."""
    language = _language(folder)
    try:
        os.getcwd()  # of a folder that was removed meanwhile some systems still give an empty list
        kind = here.what_is(folder)
        steps = [*_STEPS[kind](folder, language)]
    except OSError as fault:
        err(f"error: {folder}: {fault.strerror or fault}")
        return 1
    steps.append((_ALL, spoken("all commands; of each, with examples: buildbook COMMAND --help", language)))
    width = min(max(len(typed) for typed, _ in steps), _WIDEST_COMMAND)
    out(_what(kind, language), *(f"  {typed:{width}}  {does}".rstrip() for typed, does in steps))
    return 0


def _language(folder: str) -> str:
    """That of the shop, if there is one about."""
    if not any(
        os.path.exists(os.path.join(folder, *way))
        for way in ((here.SHOP,), (os.pardir, here.SHOP), ("index.html",))
    ):
        return ENGLISH
    from pathlib import (
        Path,
    )  # with tomllib as much as all the rest of this: only where a shop says its language

    from buildbook.cli.spoken import language_of

    return language_of(Path(folder))


def spoken(english: str, language: str) -> str:
    """A text in a language."""
    if language == ENGLISH:
        return english
    from buildbook.words.told import sentence

    return sentence(english, language)


def _what(kind: str, language: str) -> str:
    """What the folder is, in a sentence."""
    if kind == here.EMPTY:
        return spoken("This folder is empty.", language)
    if kind == here.JOB:
        return spoken("This is a job folder.", language)
    if kind == here.OF_A_JOB:
        return spoken("This folder belongs to the job folder around it.", language)
    if kind == here.SHELF:
        return spoken("This is a shelf: jobs lie in it, or shall.", language)
    if kind == here.BOOK:
        return spoken("This is a book: the pages of jobs that were bound.", language)
    if kind == here.PAGES:
        return spoken("These are pages that buildbook made.", language)
    if kind == here.HANDOVER:
        return spoken("This is a handover: what the client gets of a job.", language)
    if kind == here.HANDOVERS:
        return spoken("Handovers lie in this folder.", language)
    if kind == here.MATERIAL:
        return spoken("Here are photos or notes, but no job.toml: no job was made of them yet.", language)
    return spoken("There is no job, shelf, book or handover here.", language)


def _begin(language: str) -> Step:
    return "buildbook begin my-piece", spoken("lays out a job folder of that name here", language)


def _empty(folder: str, language: str) -> Iterator[Step]:
    yield _begin(language)
    yield "buildbook keys", spoken("what may be written in the files of a job", language)


def _material(folder: str, language: str) -> Iterator[Step]:
    yield _begin(language)
    yield "", spoken("then put the photos into its photos/, the notes into its notes.md", language)


def _job(folder: str, language: str, at: str = os.curdir) -> Iterator[Step]:
    if not os.path.exists(os.path.join(folder, at, here.FACTS)):
        yield (
            "",
            spoken("a job.toml is missing: without it the pages have no title, sizes or finish", language),
        )
    yield f"buildbook proof {at}", spoken("says what is wrong, and what a handover still lacks", language)
    book = f"{at}{os.sep}{os.pardir}{os.sep}book" if at != os.curdir else f"{os.pardir}{os.sep}book"
    yield f"buildbook bench {at} --to {book}", spoken("shows the pages while you work", language)
    yield f"buildbook bind {at} --to {book}", spoken("makes the pages", language)
    yield (
        f"buildbook handover {at} --to {os.path.dirname(book)}",
        spoken("packs what the client gets", language),
    )


def _of_a_job(folder: str, language: str) -> Iterator[Step]:
    yield from _job(folder, language, os.pardir)


def _shelf(folder: str, language: str) -> Iterator[Step]:
    if here.jobs_in(folder):
        yield "buildbook proof .", spoken("says what is wrong or missing in each job", language)
        yield "buildbook bind .", spoken("makes the pages of each job that has changed, in ./book", language)
        yield "buildbook bench .", spoken("shows the pages while you work", language)
        yield "buildbook find oak drawer", spoken("searches past work for these words", language)
    yield _begin(language)


def _book(folder: str, language: str) -> Iterator[Step]:
    yield "index.html", spoken("open this in a browser: all past work", language)
    yield "buildbook find oak drawer", spoken("searches past work for these words", language)
    place = os.path.join(folder, "handover")
    if os.path.isdir(place):
        yield from _each_handover(place, "handover", language)


def _pages(folder: str, language: str) -> Iterator[Step]:
    yield "index.html", spoken("open this in a browser", language)


def _handover(folder: str, language: str) -> Iterator[Step]:
    yield "index.html", spoken("open this in a browser: the page of the piece", language)
    yield "buildbook verify .", spoken("says whether anything in it was changed", language)
    yield (
        "buildbook verify . --fingerprint TEXT",
        spoken("the same, by the fingerprint that stands on the printed card", language),
    )


def _handovers(folder: str, language: str) -> Iterator[Step]:
    yield from _each_handover(folder, "", language)


def _each_handover(place: str, below: str, language: str) -> Iterator[Step]:
    from shlex import quote

    for name in here.handovers_in(place)[:_NAMED]:
        yield (
            f"buildbook verify {quote(os.path.join(below, name))}",
            spoken("says whether anything in it was changed", language),
        )


def _other(folder: str, language: str) -> Iterator[Step]:
    yield _begin(language)
    yield "", spoken("or go to a job folder, or to the folder that your jobs lie in, and ask again", language)


_STEPS = {
    here.EMPTY: _empty,
    here.JOB: _job,
    here.OF_A_JOB: _of_a_job,
    here.SHELF: _shelf,
    here.BOOK: _book,
    here.PAGES: _pages,
    here.HANDOVER: _handover,
    here.HANDOVERS: _handovers,
    here.MATERIAL: _material,
    here.OTHER: _other,
}
