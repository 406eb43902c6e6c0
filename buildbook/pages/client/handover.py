"""Builds the `ClientPiece` of a job: picks what may leave and puts it into words.

The one place where something private could slip into the handover: everything here is chosen by name, nothing copied
whole. Rows marked `client = no` give no name, material or note to the page; their mass and wood count in the totals.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from buildbook.care import CareItem, Happening
from buildbook.care.piece import piece_of
from buildbook.job.log_model import LogEntry
from buildbook.job.model import Job, Photo
from buildbook.job.slug import slug
from buildbook.pages import sets
from buildbook.pages.client.due import due_dates
from buildbook.pages.client.gloss import gloss
from buildbook.pages.client.loads import TELL_IT_ALL, loads
from buildbook.pages.client.panes import panes
from buildbook.pages.client.piece import (
    Advice,
    ClientPiece,
    Measures,
    Moving,
    Seasons,
    Told,
)
from buildbook.pages.client.record import (
    information_for_use,
    mass_said,
    museum_label,
    pieces_of_set,
    record_of_the_piece,
)
from buildbook.pages.client.spares import fittings, spares
from buildbook.pages.client.stories import finish_stories
from buildbook.pages.client.times import (
    advice_of,
    care_groups,
    dangers,
    day_one,
    everyday,
    first_weeks,
    moved_or_changed,
    of_season,
)
from buildbook.pages.drawn.finish_line import finish_lines
from buildbook.pages.drawn.front import front_view
from buildbook.pages.drawn.year import YearOfSeasons, dial, year_of_seasons
from buildbook.pages.materials import materials, others_of, timber_statement, wood_colours, wood_of
from buildbook.pages.phrases import Phrases
from buildbook.pages.shared import Line, Picture, contact_of
from buildbook.summary.model import Movement, Summary
from buildbook.summary.place import is_outdoors
from buildbook.summary.seasons import all_checked
from buildbook.summary.sets import each_of

_MOVING_PARTS_SHOWN = 3  # the widest say it all; the build log lists every one
_WORTH_A_LINE_M = 0.001  # a part that moves less has none of its own
_SHOWN_M = 0.00005  # less is nought to a tenth of a millimetre
_WORTH_SAYING_M = 0.0002  # a fifth of a millimetre: less is nothing to an owner


def client_piece(
    job: Job,
    summary: Summary,
    care: tuple[CareItem, ...],
    phrases: Phrases,
    happens: tuple[Happening, ...] = (),
) -> ClientPiece:
    """All that may leave the shop about this job."""
    lead, told, gallery = _pictures(job, phrases)
    for_client = [item for item in care if item.audience in ("client", "both")]
    hardware, glass = fittings(job, summary, phrases), panes(job, summary, phrases)
    advice = {item.key: advice_of(item, phrases) for item in for_client}
    at_first = first_weeks(job, summary, for_client, phrases)
    first_of_all = dangers(for_client, advice)
    made_of = materials(job, phrases)
    told_there = {told.key for told in first_of_all}
    rest = [item for item in for_client if item.key not in told_there]
    piece = ClientPiece(
        language=phrases.words.language,
        title=job.title,
        number=job.number,
        kind=job.piece,
        introduction=job.description,
        for_what=job.use,
        lead=lead,
        label=museum_label(job, summary, phrases),
        day_one=day_one(for_client, phrases),
        first_weeks=at_first,
        dangers=first_of_all,
        everyday=everyday(rest, advice, phrases),
        care=care_groups(rest, advice, at_first, phrases),
        moving=moved_or_changed(rest, advice, phrases),
        another=of_season(rest, advice, "another"),
        passing=of_season(rest, advice, "passing"),
        seasons=_seasons(job, summary, phrases, of_season(rest, advice, "seasons")),
        finishes=finish_stories(job, summary, phrases),
        mending=of_season(rest, advice, "mend"),
        materials=made_of,
        figures=_figures(job, summary, phrases),
        hardware=hardware,
        panes=glass,
        story=told,
        gallery=gallery,
        record=record_of_the_piece(job, summary, phrases),
        information=information_for_use(job, phrases),
        timber_statement=timber_statement(job, summary, phrases),
        cautions=of_season(rest, advice, "caution"),
        contact=contact_of(job),
        measures=_measures(job, summary),
        due=due_dates(job, summary, for_client, phrases),
        wood_colours=wood_colours(job, summary),
        year=_year(job, summary, phrases),
        dial=dial(job, summary, phrases),
        finish_lines=finish_lines(job, summary, phrases),
        front=front_view(job, phrases),
        page_address=_page_address(job),
        dated=job.last_day,
        numbers=sets.numbers_said(job) if job.quantity > 1 else "",
        pieces=pieces_of_set(job, phrases),
        set_said=sets.of_set("set.said", job, phrases, numbers=sets.numbers_said(job))
        if job.quantity > 1
        else "",
        cards_each=job.cards == "each" and job.quantity > 1,
        happens=happens,
        loads=loads(job, phrases, in_all=not told_there & TELL_IT_ALL),
        others=others_of(made_of, phrases),
        comes_apart=job.comes_apart,
        may_drill=job.may_drill,
        guarantee=job.guaranteed,
        spares=spares(job, hardware, glass, phrases),
    )
    return replace(piece, gloss=gloss(piece, phrases))


# -- pictures and passages ---------------------------------------------------------------------------


def picture_of(photo: Photo, caption: str, alt: str) -> Picture:
    """A picture with its caption. The alternative text says what it is, never the caption again: that stands beside it,
    and whoever listens would hear it twice.
    """
    return Picture(photo.digest, photo.width, photo.height, alt, caption)


def _captions(entries: Iterable[LogEntry]) -> dict[str, str]:
    """The captions that may leave: those of pictures in passages for the client."""
    return {
        shown.name: shown.caption
        for entry in entries
        for shown in entry.pictures
        if shown.for_client and shown.caption
    }


def _pictures(job: Job, phrases: Phrases) -> tuple[Picture | None, tuple[Told, ...], tuple[Picture, ...]]:
    by_name = {photo.name: photo for photo in job.photos}
    captions = _captions(job.entries)
    of_piece = phrases("client.picture", title=job.title.strip() or phrases("client.picture_of_piece"))

    def picture(name: str) -> Picture:
        return picture_of(by_name[name], captions.get(name, ""), of_piece)

    told = []
    shown_in_story: set[str] = set()
    for entry in job.entries:
        for passage in entry.for_client:
            named = [p for p in entry.pictures if p.for_client and p.name in by_name]
            shown_in_story.update(p.name for p in named)
            day = phrases.date(entry.day)
            told.append(
                Told(
                    day=day,
                    markdown=passage.markdown,
                    pictures=tuple(
                        (
                            p.reference,
                            picture_of(by_name[p.name], p.caption, phrases("client.picture_of_day", day=day)),
                        )
                        for p in named
                    ),
                )
            )
    chosen = [name for name in job.client_photos if name in by_name]
    lead_name = job.lead if job.lead in by_name else next(iter(chosen), None)
    if lead_name is None:
        lead_name = next(
            (p.name for e in job.entries for p in e.pictures if p.for_client and p.name in by_name), None
        )
    gallery = tuple(picture(n) for n in chosen if n != lead_name and n not in shown_in_story)
    return (picture(lead_name) if lead_name else None), tuple(told), gallery


# -- figures -----------------------------------------------------------------------------------------


def _moving_rows(job: Job, summary: Summary) -> list[Movement]:
    """What a client is told of how parts move: the rows that may leave and say something, the largest swing first.
    None of what is washed up: water moves it more than the seasons do.
    """
    if "washed-up" in piece_of(job).has:
        return []
    hidden = {part.row for part in job.parts if not part.for_client}
    rows = [
        row
        for row in summary.movement
        if row.row not in hidden and max(row.grows_m, row.shrinks_m) >= _WORTH_SAYING_M
    ]
    return sorted(rows, key=lambda row: -(row.grows_m + row.shrinks_m))


def _year(job: Job, summary: Summary, phrases: Phrases) -> YearOfSeasons | None:
    rows = _moving_rows(job, summary)
    return year_of_seasons(job, summary, rows[0], phrases) if rows else None


def _seasons(job: Job, summary: Summary, phrases: Phrases, advice: tuple[Advice, ...]) -> Seasons:
    air, style = summary.air, phrases.style
    rows = _moving_rows(job, summary)
    told = [row for row in rows if row.grows_m + row.shrinks_m >= _WORTH_A_LINE_M]
    moving = tuple(
        Moving(
            part=row.part,
            wood=wood_of(job, row, phrases),
            sentence=phrases(
                _moves(row),
                part=row.part,
                width=style.length(row.width_m),
                grows=style.small(row.grows_m),
                shrinks=style.small(row.shrinks_m),
            ),
            width_m=row.width_m,
            grows_m=row.grows_m,
            shrinks_m=row.shrinks_m,
        )
        for row in told[:_MOVING_PARTS_SHOWN]
    )
    if not any(part.kind == "wood" for part in job.parts):
        return Seasons(advice=advice)
    out = "_outdoors" if is_outdoors(job) else ""
    sentences = [phrases(f"seasons.why{out}")]
    if rows and not told:
        sentences.append(phrases("seasons.little", most=style.small(_WORTH_A_LINE_M)))
    if rows:
        low, high = style.number(air.rh_low_pct), style.percent(air.rh_high_pct)
        sentences.append(phrases(f"seasons.air{out}", low=low, high=high))
        sentences += [phrases(f"seasons.{said}") for said in _allows_for_it(job, summary.movement)]
    return Seasons(tuple(sentences), moving, air.rh_low_pct, air.rh_high_pct, advice)


def _moves(row: Movement) -> str:
    """The sentence of a moving part: a way that it does not go is not told as nought."""
    if row.shrinks_m < _SHOWN_M:
        return "seasons.part_grows"
    return "seasons.part_shrinks" if row.grows_m < _SHOWN_M else "seasons.part"


def _allows_for_it(job: Job, movement: tuple[Movement, ...]) -> Iterable[str]:
    """That gaps come and go is said of any wood; that the piece was built for it only where each part was checked, and
    neither where the figures deny it.
    """
    if all_checked(job, movement):
        yield "built"
    if all(row.ok is not False for row in movement):
        yield "usual"


def _figures(job: Job, summary: Summary, phrases: Phrases) -> tuple[Line, ...]:
    style = phrases.style
    lines = []
    if size := style.size_both(*job.overall.metres):
        lines.append(
            Line(phrases("figures.size"), sets.each(size, job, phrases), phrases("figures.size_note"))
        )
    if summary.mass.total_kg:
        note = phrases("figures.mass_two_people") if each_of(summary).mass_kg > 25 else ""
        lines.append(Line(phrases("figures.mass"), mass_said(job, summary, phrases), note))
    if job.contents_kg:
        carries = phrases("figures.up_to", value=style.mass(job.contents_kg))
        lines.append(Line(phrases("figures.contents"), sets.each(carries, job, phrases)))
    if summary.carbon.stored_kg_co2:
        kept = [style.mass(kg) for kg in (each_of(summary).stored_kg_co2, summary.carbon.stored_kg_co2)]
        lines.append(
            Line(
                phrases("figures.carbon"),
                phrases("figures.carbon_value", value=sets.each_and_all(kept[0], kept[1], job, phrases)),
                phrases("figures.carbon_note"),
            )
        )
    if moving := _moving_rows(job, summary):
        swing = phrases("figures.up_to", value=style.small(moving[0].grows_m + moving[0].shrinks_m))
        lines.append(Line(phrases("figures.movement"), swing, phrases("figures.movement_note")))
    return tuple(lines)


def _page_address(job: Job) -> str:
    """Where the page will be on the web: what the job says, else its slug where the shop puts its pages. Empty where
    neither is known: a piece without a name would be given the address of another.
    """
    if job.page or not job.shop.pages_at:
        return job.page
    own = slug(job.number, job.title)
    return f"{job.shop.pages_at.rstrip('/')}/{own}/" if own else ""


def _measures(job: Job, summary: Summary) -> Measures:
    width_m, depth_m, height_m = job.overall.metres
    return Measures(
        width_m=width_m,
        depth_m=depth_m,
        height_m=height_m,
        mass_kg=each_of(summary).mass_kg or None,
        stored_kg_co2=each_of(summary).stored_kg_co2 or None,
    )
