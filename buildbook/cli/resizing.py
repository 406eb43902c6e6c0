"""`begin --like JOB --size …`: finds the past job, asks what is open, and holds what becomes of it.

Loaded only where a size is given: it reads a job and reckons it twice.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from buildbook.cli.say import spoken
from buildbook.cli.spoken import ENGLISH, language_of
from buildbook.cli.terminal import ask, out
from buildbook.job.begin.past import PastJob, find_past
from buildbook.job.begin.sizes import NewSizes
from buildbook.job.begin.wishes import BeginError
from buildbook.job.folder import has_shop, read_shop
from buildbook.quantity import QuantityError
from buildbook.resized.again import resize
from buildbook.resized.as_json import as_json
from buildbook.resized.asking import asked
from buildbook.resized.figures import BothFigures, alike, figures_of
from buildbook.resized.laid import new_sizes
from buildbook.resized.model import Resized, Unfit
from buildbook.resized.telling import Telling
from buildbook.resized.unfit import unfit_of
from buildbook.resized.wanted import read_sizes
from buildbook.words import Words, known_language


@dataclass(frozen=True)
class Resizing:
    """A past job at another size, with what is said of it."""

    past: PastJob
    resized: Resized
    words: Words

    @classmethod
    def of(cls, folder: Path, like: str, sizes: Sequence[str], language: str, *, asks: bool) -> Resizing:
        """The past job that is meant, at these sizes. `BeginError` where there is none, or no such size."""
        shelf = folder.expanduser().absolute().parent
        past = find_past(like, shelf)
        words = Words(known_language(language or language_of(shelf, past.language)) or ENGLISH)
        shop = read_shop(shelf)[0] if has_shop(shelf) else past.job.shop
        job = alike(past.job, shop)
        try:
            wanted = read_sizes(sizes, past.units)
            resized = asked(job, wanted, words, ask, out) if asks else resize(job, wanted)
        except QuantityError as wrong:
            said = (spoken(text, words.language) for text in (wrong.message, wrong.hint) if text)
            raise BeginError(" ".join(said)) from None
        return cls(past, resized, words)

    @cached_property
    def telling(self) -> Telling:
        return Telling(self.resized, self.words)

    @cached_property
    def unfit(self) -> tuple[Unfit, ...]:
        return unfit_of(self.resized, self.past.job)

    @cached_property
    def figures(self) -> BothFigures:
        return figures_of(self.resized, self.past.job)

    @property
    def sizes(self) -> NewSizes:
        """What the new folder has of another size, and the text that tells it."""
        name = self.words.text("resized.file")
        return new_sizes(self.resized, {name: self.telling.file(self.past.name, self.unfit)})

    def lines(self) -> Iterator[str]:
        """All of it, for a terminal."""
        telling = self.telling
        blocks = (
            telling.parts(),
            telling.untold(),
            telling.figures(self.figures),
            telling.hours(self.figures),
            telling.unfit(self.unfit),
            [telling.t("note")],
        )
        for block in blocks:
            if lines := list(block):
                yield ""
                yield from lines

    def facts(self) -> dict[str, object]:
        return as_json(self.resized, self.unfit, self.figures, self.telling)
