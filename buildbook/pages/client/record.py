"""The record of the piece: the museum label, what the Object ID checklist asks, what a maker must state with a product.

Sources: Object ID (international standard of the museum world for describing objects); Regulation (EU) 2023/988,
article 9, paragraphs 6 and 7 (name, postal and electronic address of the maker, number of the piece, instructions and
safety information); information for use of EN 12520, EN 12521 and EN 14749. The page states facts and claims no
conformity.
"""

from __future__ import annotations

from buildbook.job.model import Job
from buildbook.pages import sets
from buildbook.pages.client.piece import PieceOfSet
from buildbook.pages.materials import material_name
from buildbook.pages.phrases import Phrases, capital
from buildbook.pages.shared import Line
from buildbook.signs import in_prose
from buildbook.summary.model import Summary
from buildbook.summary.sets import each_of


def _woods_and_more(job: Job, phrases: Phrases) -> str:
    """`European oak, black walnut, slate`: what it is made of, in one line, most wood first."""
    kinds = ("wood", "stone", "glass", "upholstery")
    names = [
        in_prose(material_name(part, phrases), phrases.words)
        for kind in kinds
        for part in job.parts
        if part.kind == kind and part.for_client
    ]
    return capital(", ".join(dict.fromkeys(names)))


def museum_label(job: Job, summary: Summary, phrases: Phrases) -> tuple[Line, ...]:
    """Maker, title, year, materials, size, number: the convention of a wall label."""
    finished = job.last_day
    rows = (
        ("label.maker", _maker(job)),
        ("label.title", job.title),
        ("label.year", str(finished.year) if finished else ""),
        ("label.materials", _woods_and_more(job, phrases)),
        ("label.size", sets.each(phrases.style.size_both(*job.overall.metres), job, phrases)),
        ("set.label", _count(job, phrases)),
        ("label.number", job.number if job.quantity == 1 else ""),
    )
    return tuple(Line(phrases(key), value) for key, value in rows if value)


def _count(job: Job, phrases: Phrases) -> str:
    """How many pieces a set has, with their numbers."""
    numbers = sets.numbers_said(job)
    return phrases("set.count", count=job.quantity, numbers=numbers) if job.quantity > 1 else ""


def mass_said(job: Job, summary: Summary, phrases: Phrases) -> str:
    """What a piece weighs, and a set; empty where it is not known."""
    if not summary.mass.total_kg:
        return ""
    one, whole = (
        phrases("figures.about", value=phrases.style.mass(kg))
        for kg in (each_of(summary).mass_kg, summary.mass.total_kg)
    )
    return sets.each_and_all(one, whole, job, phrases)


def pieces_of_set(job: Job, phrases: Phrases) -> tuple[PieceOfSet, ...]:
    """Each piece of a set by its number; none for a job that makes one."""
    if job.quantity == 1:
        return ()
    days = {piece: batch.day for batch in job.batches for piece in batch.pieces}
    return tuple(
        PieceOfSet(
            place=piece,
            number=job.piece_number(piece),
            of=f"{piece}/{job.quantity}",
            delivered=day,
            delivered_said=phrases.date(day) if day else "",
        )
        for piece, day in sorted(days.items())
    )


def _maker(job: Job) -> str:
    return ", ".join(part for part in (job.shop.maker, job.shop.name) if part)


def _techniques(job: Job, summary: Summary, phrases: Phrases) -> str:
    finishes = [phrases.finish(use) for use in summary.finish]
    return capital("; ".join(part for part in (", ".join(job.joinery), ", ".join(finishes)) if part))


def record_of_the_piece(job: Job, summary: Summary, phrases: Phrases) -> tuple[Line, ...]:
    """The headings of the Object ID checklist, those that are known."""
    made = ""
    if job.begun and job.delivered and phrases.month(job.begun) != phrases.month(job.delivered):
        made = phrases(
            "record.made_between", first=phrases.month(job.begun), last=phrases.month(job.delivered)
        )
    elif job.last_day:
        made = phrases.month(job.last_day)
    rows = (
        ("record.type", capital(job.piece)),
        ("record.title", job.title),
        ("record.number", job.number),
        ("set.label", sets.every_number(job, phrases) if job.quantity > 1 else ""),
        ("record.maker", _maker(job)),
        ("record.made", made),
        ("record.delivered", sets.delivered_said(job, phrases, phrases.date)),
        ("record.measurements", sets.each(phrases.style.size_both(*job.overall.metres), job, phrases)),
        ("record.mass", mass_said(job, summary, phrases)),
        ("record.materials", _woods_and_more(job, phrases)),
        ("record.techniques", _techniques(job, summary, phrases)),
        ("record.marks", job.marks),
        ("record.features", phrases.listed(job.features)),
        ("record.description", job.description),
    )
    return tuple(Line(phrases(key), capital(value)) for key, value in rows if value)


def information_for_use(job: Job, phrases: Phrases) -> tuple[Line, ...]:
    """Intended use, fitting, adjusting and limits, as the furniture standards' information for use asks."""
    limits = list(job.limits)
    if job.contents_kg:
        load = sets.each(phrases.style.mass(job.contents_kg), job, phrases)
        limits.insert(0, phrases("information.load", mass=load))
    rows = (
        ("information.use", job.use),
        ("information.stands", phrases(f"stands.{job.stands}") if job.stands else ""),
        ("information.fitting", job.fitting),
        ("information.adjusting", job.adjusting),
        ("information.limits", "; ".join(limits)),
    )
    return tuple(Line(phrases(key), capital(value)) for key, value in rows if value)
