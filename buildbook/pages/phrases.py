"""Words and figures in the language and units of one shop: what every page model is written with."""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from dataclasses import dataclass

from buildbook.job.model import Job
from buildbook.job.row_names import row_name
from buildbook.quantity import Style
from buildbook.summary.model import FinishUse, Summary
from buildbook.summary.style import style_of
from buildbook.words import Words
from buildbook.words.told import sentence


@dataclass(frozen=True)
class Phrases:
    """Joins `Words` (a language) and `Style` (units, decimal mark, currency)."""

    words: Words
    style: Style

    @classmethod
    def of(cls, job: Job) -> Phrases:
        """The language of the shop and the units of the job."""
        words = Words(job.shop.language, job.shop.quoting.voice)
        return cls(words, style_of(job, words))

    def __call__(self, key: str, **values: object) -> str:
        return self.words.text(key, **values)

    def told(self, english: str) -> str:
        """A sentence that stands in the program in English, such as what was assumed, in the language of the shop."""
        return sentence(english, self.words.language, row_name)

    def date(self, day: datetime.date) -> str:
        """`11 April 2026`, the day and month kept on one line."""
        return self.words.date(day)

    def month(self, day: datetime.date) -> str:
        """`April 2026`."""
        return self.words.month(day)

    def dates(self, days: Iterable[datetime.date]) -> str:
        """`20, 21 and 24 March 2026`; `27 and 28 February and 4 March 2026`: month and year once where shared."""
        months: dict[tuple[int, int], list[datetime.date]] = {}
        for day in sorted(set(days)):
            months.setdefault((day.year, day.month), []).append(day)
        return self.listed(self._of_month(group) for group in months.values())

    def _of_month(self, days: list[datetime.date]) -> str:
        first = [self("dates.day_only", day=day.day) for day in days[:-1]]
        return self.listed([*first, self.date(days[-1])])

    def listed(self, items: Iterable[str]) -> str:
        """`a, b and c`; where one of them holds a comma, between them what the language puts there."""
        every = list(items)
        if len(every) < 2:
            return "".join(every)
        between = self("figures.between_long") if any(", " in item for item in every) else ", "
        return f"{between.join(every[:-1])} {self('figures.and')} {every[-1]}"

    def either(self, items: Iterable[str]) -> str:
        """`a, b or c`."""
        every = list(items)
        if len(every) < 2:
            return "".join(every)
        return f"{', '.join(every[:-1])} {self('figures.or')} {every[-1]}"

    def stage(self, stage: str) -> str:
        """A stage by its name; hours may be booked without one."""
        return stage or self("log.no_stage")

    def at_least(self, value: str, whole: bool) -> str:
        """A cost, or at least that where some of it has no price."""
        return value if whole or not value else self("cost.at_least", value=value)

    def at_most(self, value: str, whole: bool) -> str:
        """What is left over a cost, or at most that where some of the cost has no price."""
        return value if whole or not value else self("cost.at_most", value=value)

    def names(self, items: Iterable[str]) -> str:
        """Names of parts in a sentence, each once: `Top, doors and legs`. Languages that write nouns small inside a
        sentence do so here, but for names that a maker wrote in capitals.
        """
        every = list(dict.fromkeys(item.split(",")[0] for item in items))  # `Back, upper` is a back
        if self("figures.names_lower") == "yes":
            every = [name[:1].lower() + name[1:] if name[1:2].islower() else name for name in every]
        return self.listed(every)

    def finish(self, use: FinishUse) -> str:
        """What a finish is called: its product as the maker names it, else its family."""
        return use.product or self.family(use)

    def family(self, use: FinishUse) -> str:
        """The family of a finish, in the language of the page."""
        return capital(self.words.name("finish_name", use.family, use.family_name))

    def without_price(self, summary: Summary) -> str:
        """What a job has no price for: parts by the maker's names, finishes by that of the language."""
        families = {use.family_name: self.family(use) for use in summary.finish if not use.product}
        return self.listed(families.get(name) or self.told(name) for name in summary.cost.unpriced)

    def count(self, key: str, number: int, **values: object) -> str:
        """A phrase in the form that the language has for a number of things: see `Words.text`."""
        return self(key, count=number, **values)

    def short_date(self, day: datetime.date) -> str:
        """A day in figures, for a column."""
        return self.words.short_date(day)


def capital(sentence: str) -> str:
    """The sentence with its first letter large, the rest as it is."""
    return sentence[:1].upper() + sentence[1:]
