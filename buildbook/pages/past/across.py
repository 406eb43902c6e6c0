"""The pages across the jobs of a book: by wood, finish, joinery, jig, hardware and supplier. Private.

Each is made from the records that bound jobs left (`used`): per thing a table, the newest job first, with what the
maker says of it. Of what was used often the newest jobs stand in full, older ones in a short list. Each record is
read once.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import NamedTuple

from buildbook.find.tokens import fold
from buildbook.job.model import Job
from buildbook.job.shop_model import Shop
from buildbook.left.model import FinishUsed, Remark, Use, Used
from buildbook.pages.ledger import filled, only
from buildbook.pages.past.across_rows import COLUMNS, NUMERIC, Figures
from buildbook.pages.past.in_jobs import InJob, with_those_that_name_it
from buildbook.pages.past.list import PastWork
from buildbook.pages.phrases import Phrases, capital
from buildbook.summary.things import place_of

KINDS = ("woods", "finishes", "joinery", "jigs", "hardware", "suppliers")
PAGES = (*KINDS, "years")
"""The pages, by the names of their files without `.html`, in the order of the row that links them."""

_NOT_BOUGHT = ("joinery", "jigs")

FULL_OF_A_THING = 30  # jobs of a thing that stand in full
FULL_OF_A_PAGE = 800  # rows in full on a page, the newest: so that a book of thousands still opens


@dataclass(frozen=True)
class JobRef:
    """A job as a row names it. `mark` says why its record is not of the last binding, empty when it is."""

    key: str
    title: str
    day: str
    mark: str = ""


class SaidOf(NamedTuple):
    """What the maker says of a thing: of a day of the log (`at` finds it there), else a note of a part."""

    at: str
    day: str
    of: str
    text: str


@dataclass(frozen=True)
class UseRow:
    """A row in full; `job` is None where the row above is of the same job. `cells` are those after the job's."""

    job: JobRef | None
    cells: tuple[str, ...]
    said: tuple[SaidOf, ...] = ()
    log: str = ""


@dataclass(frozen=True)
class Older:
    """A job in the short list."""

    job: JobRef
    words: str


@dataclass(frozen=True)
class ThingUsed:
    """A wood, a product, a joint, an item of hardware, a supplier, with the jobs that it was in."""

    anchor: str
    name: str
    aside: str
    count: int
    counted: str
    rows: tuple[UseRow, ...]
    totals: tuple[str, ...] = ()
    older: tuple[Older, ...] = ()
    older_said: str = ""


@dataclass(frozen=True)
class Group:
    """Things under one head: the products of a family. `name` is empty where a page has no heads."""

    anchor: str
    name: str
    things: tuple[ThingUsed, ...]


@dataclass(frozen=True)
class UseColumn:
    key: str
    label: str
    numeric: bool


@dataclass(frozen=True)
class AcrossPage:
    """One page across the jobs. `columns` are those after the job's."""

    language: str
    shop: str
    kind: str
    title: str
    said: str
    columns: tuple[UseColumn, ...]
    groups: tuple[Group, ...]
    remarks: tuple[str, ...]
    wood_colours: tuple[str, str] = PastWork.wood_colours


# -- the jobs of a book --------------------------------------------------------------------------


class Shelf(NamedTuple):
    """What the pages across are made from: the records, the newest first; why some are of an older binding; how many
    jobs of the book have left none.
    """

    records: tuple[Used, ...]
    stale: Mapping[str, str]
    without: int = 0


def newest_first(records: Iterable[Used], stale: Mapping[str, str], without: int = 0) -> Shelf:
    ordered = sorted(records, key=lambda used: used.key)
    ordered.sort(key=lambda used: used.day or date.min, reverse=True)
    return Shelf(tuple(ordered), stale, without)


def phrases_of(shop: Shop) -> Phrases:
    """Words and figures of the shop's own language and units."""
    return Phrases.of(Job(folder="", shop=shop, units=shop.units))


def across_pages(shelf: Shelf, shop: Shop) -> dict[str, AcrossPage]:
    """Every page by its kind."""
    phrases = phrases_of(shop)
    figures = Figures(phrases)
    return {kind: _PageMaker(kind, shelf, shop, phrases, figures).page() for kind in KINDS}


def job_ref(used: Used, shelf: Shelf, phrases: Phrases) -> JobRef:
    day = phrases.short_date(used.day) if used.day else ""
    return JobRef(used.key, used.title, day, shelf.stale.get(used.key, ""))


@dataclass(frozen=True)
class _PageMaker:
    kind: str
    shelf: Shelf
    shop: Shop
    phrases: Phrases
    figures: Figures

    def page(self) -> AcrossPage:
        found = self._found()
        full = _in_full(found)
        named = {key: self._name(jobs[0].uses[0]) for key, jobs in found.items()}
        order = sorted(found, key=lambda key: (*map(sort_key, named[key]), key))
        anchors = Anchors()
        heads: dict[str, list[ThingUsed]] = {}
        for key in order:
            head, name = named[key]
            thing = self._thing(anchors.of(key), name, found[key], full[key])
            heads.setdefault(head, []).append(thing)
        return self._trimmed(
            [Group(anchors.of(head) if head else "", head, tuple(things)) for head, things in heads.items()]
        )

    def _found(self) -> dict[str, list[InJob]]:
        """The jobs of each thing, the newest first."""
        found: dict[str, list[InJob]] = {}
        for used in self.shelf.records:
            here: dict[str, list[Use]] = {}
            for use in getattr(used, self.kind):
                here.setdefault(use.key, []).append(use)
            for key, uses in here.items():
                found.setdefault(key, []).append(InJob(used, tuple(uses)))
        return found if self.kind != "jigs" else dict(with_those_that_name_it(found, self.shelf.records))

    def _name(self, use: Use) -> tuple[str, str]:
        """The head that a thing stands under, and its name."""
        if isinstance(use, FinishUsed):
            family = capital(self.phrases.words.name("finish_name", use.family, use.family_name))
            return family, capital(use.name) or self.phrases("across.no_product")
        if self.kind == "woods":
            return "", capital(self.phrases.words.name("species_name", use.key, use.name))
        return "", capital(use.name)

    def _thing(self, anchor: str, name: str, jobs: Sequence[InJob], full: int) -> ThingUsed:
        older = tuple(
            Older(
                job_ref(used, self.shelf, self.phrases),
                "; ".join(self.figures.short(used, use) for use in uses),
            )
            for used, uses in jobs[full:]
        )
        every = [(used, use) for used, uses in jobs for use in uses]
        return ThingUsed(
            anchor=anchor,
            name=name,
            aside=self.figures.aside(every[0][1]),
            count=len(jobs),
            counted=self.phrases.count("across.jobs", len(jobs)),
            rows=tuple(row for job in jobs[:full] for row in self._rows(job)),
            totals=self.figures.totals(self.kind, every) if len(every) > 1 else (),
            older=older,
            older_said=self.phrases.count("across.older", len(older)) if older and full else "",
        )

    def _rows(self, job: InJob) -> Iterable[UseRow]:
        """The rows of a thing in one job; what the maker says of it stands below the last."""
        used, uses = job
        lines = [cells for use in uses for cells in self.figures.rows(used, use)]
        said = tuple(map(self._said_of, dict.fromkeys(said for use in uses for said in use.said)))
        for place, cells in enumerate(lines):
            ref = None if place else job_ref(used, self.shelf, self.phrases)
            yield UseRow(ref, cells, said if place == len(lines) - 1 else (), used.key)

    def _said_of(self, remark: Remark) -> SaidOf:
        day = self.phrases.short_date(date.fromisoformat(remark.day)) if remark.day else ""
        return SaidOf(remark.at, day, remark.of, remark.text)

    def _trimmed(self, groups: Sequence[Group]) -> AcrossPage:
        """The page without columns that no row has a word in."""
        things = [thing for group in groups for thing in group.things]
        names = COLUMNS[self.kind]
        kept = filled(row.cells for thing in things for row in thing.rows)

        def cut(thing: ThingUsed) -> ThingUsed:
            rows = tuple(replace(row, cells=only(row.cells, kept)) for row in thing.rows)
            totals = only(thing.totals, kept) if any(thing.totals) else ()
            return replace(thing, rows=rows, totals=totals if any(totals) else ())

        return AcrossPage(
            language=self.phrases.words.language,
            shop=self.shop.name,
            kind=self.kind,
            title=self.phrases(f"across.{self.kind}.title"),
            said=self._said(len(things)),
            columns=tuple(
                UseColumn(
                    names[place],
                    self.phrases(f"across.columns.{names[place]}"),
                    names[place] in NUMERIC,
                )
                for place in kept
            ),
            groups=tuple(replace(group, things=tuple(map(cut, group.things))) for group in groups),
            remarks=tuple(self._remarks(things)),
        )

    def _said(self, things: int) -> str:
        if not things:
            return self.phrases(f"across.{self.kind}.empty")
        jobs = sum(1 for used in self.shelf.records if getattr(used, self.kind))
        return self.phrases(
            "across.said",
            things=self.phrases.count(f"across.{self.kind}.count", things),
            jobs=self.phrases.count("across.in_jobs", jobs),
        )

    def _remarks(self, things: Sequence[ThingUsed]) -> Iterable[str]:
        if things:
            yield self.phrases(f"across.{self.kind}.remark")
            if self.kind not in _NOT_BOUGHT:
                yield self.phrases("across.cost_remark")
            if any(thing.older for thing in things):
                yield self.phrases("across.older_remark", full=FULL_OF_A_THING)
        yield from without_record(self.shelf, self.phrases)


def without_record(shelf: Shelf, phrases: Phrases) -> Iterable[str]:
    """What to say of jobs that have left no record, if there are any."""
    if shelf.without:
        yield phrases.count("across.without", shelf.without)


def _in_full(found: Mapping[str, Sequence[InJob]]) -> dict[str, int]:
    """How many jobs of each thing stand in full: the newest, within what a thing and a page may have."""
    wanted = [
        (used.day or date.min, -place, key)
        for key, jobs in found.items()
        for place, (used, _) in enumerate(jobs[:FULL_OF_A_THING])
    ]
    full = dict.fromkeys(found, 0)
    for _, _, key in sorted(wanted, reverse=True)[:FULL_OF_A_PAGE]:
        full[key] += 1
    return full


# -- names in order, and where they stand --------------------------------------------------------


def sort_key(name: str) -> str:
    """A name for sorting, capitals and accents alike."""
    return fold(name)


class Anchors:
    """Names of places on a page, each once, of letters and figures that every address takes."""

    def __init__(self) -> None:
        self._given: dict[str, int] = {}

    def of(self, name: str) -> str:
        slug = place_of(name)
        times = self._given[slug] = self._given.get(slug, 0) + 1
        return self.of(f"{slug} {times}") if times > 1 else slug
