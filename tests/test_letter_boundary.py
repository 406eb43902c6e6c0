"""Private stays in: of an estimate, nothing leaves in a letter but what `pages.letter` picks.

Every private field of enquiry, shop and estimate is planted with a canary, the records of the estimate field by field
by a walk through them, so that a field that is added later is planted too. Then the bytes of page and print are
searched, streams opened.
"""

import dataclasses
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from buildbook.estimate.model import Estimate
from buildbook.job.adds_model import Add, PartSize, Term
from buildbook.job.holding_model import Hanging, PlaceLoad, Wall
from buildbook.job.log_model import Hours, LogEntry, Passage, Picture
from buildbook.job.model import Delivery, Finish, Job, Part, Photo, Stock, Working
from buildbook.job.photo_model import DrawingFile, Video, VideoFacts
from buildbook.job.quoted import Quoted, QuotedRange, QuotedStage
from buildbook.job.shop_model import Payment, Price, Quoting, Shop
from buildbook.pages.letter.letter import ClientLetter, letter_of
from buildbook.problems import Problem
from buildbook.render.html.theme import load_theme, theme_names
from buildbook.render.print.letter import letter_pdf
from buildbook.summary.model import Money
from tests.estimates import enquiry, estimate_of, inch_shop, materials_only, of_few_jobs
from tests.leaving import fields_decided
from tests.test_boundary import opened

CANARY = "Zqwxcanary"
NUMBER = Decimal("987654.31")
COUNT = 987654
DAY = date(1987, 6, 5)
PERCENTS = {"contingency_pct": 17.31, "overhead_pct": 13.57, "margin_pct": 11.93, "week_hours": 23.71}

# -- what may leave, what is planted, what says nothing -------------------------------------------------

SHOWN = {
    record: {field for field, leaves in fields_decided()[record].items() if leaves.letter == "yes"}
    - {"parts", "shop", "finishes"}
    for record in (Job, Part, Finish, Shop, Quoting)
}
"""What a letter may show, as the tables of keys and columns say; the records in them are planted on their own."""

PRIVATE = {
    Job: {
        "folder": f"{CANARY}folder",
        "begun": DAY,
        "delivered": DAY,
        "deliveries": (Delivery(DAY, (1,)),),
        "tags": (f"{CANARY}tag",),
        "adds": (Add(f"{CANARY}sum", PartSize(f"{CANARY}part", "width"), (Term(1.0, f"{CANARY}term"),)),),
        "price": NUMBER,
        "marks": f"{CANARY}marks",
        "features": (f"{CANARY}feature",),
        "adjusting": f"{CANARY}adjusting",
        "limits": (f"{CANARY}limit",),
        "loads": (PlaceLoad(float(COUNT), f"{CANARY}place"),),
        "comes_apart": (f"{CANARY}step",),
        "may_drill": f"{CANARY}drill",
        "guarantee": f"{CANARY}guarantee",
        "joints": COUNT,
        "stages": (f"{CANARY}stage",),
        "page": f"https://{CANARY}.example/",
        "hanging": Hanging(f"{CANARY}method", None, Wall(f"{CANARY}wall")),
        "workings": (
            Working(
                "fall",
                f"{CANARY}working",
                {"run_m": 0.1, "angle_deg": 5.0},
                {"depth": f"{CANARY}written"},
                f"{CANARY}note",
            ),
        ),
        "entries": (
            LogEntry(
                DAY,
                f"{CANARY}title",
                f"{CANARY}body",
                (Passage(f"{CANARY}passage", 1),),
                (Hours(f"{CANARY}stage", float(COUNT)),),
                (Picture(f"{CANARY}.jpg", f"{CANARY}caption", True, 1, f"{CANARY}.jpg"),),
                f"{CANARY}notes.md",
            ),
        ),
        "photos": (Photo(f"{CANARY}.jpg", None, 8, 8, None, f"{CANARY}digest", f"{CANARY}caption"),),
        "lead": f"{CANARY}.jpg",
        "lead_of_job_toml": f"{CANARY}old.jpg",
        "aside": (Photo(f"{CANARY}aside.jpg", None, 8, 8, None, f"{CANARY}other", f"{CANARY}words"),),
        "videos": (
            Video(
                f"{CANARY}.mp4",
                COUNT,
                seconds=float(COUNT),
                frame=Photo(f"{CANARY}.mp4", None, 8, 8, None, f"{CANARY}frame", of_video=True),
                facts=VideoFacts("", 8, 8, f"{CANARY}frame", float(COUNT), f"{CANARY}made"),
            ),
        ),
        "drawings": (DrawingFile(f"{CANARY}.svg", None, "svg", f"{CANARY}drawn"),),
        "quoted": Quoted(
            QuotedRange(NUMBER, NUMBER, NUMBER),
            (QuotedStage(f"{CANARY}stage", f"{CANARY}driver", QuotedRange(NUMBER, NUMBER, NUMBER), COUNT),),
        ),
        "client_photos": (f"{CANARY}.jpg",),
        "problems": (Problem("warning", f"{CANARY}file", f"{CANARY}what", f"{CANARY}hint"),),
    },
    Part: {
        "name_assumed": f"{CANARY}assumed",
        "working": f"{CANARY}resaw",
        "stock": Stock(f"{CANARY}stock", 0.032),
        "fit": f"{CANARY}fit",
        "edge": f"{CANARY}edge",
        "held": f"{CANARY}held",
        "country": f"{CANARY}country",
        "supplier": f"{CANARY}supplier",
        "price": NUMBER,
        "per": "m3",
        "note": f"{CANARY}note",
    },
    Finish: {"note": f"{CANARY}finishnote", "sheen": f"{CANARY}sheen", "batch": f"{CANARY}batch"},
    Shop: {
        "pages_at": f"https://{CANARY}.example/",
        "guarantee": f"{CANARY}shopguarantee",
        "hour_rate": NUMBER,
        "stages": (f"{CANARY}shopstage",),
        "prices": (Price(f"{CANARY}material", NUMBER, "each", DAY, f"{CANARY}supplier"),),
    },
    Quoting: {**PERCENTS, "round_to": NUMBER, "booked_until": DAY, "valid_days": float(COUNT)},
}

SAYS_NOTHING = {
    Job: {
        "units", "stands", "climate", "made_at", "near", "crosses_border", "goes_to_code", "food", "children", "doors", "drawers", "finishes", "parts", "shop",
        "parts_for", "cards",
    },
    Part: {"row", "kind", "length", "tenons", "width", "wall", "round", "cut", "opening", "faces", "finish", "finish_assumed", "mass_kg", "country_code", "for_client"},
    Finish: {
        "key", "coats", "spread_m2_per_l", "voc_g_per_l", "light_use_days", "full_cure_days", "refresh_months", "two_part",
        "food_safe", "wear", "exterior", "over", "later_m2_per_l",
    },
    Shop: {"country", "country_code", "language", "units", "theme", "themes_in_jobs", "both_systems", "waste", "climate", "made_at", "card", "quoting"},
    Quoting: {"voice"},
}  # fmt: skip
"""Choices, flags and sizes that steer a letter without standing in it, and the records planted on their own."""

HIDDEN = (
    Part(901, f"{CANARY}hidden", 2, "wood", f"{CANARY}wood", origin=f"{CANARY}origin", for_client=False, faces="none"),
    Part(902, f"{CANARY}hidden", 1, "wood", "black walnut", "black-walnut", for_client=False, faces="none"),
    Part(903, f"{CANARY}hidden", 1, "panel", f"{CANARY}sheet", for_client=False),
    Part(904, f"{CANARY}hidden", 1, "glass", f"{CANARY}glass", for_client=False),
    Part(905, f"{CANARY}hidden", 1, "stone", f"{CANARY}stone", origin=f"{CANARY}quarry", for_client=False),
    Part(906, f"{CANARY}hidden", 1, "hardware", f"{CANARY}hinge", for_client=False),
    Part(907, f"{CANARY}hidden", 1, "upholstery", f"{CANARY}leather", for_client=False),
    Part(908, f"{CANARY}glue", 1, "supply", f"{CANARY}epoxy", for_client=False),
    Part(909, f"{CANARY}hidden", 1, "wood", "black walnut", "black-walnut", finish="secret", for_client=False),
)  # fmt: skip


@pytest.mark.parametrize("record", SHOWN, ids=lambda record: record.__name__)
def test_every_field_was_thought_about(record):
    """A field that is new has to be shown, planted, or said to say nothing."""
    named = [*SHOWN[record], *PRIVATE[record], *SAYS_NOTHING[record]]
    assert sorted(named) == sorted(field.name for field in dataclasses.fields(record))


def planted(value):
    """A record with a canary in each of its texts and figures; its days and what is counted, too."""
    if dataclasses.is_dataclass(value):
        return replace(value, **{f.name: planted(getattr(value, f.name)) for f in dataclasses.fields(value)})
    if isinstance(value, tuple):
        return tuple(planted(one) for one in value) or (CANARY,)
    if isinstance(value, bool) or value is None:
        return value
    kinds = {
        str: f"{CANARY}text",
        float: float(NUMBER),
        int: COUNT,
        Decimal: NUMBER,
        date: DAY,
    }
    return kinds[type(value)]


def canary_job(shop: Shop, name: str) -> Job:
    job = enquiry(name)
    parts = tuple(replace(part, **PRIVATE[Part]) for part in job.parts) + HIDDEN
    secret = Finish("secret", "shellac", f"{CANARY}product")
    finishes = (*(replace(finish, **PRIVATE[Finish]) for finish in job.finishes), secret)
    shop = replace(shop, **PRIVATE[Shop], quoting=replace(shop.quoting, **PRIVATE[Quoting]))
    return replace(job, **PRIVATE[Job], parts=parts, finishes=finishes, shop=shop)


def canary_estimate(shop: Shop, name: str) -> Estimate:
    """An estimate whose price, dates and enquiry say what they say, and whose every other field is a canary."""
    estimate = estimate_of(canary_job(shop, name))
    kept = {"enquiry", "summary", "day", "price", "lead", "holds_until"}
    others = {
        f.name: planted(getattr(estimate, f.name)) for f in dataclasses.fields(estimate) if f.name not in kept
    }
    price = replace(estimate.price, lines=planted(estimate.price.lines))
    return replace(estimate, **others, price=price)


def few(estimate: Estimate) -> Estimate:
    return of_few_jobs(estimate)


def only_materials(estimate: Estimate) -> Estimate:
    """Without a price, the sums of the materials may leave, and only they."""
    currency = estimate.enquiry.shop.currency
    low, amount, high = (Money(Decimal(n), currency) for n in (410, 478, 563))
    return materials_only(
        replace(estimate, materials=replace(estimate.materials, low=low, amount=amount, high=high))
    )


ESTIMATES = {
    "press": canary_estimate(enquiry("linen-press").shop, "linen-press"),
    "press, few past jobs": few(canary_estimate(enquiry("linen-press").shop, "linen-press")),
    "press, materials only": only_materials(canary_estimate(enquiry("linen-press").shop, "linen-press")),
    "bench": canary_estimate(enquiry("low-bench").shop, "low-bench"),
    "inches": canary_estimate(inch_shop(), "side-table-in"),
}


def forms(number: str) -> set[str]:
    """How an amount may be written: grouped by any mark, with either decimal mark, with or without coins."""
    whole, _, rest = number.partition(".")
    groups = (
        {mark.join((whole[:3], whole[3:])) for mark in ("", ",", ".", " ", "\u202f")}
        if len(whole) > 3
        else {whole}
    )
    return {g for g in groups if len(whole) > 3} | {
        f"{g}{mark}{rest}" for g in groups for mark in ".," if rest
    }


NEEDLES = {
    CANARY,
    CANARY.lower(),
    CANARY.upper(),
    str(DAY.year),
    "walnut",
    "Walnut",
    "Juglans",
    *forms(str(NUMBER)),
    *(form for percent in PERCENTS.values() for form in forms(str(percent))),
}


def leaving(letter: ClientLetter) -> dict[str, bytes]:
    """The bytes that leave the shop, by what they are."""
    out = {f"{theme}.html": load_theme(theme).letter_page(letter).encode() for theme in theme_names()}
    return {**out, "letter.pdf": letter_pdf(letter, load_theme("oilstone")).pdf}


def leaks(letter: ClientLetter) -> list[str]:
    found = []
    for name, content in leaving(letter).items():
        inside = opened(content, name)
        for needle in NEEDLES:
            coded = (needle.encode(), needle.encode("utf-16-le"), needle.encode("utf-16-be"))
            if any(form in inside for form in coded):
                found.append(f"{needle} in {name}")
    return found


@pytest.mark.parametrize("name", ESTIMATES)
def test_nothing_private_is_in_any_byte_of_the_letter(name):
    assert leaks(letter_of(ESTIMATES[name])) == []


@pytest.mark.parametrize("name", ESTIMATES)
def test_nothing_private_is_in_the_model_itself(name):
    text = repr(letter_of(ESTIMATES[name]))
    assert {needle for needle in NEEDLES if needle in text} == set()


def test_the_canaries_were_really_there():
    """The walk reaches every record of an estimate, and each private field of enquiry and shop holds its own."""
    text = repr(ESTIMATES["press"])
    assert text.count(str(COUNT)) > 50
    for record in ("hours", "materials", "like", "backtest", "problems"):
        assert CANARY in repr(getattr(ESTIMATES["press"], record)), record
    for fields in PRIVATE.values():
        for field, value in fields.items():
            assert repr(value) in text or str(value) in text, field


@pytest.mark.parametrize("theme", theme_names())
def test_the_search_finds_what_is_shown(theme):
    """The client's name may stand there: the same search finds it in the page, and in the print only when opened."""
    estimate = ESTIMATES["press"]
    loud = replace(estimate, enquiry=replace(estimate.enquiry, client=CANARY, price=NUMBER))
    price = replace(estimate.price, median=Money(NUMBER, "EUR"))
    letter = letter_of(replace(loud, price=price))
    found = set(leaks(letter))
    assert {f"{CANARY} in {theme}.html", f"{CANARY} in letter.pdf"} <= found
    assert {f"987,654.31 in {theme}.html", "987,654.31 in letter.pdf"} <= found
    assert CANARY.encode() not in leaving(letter)["letter.pdf"]


def test_the_payments_are_those_of_the_estimate_only():
    """The shares that a shop asks for reach the letter as sums, not by way of its settings."""
    estimate = ESTIMATES["press"]
    shop = estimate.enquiry.shop
    quoting = replace(shop.quoting, payments=(Payment(f"{CANARY}when", 17.31),))
    job = replace(estimate.enquiry, shop=replace(shop, quoting=quoting))
    assert leaks(letter_of(replace(estimate, enquiry=job))) == []
