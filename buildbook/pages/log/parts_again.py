"""The parts of a job as a table that reads back: put into a job as parts.csv or parts.xlsx, it gives the same parts.

In: a job. Out: a row a part, under the headings of parts.csv in the language of the shop. Sizes are figures in the unit
of the job, with all the digits that give the same size again; the counts are for what `parts_for` says.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from decimal import Context, Decimal
from fractions import Fraction

from buildbook.job.model import Job, Part
from buildbook.job.table.headings import PARTS, PARTS_HEADINGS, bare
from buildbook.job.table.parts import CHOICES, material_of, usual_faces
from buildbook.job.table.shoulders import says_between
from buildbook.job.table.sizes import read_layers
from buildbook.pages.log.table_file import Cell, TableFile, table_file
from buildbook.pages.phrases import Phrases
from buildbook.quantity import Length, QuantityError
from buildbook.quantity.units import LENGTH_UNITS

CUT_LIST = "cut-list"
_MOST_DIGITS = 17  # significant ones: what any float is told by
_ALWAYS = ("part", "qty", "material")  # columns that reading asks for
_Row = Mapping[str, Cell]


def parts_again(job: Job, phrases: Phrases) -> TableFile | None:
    """The table; None of a job without parts."""
    rows = [_row(part, job, phrases) for part in job.parts]
    columns = tuple(PARTS)
    return table_file(
        (CUT_LIST, phrases("lists.cut_list"), phrases("lists.sheets.parts")),
        [_heading(column, job.units, phrases) for column in columns],
        [[row.get(column, "") for column in columns] for row in rows],
        phrases.style.decimal,
        always=[columns.index(column) for column in _ALWAYS],
    )


def _heading(column: str, units: str, phrases: Phrases) -> str:
    """The heading of a column in the language of the page; its name in parts.csv where that would not be read."""
    said = phrases(f"lists.parts.{column}")
    found = PARTS_HEADINGS.find(said)
    name = said if found and found.column == column else column
    unit = {"length": units, "mass": "kg"}.get(PARTS[column].reads, "")
    return f"{name} ({unit})" if unit else name


def _row(part: Part, job: Job, phrases: Phrases) -> _Row:
    return {
        "part": part.name,
        "qty": part.qty // job.quantity if job.parts_for == "each" else part.qty,
        "kind": _kind(part, job, phrases),
        "material": part.material,
        **_sizes(part, job.units, phrases),
        "stock": _stock(part, job.units, phrases.style.decimal),
        "working": part.working,
        "cut": _choice("cut", part.cut, phrases) if part.cut else "",
        "fit": part.fit,
        "edge": part.edge,
        "held": part.held,
        "opening": _length(part.opening, job.units),
        "faces": _choice("faces", part.faces, phrases) if part.faces != usual_faces(part.kind) else "",
        "finish": "" if part.finish_assumed else part.finish,
        "mass": _plain(Decimal(repr(part.mass_kg))) if part.mass_kg is not None else "",
        "origin": part.origin,
        "country": part.country_code or part.country,
        "supplier": part.supplier,
        "price": _plain(part.price) if part.price is not None else "",
        "per": part.per,
        "client": _client(part, phrases),
        "note": part.note,
    }


def _choice(column: str, value: str | bool, phrases: Phrases) -> str:
    """A word of a few in the language of the page; as parts.csv knows it where that would not be read."""
    name = {True: "yes", False: "no"}[value] if isinstance(value, bool) else value
    said = phrases(f"lists.{column}.{name.replace(' ', '_')}")
    return said if CHOICES[column].get(bare(said)) == value else name


def _kind(part: Part, job: Job, phrases: Phrases) -> str:
    """Empty where it follows from the material alone, and saying it would make another material of it."""
    known = material_of(part.kind, (part.name, part.material), job.shop.place)
    return _choice("kind", part.kind, phrases) if (known.key if known else "") == part.key else ""


def _client(part: Part, phrases: Phrases) -> str:
    usual = part.kind != "supply"
    return _choice("client", part.for_client, phrases) if part.for_client != usual else ""


# -- sizes ---------------------------------------------------------------------------------------


def _sizes(part: Part, units: str, phrases: Phrases) -> _Row:
    """The sides; of what is round its diameter and the side that is none."""
    sides: dict[str, Cell] = {
        "length": _over_all(part, units, phrases),
        "tenons": _length(part.tenons, units),
        "width": _length(part.width, units),
        "thickness": _length(part.thickness, units),
        "wall": _length(part.wall, units),
    }
    if part.round:
        sides["dia"] = sides["width"]
        sides["width"] = sides["thickness" if part.round == "rod" else "length"] = ""
    return sides


def _over_all(part: Part, units: str, phrases: Phrases) -> Cell:
    """The length over all; between shoulders where the fit or the note says so, or it would be read as that."""
    length, tenons = part.length, part.tenons
    if length is None or tenons is None or not (says_between(part.fit) or says_between(part.note)):
        return _length(length, units)
    between = _figure(length.m - tenons.m, units, lambda m: m + tenons.m == length.m)
    return f"{_written(between, phrases.style.decimal)} {phrases('lists.between_shoulders')}"


def _length(length: Length | None, units: str) -> Cell:
    return "" if length is None else _figure(length.m, units, lambda m: m == length.m)


def _figure(m: float, units: str, is_it: Callable[[float], bool]) -> Decimal:
    """A length in a unit, with as few digits as give the same one when it is read."""
    factor = LENGTH_UNITS[units]
    exact = Fraction(m) / factor
    for digits in range(1, _MOST_DIGITS + 1):
        tried = Context(prec=digits).divide(Decimal(exact.numerator), Decimal(exact.denominator))
        if is_it(float(Fraction(tried) * factor)):
            break
    return _plain(tried)


def _stock(part: Part, units: str, decimal: str) -> str:
    """The thickness that was bought as it was written, if that says the same among these headings."""
    if part.stock is None:
        return ""
    stock = part.stock
    try:
        layers, one = read_layers(stock.told, units, decimal_comma=decimal == ",")
        if (layers, one.m) == (stock.layers, stock.thickness_m):
            return stock.told
    except QuantityError:
        pass
    exact = _figure(stock.thickness_m, units, lambda m: m == stock.thickness_m)
    return replace(stock, written=f"{_written(exact, decimal)} {units}").told


def _plain(number: Decimal) -> Decimal:
    """The same figure, without an exponent and without zeros at its end that a table has no use for."""
    whole = number.to_integral_value()
    return whole.quantize(Decimal(1)) if number == whole else number.normalize()


def _written(number: Decimal, decimal: str) -> str:
    return format(number, "f").replace(".", decimal)
