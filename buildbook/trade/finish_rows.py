"""The tables of finishes: the families, and the words by which a name tells its kind.

In: data/finishes.csv, data/finish_kinds.csv. Out: records, handed on by `tables`.
"""

from __future__ import annotations

from functools import cache

from buildbook.trade import rows
from buildbook.trade.lookup import Found, Table, spellings, words
from buildbook.trade.records import FinishFamily, FinishKind
from buildbook.trade.rows import HALLMARK, NAMES, TableRow, named

FILMS = ("none", "thin", "film", "unknown")
CARED_AS = (
    "oiled", "food-oil", "hardwax", "exterior-oil", "exterior-film", "film", "polish", "waxed", "soap",
    "open-paint", "paint", "colour", "bare", "other",
)  # fmt: skip
FINISH_TRAITS = (
    "home", "soft", "softens", "rubber", "alcohol-dissolves", "alcohol-softens", "water-borne", "overspray",
    "isocyanate", "acid", "amine", "caustic", "nut", "sheet",
)  # fmt: skip
EXTERIOR = ("yes", "grade", "no", "bare")
FOOD = ("sold", "sheet", "no", "bare")
RATINGS = range(1, 6)
_ENDING = "…"  # marks the side on which a word may be part of a longer one


class FinishTable(Table[FinishFamily]):
    """The families. The order of words may change as with any table, but not so that the name tells another kind: an
    oil stain is a stain, a stain oil is none.
    """

    def find(self, name: str) -> Found[FinishFamily] | None:
        found, kinds = super().find(name), kinds_of(name)
        if found is None or not kinds or found.record.kind in kinds:
            return found
        record = found.record
        written = {
            next(spellings(alias)) for alias in (record.key, record.name, *record.aliases, *record.taken_for)
        }
        return found if next(spellings(name)) in written else None


def kinds_of(name: str) -> tuple[str, ...]:
    """The kinds of finish that a name tells by its words, the last of them deciding; empty where it tells none."""
    for word in reversed(words(name)):
        told = tuple(kind.key for kind in finish_kinds() if word in kind.words or word.endswith(kind.endings))
        if told:
            return told
    return ()


@cache
def finishes() -> FinishTable:
    """Finish families: common workshop practice, which the data sheet of the product overrides."""
    columns = (
        *NAMES, "kind", "cared_as", "film", "spread_low", "spread_high", "later_low", "later_high", "coats",
        "recoat_low", "recoat_high", "light_use", "full_cure_low", "full_cure_high", "voc_low", "voc_high", "heat",
        "water", "repair", "refresh_low", "refresh_high", "rags_heat", "traits", "exterior", "food", *HALLMARK,
    )  # fmt: skip
    return FinishTable(_finish(row) for row in rows.read("finishes.csv", columns))


def _finish(row: TableRow) -> FinishFamily:
    if strangers := set(row.listed("traits")) - set(FINISH_TRAITS):
        raise row.error(f"no such trait: {', '.join(sorted(strangers))}")
    light_use = row.number_or_none("light_use")
    return FinishFamily(
        **named(row),
        kind=row.one_of("kind", tuple(kind.key for kind in finish_kinds())),
        cared_as=row.one_of("cared_as", CARED_AS),
        film=row.one_of("film", FILMS),
        spread_m2_per_l=row.range_or_none("spread"),
        later_m2_per_l=row.range_or_none("later") or row.range_or_none("spread"),
        coats=int(row.number("coats")),
        recoat_h=row.range_or_none("recoat"),
        light_use_days=None if light_use is None else int(light_use),
        full_cure_days=row.range_or_none("full_cure"),
        voc_kg_per_l=row.range_or_none("voc", "g"),
        heat=_rating(row, "heat"),
        water=_rating(row, "water"),
        repair=_rating(row, "repair"),
        refresh_months=row.range_or_none("refresh"),
        rags_heat=row.yes("rags_heat"),
        traits=frozenset(row.listed("traits")),
        exterior=row.one_of("exterior", EXTERIOR),
        food=row.one_of("food", FOOD),
    )


def _rating(row: TableRow, column: str) -> int | None:
    rating = row.number_or_none(column)
    if rating is not None and rating not in RATINGS:
        raise row.error("a rating is not from 1 to 5")
    return None if rating is None else int(rating)


@cache
def finish_kinds() -> tuple[FinishKind, ...]:
    """The kinds of finishes, and the words that tell them."""
    return tuple(
        FinishKind(
            key=row.text("kind"),
            words=frozenset(_plain(word) for word in row.listed("words") if not word.startswith(_ENDING)),
            endings=tuple(
                _plain(word.removeprefix(_ENDING)) for word in row.listed("words") if word.startswith(_ENDING)
            ),
            source=row.text("source"),
            basis=row.text("basis"),
        )
        for row in rows.read("finish_kinds.csv", ("kind", "words", "source", "basis"))
    )


def _plain(word: str) -> str:
    """A word as names are compared (`lookup.words`)."""
    return "".join(words(word))
