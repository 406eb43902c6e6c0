"""BuildLog: everything about one job, for the maker. Private: no template of the client's page ever gets it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from buildbook.care import CareItem
from buildbook.job.model import Job
from buildbook.pages import sets
from buildbook.pages.drawn.outlines import OutlineGroup, ScaleBar, outlines, scale_bar
from buildbook.pages.drawn.set_out import SetOut, set_out
from buildbook.pages.ledger import Ledger
from buildbook.pages.log.against import Against, against_of
from buildbook.pages.log.days import Day, days_of, stretches_of
from buildbook.pages.log.drawings import LogDrawing, log_drawings
from buildbook.pages.log.full_size import FullSize, full_size
from buildbook.pages.log.gathered import GatheredGroup, gathered, marked_lines
from buildbook.pages.log.onward import Bit, onward
from buildbook.pages.log.parts_again import parts_again
from buildbook.pages.log.placed import ListedProblem, placed
from buildbook.pages.log.shopping import shopping_list
from buildbook.pages.log.table_file import TableFile
from buildbook.pages.log.tables import tables_of
from buildbook.pages.log.wall import WallSheet, wall_sheet
from buildbook.pages.notice import Notice
from buildbook.pages.phrases import Phrases
from buildbook.pages.shared import Line, Picture
from buildbook.summary.model import Summary
from buildbook.summary.sets import each_of


@dataclass(frozen=True)
class StageBar:
    """Hours of a stage; `share` of the longest stage, 0 to 1, for a bar."""

    stage: str
    hours: str
    share: float


@dataclass(frozen=True)
class BuildLog:
    """The record of how a piece was made. `leads`: where a cell of a table leads by its text, seen from the top of the
    book; `joints`: the joints that the job states, with where they lead.
    """

    language: str
    key: str
    title: str
    number: str
    lead: Picture | None
    facts: tuple[Line, ...]
    stages: tuple[StageBar, ...]
    total_hours: str
    days: tuple[Day, ...]
    tables: tuple[Ledger, ...]
    cautions: tuple[Notice, ...]
    problems: tuple[ListedProblem, ...]
    wood_colours: tuple[str, str]
    outlines: tuple[OutlineGroup, ...] = ()
    outline_scale: ScaleBar | None = None
    quoted: Against | None = None
    gathered: tuple[GatheredGroup, ...] = ()
    lists: tuple[TableFile, ...] = ()
    set_out: tuple[SetOut, ...] = ()
    set_out_note: str = ""
    drawings: tuple[LogDrawing, ...] = ()
    joints: tuple[Bit, ...] = ()
    leads: Mapping[str, str] = field(default_factory=dict)
    wall: WallSheet | None = None
    full_size: FullSize | None = None

    def pictures(self) -> tuple[Picture, ...]:
        """Every photo of the log, each once."""
        return tuple(self._by_digest(with_films=False).values())

    def viewed(self) -> tuple[Picture, ...]:
        """Every picture that opens large: those of the days, then the drawings, each once."""
        drawn = {one.picture.digest: one.picture for one in self.drawings if one.picture}
        return tuple((self._by_digest(with_films=True) | drawn).values())

    def _by_digest(self, *, with_films: bool) -> dict[str, Picture]:
        shown = [self.lead] if self.lead else []
        for day in self.days:
            shown += [picture for _, picture in day.pictures]
            shown += day.strip
            shown += day.films if with_films else ()
        return {picture.digest: picture for picture in shown}

    def shown_on(self, picture: Picture) -> str:
        """The id of the day on which a picture is first shown; of all days for one that no dated day shows."""
        for day in self.days:
            if picture.digest in day.shows():
                return day.id or "days"
        drawn = [one.picture.digest for one in self.drawings if one.picture]
        return "drawings" if picture.digest in drawn else "days"


def build_log(
    job: Job,
    summary: Summary,
    care: tuple[CareItem, ...],
    phrases: Phrases,
    *,
    lead: Picture | None,
    wood_colours: tuple[str, str],
) -> BuildLog:
    """The whole log of one job."""
    leads = onward(job, summary, phrases)
    stretches = stretches_of(job, phrases)
    noted = [(one.id, one.entry) for one in stretches if one.entry]
    tables = tables_of(job, summary, phrases)
    found = placed(job.problems, tables, noted, job.photos, phrases)
    groups = gathered(noted, phrases, leads)
    longest = max((stage.hours_h for stage in summary.hours.by_stage), default=0.0)
    return BuildLog(
        language=phrases.words.language,
        key=job.key,
        title=job.title or job.key,
        number=job.number,
        lead=lead,
        facts=_facts(job, summary, phrases),
        stages=tuple(
            StageBar(
                phrases.stage(stage.stage),
                phrases.style.hours(stage.hours_h),
                stage.hours_h / longest if longest else 0.0,
            )
            for stage in summary.hours.by_stage
        ),
        total_hours=phrases.style.hours(summary.hours.total_h),
        days=days_of(job, stretches, found, phrases),
        gathered=groups,
        joints=tuple(Bit(name, leads.cells[name]) for name in job.joinery),
        leads=leads.cells,
        tables=found.below(tables),
        cautions=tuple(
            Notice(
                item.text, item.severity, phrases(f"severity.{item.severity}"), why=item.why, title=item.title
            )
            for item in care
            if item.audience in ("maker", "both")
        ),
        problems=found.listed,
        wood_colours=wood_colours,
        outlines=outlines(job, phrases),
        outline_scale=scale_bar(job, phrases),
        set_out=set_out(job, marked_lines(noted, phrases), phrases),
        set_out_note=f"{phrases('drawing.set_out.note')} {phrases('tables.unit', unit=phrases.style.units)}",
        drawings=log_drawings(job.drawings, phrases),
        quoted=against_of(summary, phrases),
        wall=wall_sheet(job, summary, phrases, wood_colours),
        full_size=full_size(job, phrases),
        lists=tuple(one for one in (parts_again(job, phrases), shopping_list(job, summary, phrases)) if one),
    )


def _facts(job: Job, summary: Summary, phrases: Phrases) -> tuple[Line, ...]:
    style = phrases.style
    rows = (
        ("log.client", job.client),
        ("log.piece", job.piece),
        ("log.begun", phrases.short_date(job.begun) if job.begun else ""),
        (
            "log.delivered",
            sets.delivered_said(job, phrases, phrases.short_date) or phrases("log.not_delivered"),
        ),
        ("set.label", _pieces(job, phrases)),
        ("log.size", sets.each(style.size_both(*job.overall.metres), job, phrases)),
        ("log.mass", _mass(job, summary, phrases)),
        ("log.tags", ", ".join(job.tags)),
        ("log.made_at", style.percent(summary.air.made_mc_pct, 1)),
        ("log.price", _price(job, summary, phrases)),
    )
    return tuple(Line(phrases(key), value) for key, value in rows if value)


def _pieces(job: Job, phrases: Phrases) -> str:
    return (
        phrases("set.count", count=job.quantity, numbers=sets.numbers_said(job)) if job.quantity > 1 else ""
    )


def _mass(job: Job, summary: Summary, phrases: Phrases) -> str:
    if not summary.mass.total_kg:
        return ""
    one, whole = (phrases.style.mass(kg, 1) for kg in (each_of(summary).mass_kg, summary.mass.total_kg))
    return sets.each_and_all(one, whole, job, phrases)


def _price(job: Job, summary: Summary, phrases: Phrases) -> str:
    each = each_of(summary).price
    if job.price is None or each is None:
        return ""
    money = phrases.style.money
    return sets.each_and_all(money(each.amount), money(job.price), job, phrases)
