"""The figures of the shop by year: jobs, timber by wood and its yield, hours by stage, materials. Private.

The year of a job is that of its last day; a job without one is named and counted in none. Made from the records that
bound jobs left (`used`), each read once.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from buildbook.find.tokens import fold
from buildbook.job.shop_model import Shop
from buildbook.left.model import Used, WoodUse
from buildbook.pages.past.across import JobRef, Shelf, job_ref, phrases_of, without_record
from buildbook.pages.past.across_rows import Figures
from buildbook.pages.past.list import PastWork
from buildbook.pages.past.years_section import Amounts, Measure, Sections, YearSection
from buildbook.pages.phrases import Phrases, capital
from buildbook.quantity.show import NARROW

_LONGEST = 60  # years on end; where jobs lie further apart, only the years that have any are shown
_TENTHS_BELOW = 10  # board feet and hours below are told to a tenth
_PLACES_M3 = 3
_LEAST_M3 = 0.001  # less is told as less than this


@dataclass(frozen=True)
class YearsPage:
    """The page. `undated`: the jobs that are in no year."""

    language: str
    shop: str
    kind: str
    title: str
    said: str
    sections: tuple[YearSection, ...]
    undated: tuple[JobRef, ...]
    undated_said: str
    remarks: tuple[str, ...]
    wood_colours: tuple[str, str] = PastWork.wood_colours


def years_page(shelf: Shelf, shop: Shop) -> YearsPage:
    """The figures of all jobs of a book."""
    phrases = phrases_of(shop)
    dated = [used for used in shelf.records if used.year]
    undated = tuple(job_ref(used, shelf, phrases) for used in shelf.records if not used.year)
    years = years_of(dated)
    said = phrases("years.empty")
    if years:
        jobs = phrases.count("across.jobs", len(dated))
        span = years[0] if len(years) == 1 else phrases("years.span", first=years[0], last=years[-1])
        said = capital(phrases("years.said", jobs=jobs, span=span))
    return YearsPage(
        language=phrases.words.language,
        shop=shop.name,
        kind="years",
        title=phrases("years.title"),
        said=said,
        sections=tuple(_SectionMaker(dated, shop, phrases, Sections(phrases, years)).sections())
        if years
        else (),
        undated=undated,
        undated_said=phrases.count("years.undated", len(undated)) if undated else "",
        remarks=tuple(_remarks(shelf, phrases)),
    )


def years_of(dated: Iterable[Used]) -> tuple[str, ...]:
    """Every year from the first to the last, those without a job too."""
    known = sorted({used.year for used in dated})
    if not known or int(known[-1]) - int(known[0]) > _LONGEST:
        return tuple(known)
    return tuple(f"{year:04}" for year in range(int(known[0]), int(known[-1]) + 1))


def _remarks(shelf: Shelf, phrases: Phrases) -> Iterable[str]:
    stale = [used.title for used in shelf.records if used.key in shelf.stale]
    if stale:
        yield phrases("years.stale", jobs=phrases.listed(stale))
    yield from without_record(shelf, phrases)


@dataclass(frozen=True)
class _SectionMaker:
    dated: list[Used]
    shop: Shop
    phrases: Phrases
    make: Sections

    def sections(self) -> Iterable[YearSection]:
        yield self._delivered()
        yield self._timber()
        yield self._yield()
        yield self._hours()
        yield from self._costs()

    def _delivered(self) -> YearSection:
        done = self.phrases("years.delivered.delivered")
        open_ = self.phrases("years.delivered.not_delivered")
        amounts = Amounts({done: {}})
        for used in self.dated:
            amounts.add(done if used.delivered else open_, used.year, 1)
        delivered = Amounts({done: amounts.parts[done]})
        most = max(map(delivered.of_year, self.make.years))
        fullest = [year for year in self.make.years if delivered.of_year(year) == most]
        return self.make.section(
            "delivered",
            amounts,
            Measure(lambda count: self.phrases.style.number(count), str),
            order=list(amounts.parts),
            sentence=capital(
                self.phrases(
                    "years.delivered.sentence",
                    jobs=self.phrases.count("across.jobs", round(delivered.total)),
                    year=self.phrases.listed(fullest),
                    count=len(fullest),
                    most=round(most),
                )
            ),
            remarks=self._pieces(),
        )

    def _pieces(self) -> list[str]:
        """How many pieces the delivered jobs made, where they are more than the jobs."""
        done = [used for used in self.dated if used.delivered]
        made = sum(used.pieces for used in done)
        if made == len(done):
            return []
        sets = sum(used.pieces > 1 for used in done)
        return [self.phrases.count("years.delivered.pieces", sets, made=made)]

    # -- timber ----------------------------------------------------------------------------------

    def _timber(self) -> YearSection:
        style = self.phrases.style
        stock, feet = Amounts(), Amounts()
        for used in self.dated:
            for wood in used.woods:
                if wood.stock_m3:
                    stock.add(self._wood(wood), used.year, wood.stock_m3 if style.metric else wood.stock_bf)
                    feet.add(self._wood(wood), used.year, wood.stock_bf)
        if not stock.parts:
            return self.make.empty("timber")
        measure = Measure(self._tenths, style.board_feet, "bd ft")
        if style.metric:
            measure = Measure(
                self._cubic_metres,
                lambda m3: style.with_unit(m3, "m³", _PLACES_M3),
                "m³",
            )
        in_feet = {
            year: style.number(feet.of_year(year), 1) for year in self.make.years if feet.of_year(year)
        }
        return self.make.section(
            "timber",
            stock,
            measure,
            order=stock.most_first(),
            sentence=self._most_of("timber", stock, measure),
            remarks=[self.phrases("years.timber.remark")],
            more=(self.phrases("years.timber.board_feet"), in_feet) if style.metric else None,
        )

    def _wood(self, wood: WoodUse) -> str:
        return capital(self.phrases.words.name("species_name", wood.key, wood.name))

    def _cubic_metres(self, m3: float) -> str:
        number = self.phrases.style.number
        return number(m3, _PLACES_M3) if m3 >= _LEAST_M3 else f"<{NARROW}{number(_LEAST_M3, _PLACES_M3)}"

    def _tenths(self, amount: float) -> str:
        return self.phrases.style.number(amount, 1 if amount < _TENTHS_BELOW else 0)

    def _yield(self) -> YearSection:
        """What is in the pieces of what the tallies say was bought; a wood without a tally is named, never guessed."""
        shares = Amounts(whole=Amounts())
        tallied = 0
        without: dict[str, int] = {}
        for used in self.dated:
            for wood in used.woods:
                name = self._wood(wood)
                if wood.tallied and wood.stock_m3:
                    tallied += 1
                    shares.add(name, used.year, wood.net_m3, of=wood.stock_m3)
                else:
                    without[name] = without.get(name, 0) + 1
        if not shares.parts:
            return self.make.empty("yield")
        ranked = shares.most_first()
        percent = self._percent
        sentence = self.phrases(
            "years.yield.sentence" if len(ranked) > 1 else "years.yield.sentence_one",
            share=percent(shares.total),
            best=ranked[0],
            worst=ranked[-1],
            most=percent(shares.of_thing(ranked[0])),
            least=percent(shares.of_thing(ranked[-1])),
        )
        remarks = [self.phrases("years.yield.remark")]
        if without:
            uses = tallied + sum(without.values())
            named = self.phrases.listed(f"{name} ({without[name]})" for name in sorted(without, key=fold))
            remarks.append(self.phrases("years.yield.without", tallied=tallied, uses=uses, woods=named))
        return self.make.section(
            "yield",
            shares,
            Measure(percent, percent, to_top=percent(1)),
            order=shares.by_name(),
            sentence=sentence,
            remarks=remarks,
        )

    def _percent(self, share: float) -> str:
        return self.phrases.style.percent(share * 100)

    # -- hours and money -------------------------------------------------------------------------

    def _hours(self) -> YearSection:
        hours = Amounts()
        for used in self.dated:
            for stage, booked in used.hours:
                hours.add(self.phrases.stage(stage), used.year, booked)
        if not hours.parts:
            return self.make.empty("hours")
        known = {stage: place for place, stage in enumerate(self.shop.stages)}
        measure = Measure(self._tenths, self.phrases.style.hours, "h")
        return self.make.section(
            "hours",
            hours,
            measure,
            order=sorted(hours.by_name(), key=lambda stage: known.get(stage, len(known))),
            sentence=self._most_of("hours", hours, measure),
            remarks=[self.phrases("years.hours.sets")] if any(used.pieces > 1 for used in self.dated) else [],
        )

    def _most_of(self, key: str, amounts: Amounts, measure: Measure) -> str:
        most, lead = self.make.most(amounts), amounts.most_first()[0]
        return self.phrases(
            f"years.{key}.sentence",
            total=measure.full(amounts.total),
            year=most,
            most=measure.full(amounts.of_year(most)),
            lead=lead,
            led=measure.full(amounts.of_thing(lead)),
            share=self._percent(amounts.of_thing(lead) / amounts.total),
        )

    def _costs(self) -> Iterable[YearSection]:
        """A section a currency: no sum is ever of two."""
        money: dict[str, dict[str, Decimal]] = {}
        unpriced: dict[str, int] = {}
        for used in self.dated:
            if used.materials is not None:
                years = money.setdefault(used.currency, {})
                years[used.year] = years.get(used.year, Decimal(0)) + used.materials
                unpriced[used.currency] = unpriced.get(used.currency, 0) + (used.unpriced > 0)
        if not money:
            yield self.make.empty("cost")
        for currency in sorted(money):
            yield self._cost(currency, money[currency], unpriced[currency])

    def _cost(self, currency: str, by_year: dict[str, Decimal], unpriced: int) -> YearSection:
        figures = Figures(self.phrases)
        thing = self.phrases("years.cost.thing")
        amounts = Amounts({thing: {year: float(amount) for year, amount in by_year.items()}})
        most = max(sorted(by_year), key=lambda year: by_year[year])
        remarks = [self.phrases("years.cost.remark")]
        if unpriced:
            remarks.append(self.phrases.count("years.cost.unpriced", unpriced))
        return self.make.section(
            "cost",
            amounts,
            Measure(lambda amount: self.phrases.style.number(amount), str, currency),
            order=[thing],
            sentence=capital(
                self.phrases(
                    "years.cost.sentence",
                    total=self.phrases.at_least(
                        figures.money(sum(by_year.values(), Decimal(0)), currency), not unpriced
                    ),
                    year=most,
                    most=figures.money(by_year[most], currency),
                )
            ),
            remarks=remarks,
            aside=currency,
        )
