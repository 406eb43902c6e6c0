"""Figures by thing and year, and how a kind of them is told: a picture, a sentence, tables, what they rest on."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from buildbook.find.tokens import fold
from buildbook.pages.drawn.bars import Strip, YearBar, YearBars
from buildbook.pages.phrases import Phrases

_WIDEST = 12  # years side by side in a table; more stand in a further one

Show = Callable[[float], str]


@dataclass(frozen=True)
class YearTable:
    """Figures by thing and year. `totals`: rows below the line, each a label and its cells."""

    years: tuple[str, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]
    totals: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True)
class YearSection:
    """One kind of figures: a picture, the same in tables, what it rests on. Without a picture `empty` says why.

    thing   what the rows of the tables are. unit: of every figure, empty where each has its own or is a count.
    """

    key: str
    heading: str
    thing: str
    unit: str
    chart: YearBars | None
    tables: tuple[YearTable, ...]
    remarks: tuple[str, ...]
    empty: str


@dataclass
class Amounts:
    """Figures by thing and year, while they are added; with `whole` each is a share of it, and so is every sum."""

    parts: dict[str, dict[str, float]] = field(default_factory=dict)
    whole: Amounts | None = None

    def add(self, thing: str, year: str, value: float, of: float = 0.0) -> None:
        years = self.parts.setdefault(thing, {})
        years[year] = years.get(year, 0.0) + value
        if self.whole is not None:
            self.whole.add(thing, year, of)

    def get(self, thing: str, year: str) -> float | None:
        value = self.parts[thing].get(year)
        return value if value is None or self.whole is None else _share(value, self.whole.get(thing, year))

    def of_thing(self, thing: str) -> float:
        value = math.fsum(self.parts[thing].values())
        return value if self.whole is None else _share(value, self.whole.of_thing(thing))

    def of_year(self, year: str) -> float:
        value = math.fsum(years.get(year, 0.0) for years in self.parts.values())
        return value if self.whole is None else _share(value, self.whole.of_year(year))

    @property
    def total(self) -> float:
        value = math.fsum(math.fsum(years.values()) for years in self.parts.values())
        return value if self.whole is None else _share(value, self.whole.total)

    @property
    def highest(self) -> float:
        return max(
            (self.get(thing, year) or 0.0 for thing in self.parts for year in self.parts[thing]), default=0.0
        )

    def most_first(self) -> list[str]:
        return sorted(self.parts, key=lambda thing: (-self.of_thing(thing), fold(thing)))

    def by_name(self) -> list[str]:
        return sorted(self.parts, key=fold)


def _share(part: float, whole: float | None) -> float:
    return part / whole if whole else 0.0


@dataclass(frozen=True)
class Measure:
    """How figures of a kind are written: `show` in a table and on a bar, `full` with a unit in a sentence.

    to_top   words for the full height of a strip, where that is 1.
    """

    show: Show
    full: Show
    unit: str = ""
    to_top: str = ""


@dataclass(frozen=True)
class Sections:
    """Makes sections over the same years."""

    phrases: Phrases
    years: tuple[str, ...]

    def empty(self, key: str) -> YearSection:
        """A section that has no figures, with what to add and what it would give."""
        heading = self.phrases(f"years.{key}.heading")
        return YearSection(key, heading, "", "", None, (), (), self.phrases(f"years.{key}.empty"))

    def section(
        self,
        key: str,
        amounts: Amounts,
        measure: Measure,
        *,
        order: Sequence[str],
        sentence: str,
        remarks: Iterable[str],
        more: tuple[str, Mapping[str, str]] | None = None,
        aside: str = "",
    ) -> YearSection:
        """A picture with its tables. `more`: a further row below them by year; `aside` stands beside the heading and
        tells this section from others of its key.
        """
        heading = self.phrases(f"years.{key}.heading")
        heading = f"{heading}, {aside}" if aside else heading
        top = 1.0 if measure.to_top else 0.0
        chart = YearBars(
            title=heading,
            sentence=sentence,
            by_row=" ".join(self._told(thing, amounts, measure) for thing in order),
            years=self.years,
            strips=tuple(
                Strip(thing, tuple(self._bars(thing, amounts, measure)), max(amounts.highest, top))
                for thing in order
            ),
            unit=measure.unit,
            to_top=measure.to_top,
        )
        return YearSection(
            key=f"{key}-{aside.lower()}" if aside else key,
            heading=heading,
            thing=self.phrases(f"years.{key}.thing"),
            unit=measure.unit,
            chart=chart,
            tables=tuple(self._tables(amounts, order, measure.show, more)),
            remarks=tuple(remarks),
            empty="",
        )

    def most(self, amounts: Amounts) -> str:
        """The year with the most; the first of several."""
        return max(self.years, key=amounts.of_year)

    def _bars(self, thing: str, amounts: Amounts, measure: Measure) -> Iterable[YearBar]:
        for year in self.years:
            value = amounts.get(thing, year)
            yield YearBar(value, measure.show(value) if value is not None else "")

    def _told(self, thing: str, amounts: Amounts, measure: Measure) -> str:
        found = ((year, amounts.get(thing, year)) for year in self.years)
        return (
            f"{thing}: {', '.join(f'{y} {measure.show(value)}' for y, value in found if value is not None)}."
        )

    def _tables(
        self, amounts: Amounts, order: Sequence[str], show: Show, more: tuple[str, Mapping[str, str]] | None
    ) -> Iterable[YearTable]:
        """The newest years in the first table, as many as fit on a sheet, with the sums of all years."""
        in_all = self.phrases("columns.total")
        for end in range(len(self.years), 0, -_WIDEST):
            some = self.years[max(0, end - _WIDEST) : end]
            first = end == len(self.years) and len(self.years) > 1
            rows = [
                (
                    thing,
                    tuple(self._cell(amounts.get(thing, year), show) for year in some),
                    amounts.of_thing(thing),
                )
                for thing in order
            ]
            totals = []
            if len(order) > 1:
                sums = tuple(self._cell(amounts.of_year(year) or None, show) for year in some)
                totals.append((in_all, sums + ((show(amounts.total),) if first else ())))
            if more:
                label, cells = more
                totals.append((label, (*(cells.get(year, "") for year in some), *([""] if first else []))))
            yield YearTable(
                years=(*some, in_all) if first else some,
                rows=tuple(
                    (thing, cells + ((show(total),) if first else ()))
                    for thing, cells, total in rows
                    if first or any(cells)
                ),
                totals=tuple(totals),
            )

    @staticmethod
    def _cell(value: float | None, show: Show) -> str:
        return show(value) if value is not None else ""
