"""What a job used, kept beside its log as used.json: woods, finishes, joints, hardware, and who sold them. Private.

The pages across the jobs of a book are made from these records alone, so that binding one job needs no other.
Figures in SI, money as it was paid, names as written; wording is for the pages (`across`, `years`).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, fields, is_dataclass
from decimal import Decimal, InvalidOperation
from typing import Any, NamedTuple, TypeVar

SCHEMA = 1
_PLACES = 9  # below a micrometre: what floats add in the last digits is noise


class Paid(NamedTuple):
    """A price and the unit that it is for, a name of `job.model.PER`."""

    price: Decimal
    per: str


class Source(NamedTuple):
    """Who sold it; `listed` where only prices.csv says so."""

    name: str
    listed: bool


class Said(NamedTuple):
    """What the maker says of a thing: a sentence of the log with its `day` (ISO 8601), or a note of a part (`of`)."""

    day: str
    of: str
    text: str


@dataclass(frozen=True, kw_only=True)
class Use:
    """A thing in one job. `key` is the same wherever it is the same thing; `name` is as the table or the maker has it.

    parts   what it was for, each name once. count: pieces. cost: of what has a price; None where nothing has.
    """

    key: str
    name: str
    parts: tuple[str, ...] = ()
    count: int = 0
    paid: tuple[Paid, ...] = ()
    cost: Decimal | None = None
    sources: tuple[Source, ...] = ()
    said: tuple[Said, ...] = ()


@dataclass(frozen=True, kw_only=True)
class WoodUse(Use):
    """A wood. Stock is what was bought by the tallies of the job (`tallied`), else what its parts call for.

    key     of the table of species; what the table does not know by the maker's own word.
    """

    net_m3: float = 0.0
    stock_m3: float = 0.0
    stock_bf: float = 0.0
    tallied: bool = False


@dataclass(frozen=True, kw_only=True)
class FinishUsed(Use):
    """A finish: `key` is its family with the product, `name` the product. `coats`: their days as ISO 8601."""

    family: str
    family_name: str
    coats: tuple[str, ...] = ()
    area_m2: float = 0.0
    litres: float | None = None


@dataclass(frozen=True, kw_only=True)
class HardwareUse(Use):
    """Hardware of one kind and size; `key` is the same for every size."""

    sides_m: tuple[float, ...] = ()


@dataclass(frozen=True, kw_only=True)
class BoughtLine:
    """One thing from one supplier. `wood`, `family`: the keys of its table, for its name in the page's language."""

    kind: str
    name: str
    wood: str = ""
    family: str = ""
    parts: tuple[str, ...] = ()
    count: int = 0
    stock_m3: float = 0.0
    stock_bf: float = 0.0
    tallied: bool = False
    area_m2: float = 0.0
    litres: float | None = None
    paid: tuple[Paid, ...] = ()
    cost: Decimal | None = None
    listed: bool = False


@dataclass(frozen=True, kw_only=True)
class SupplierUse(Use):
    """What one supplier sold for a job."""

    lines: tuple[BoughtLine, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Used:
    """What one job used. `day` is the last one as ISO 8601, maybe empty; `currency` that of all its money.

    hours       by stage, in the shop's order. joinery_h: those of the stage of joints. joints: as the job states them.
    materials   what they cost; None where none has a price. unpriced: how many have none.
    """

    key: str
    title: str
    number: str = ""
    day: str = ""
    delivered: bool = False
    currency: str
    joinery_h: float = 0.0
    joints: int | None = None
    hours: tuple[tuple[str, float], ...] = ()
    materials: Decimal | None = None
    unpriced: int = 0
    woods: tuple[WoodUse, ...] = ()
    finishes: tuple[FinishUsed, ...] = ()
    joinery: tuple[Use, ...] = ()
    hardware: tuple[HardwareUse, ...] = ()
    suppliers: tuple[SupplierUse, ...] = ()

    @property
    def year(self) -> str:
        return self.day[:4]

    @property
    def hours_h(self) -> float:
        return sum(hours for _, hours in self.hours)

    def as_json(self) -> dict[str, Any]:
        """What used.json holds; what is as by default is left out."""
        return {"schema": SCHEMA, **_told(self)}

    @classmethod
    def from_json(cls, facts: dict[str, Any]) -> Used:
        """Raises KeyError, TypeError or ValueError for what is no record."""
        if facts["schema"] != SCHEMA:
            raise ValueError("a record of another edition")
        return _made(cls, {name: value for name, value in facts.items() if name != "schema"})


# -- to JSON and back ----------------------------------------------------------------------------

T = TypeVar("T")


def _told(record: Any) -> dict[str, Any]:
    facts = {}
    for field in fields(record):
        value = getattr(record, field.name)
        if field.default is MISSING or value != field.default:
            facts[field.name] = _plain(value)
    return facts


def _plain(value: Any) -> Any:
    if is_dataclass(value):
        return _told(value)
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if isinstance(value, Decimal):
        return str(value)
    return round(value, _PLACES) if isinstance(value, float) else value


def _made(cls: type[T], facts: Mapping[str, Any]) -> T:
    """A record of its JSON: each field by the reader of its type."""
    return cls(
        **{name: _READERS.get(name, _as_it_is)(_checked(value, name)) for name, value in facts.items()}
    )


_TEXTS = frozenset(
    {"key", "title", "number", "day", "currency", "name", "family", "family_name", "kind", "wood"}
)
_FLOATS = frozenset({"joinery_h", "net_m3", "stock_m3", "stock_bf", "area_m2", "litres"})


def _checked(value: Any, name: str) -> Any:
    if name in _TEXTS and not isinstance(value, str):
        raise TypeError(f"{name} is no text")
    return float(value) if name in _FLOATS and value is not None else value


def _as_it_is(value: Any) -> Any:
    return value


def _money(text: Any) -> Decimal:
    try:
        return Decimal(str(text))
    except InvalidOperation as error:
        raise ValueError(f"{text!r} is no amount") from error


def _each(make: Callable[[Any], Any]) -> Callable[[Any], tuple[Any, ...]]:
    return lambda items: tuple(make(item) for item in items)


def _records(cls: type[T]) -> Callable[[Any], tuple[T, ...]]:
    return lambda items: tuple(_made(cls, item) for item in items)


_READERS: dict[str, Callable[[Any], Any]] = {
    "parts": _each(str),
    "coats": _each(str),
    "sides_m": _each(float),
    "hours": _each(lambda pair: (str(pair[0]), float(pair[1]))),
    "paid": _each(lambda pair: Paid(_money(pair[0]), str(pair[1]))),
    "sources": _each(lambda pair: Source(str(pair[0]), bool(pair[1]))),
    "said": _each(lambda three: Said(*map(str, three))),
    "cost": _money,
    "materials": _money,
    "lines": _records(BoughtLine),
    "woods": _records(WoodUse),
    "finishes": _records(FinishUsed),
    "joinery": _records(Use),
    "hardware": _records(HardwareUse),
    "suppliers": _records(SupplierUse),
}

__all__ = [
    "BoughtLine", "FinishUsed", "HardwareUse", "Paid", "Said", "Source", "SupplierUse", "Use", "Used", "WoodUse",
]  # fmt: skip
