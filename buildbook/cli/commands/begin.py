"""Lays out a new job folder: asks on a terminal for what no option says, and takes what such a piece usually has."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from buildbook.cli.say import spoken
from buildbook.cli.spoken import language_of
from buildbook.cli.terminal import ask, err, is_conversation, out, print_json
from buildbook.job.begin import BeginError, Laid, Wishes, begin, surroundings

if TYPE_CHECKING:  # reads a job and reckons it
    from buildbook.cli.resizing import Resizing

STOPPED = 130  # as a shell says of a program that was stopped from the keyboard
_OF_THE_PIECE = ("piece", "units", "woods", "finish", "hangs", "glass")
"""What a job that begins like another takes from that."""


def run(options: argparse.Namespace) -> int:
    language = language_of(options.folder.parent, options.language or "")
    try:
        wishes = _wishes(options)
        asks = is_conversation() and not options.json
        if asks:
            wishes = _asked(options.folder, wishes, like=options.like is not None)
        resizing = _resizing(options, asks=asks) if options.sizes else None
        sizes = resizing.sizes if resizing else None
        laid = begin(options.folder, None, wishes, options.like, sizes)
    except BeginError as error:
        err(f"{spoken('error', language)}: {spoken(str(error), language)}")
        return 1
    except (KeyboardInterrupt, EOFError):
        err("", spoken("Nothing was laid out.", language))
        return STOPPED
    language = language_of(options.folder)  # the shop may be new
    if options.json:
        print_json(_facts(options.folder, laid) | ({"resized": resizing.facts()} if resizing else {}))
        return 0
    out(*(spoken(text, language) for text in _told(options.folder, laid)))
    if resizing:
        out(*resizing.lines())
    return 0


def _wishes(options: argparse.Namespace) -> Wishes:
    said = {name: getattr(options, name) for name in (*_OF_THE_PIECE, "client", "language")}
    if options.like is not None and (extra := [name for name in _OF_THE_PIECE if said[name] is not None]):
        typed = {"woods": "wood"}
        names = ", ".join(f"--{typed.get(name, name)}" for name in extra)
        raise BeginError(f"With --like the piece is as the past job says: leave out {names}.")
    if said["woods"] is not None:
        said["woods"] = tuple(wood for given in said["woods"] for wood in given.split(",") if wood.strip())
    return Wishes(**said)


def _resizing(options: argparse.Namespace, *, asks: bool) -> Resizing:
    """What becomes of the past job at the sizes that are asked for."""
    if options.like is None:
        raise BeginError("--size changes a past job: say which with --like.")
    surroundings(options.folder)  # where no folder can be made, nothing is asked
    from buildbook.cli.resizing import Resizing

    return Resizing.of(options.folder, options.like, options.sizes, options.language or "", asks=asks)


def _facts(folder: Path, laid: Laid) -> dict[str, object]:
    return {
        "folder": str(folder),
        "files": list(laid.names),
        "like": laid.like,
        "shop": str(laid.shop) if laid.shop else "",
    }


def _asked(folder: Path, wishes: Wishes, *, like: bool) -> Wishes:
    from buildbook.job.begin.wishes import QUESTIONS, asked

    only = ("client",) if like else QUESTIONS
    return asked(wishes, surroundings(folder), only, ask, out)


def _told(folder: Path, laid: Laid) -> Iterator[str]:
    like = f" like {laid.like}" if laid.like else ""
    yield f"{folder} is laid out{like}: {', '.join(laid.names)}."
    if laid.shop:
        yield f"There was no shop.toml, so {laid.shop} is new: your name and address for all jobs beside it."
    if laid.like:
        yield "Its story, client, photos, days, prices and the origin of its wood were left behind."
    else:
        yield "The rows of parts.csv are examples: write your own over them."
    yield f"Fill in job.toml, put pictures into photos/, and try: buildbook proof {folder}"
