"""Three rows of parts.csv as examples of a new piece, by its kind: of the maker's wood, a pane where there is glass,
what holds it where it hangs.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from buildbook.job.begin.texts import data, filled, spoken, words
from buildbook.job.begin.wishes import Settled
from buildbook.job.table.headings import PARTS_HEADINGS
from buildbook.job.table.materials import infer_material
from buildbook.trade.kinds import every_key

ROWS = 3
_ANY = "any"
_SIDES = ("length", "width", "thickness")
_UNFINISHED = ("glass", "hardware")


def parts_csv(piece: Settled, finish_key: str) -> str:
    """The file: the headings of the language, and the rows under them."""
    head = filled("parts.csv", piece.language, piece.facts, {})
    separator = ";" if ";" in head else ","
    columns = [PARTS_HEADINGS.find(text) for text in head.strip().split(separator)]
    written = io.StringIO()
    writer = csv.writer(written, delimiter=separator, lineterminator="\n")
    for number, row in enumerate(_chosen(piece)):
        cells = _cells(row, number, piece, finish_key)
        writer.writerow([cells.get(heading.column, "") if heading else "" for heading in columns])
    return head + written.getvalue()


def _chosen(piece: Settled) -> list[dict[str, str]]:
    """Two parts and a third that is particular to the piece."""
    plain = next(rows for key in _keys(piece) if (rows := _of(key, "")))[:ROWS]
    if "glass" in piece.facts:
        wanted = ["glass-door", "glass"] if "doors" in piece.facts else ["glass"]
    else:
        wanted = ["hangs"] if "hangs" in piece.facts else []
    third = [row for when in wanted for key in _keys(piece) for row in _of(key, when)]
    return [*plain[: ROWS - 1], *(third or plain[ROWS - 1 :])][:ROWS]


def _keys(piece: Settled) -> tuple[str, ...]:
    family = piece.kind.family if piece.kind else _ANY
    return (*every_key(piece.kind), family, _ANY)


def _of(key: str, when: str) -> list[dict[str, str]]:
    return [row for row in _table() if row["for"] == key and row["when"] == when]


def _table() -> Iterator[dict[str, str]]:
    text = data().joinpath("examples.csv").read_text("utf-8")
    yield from csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))


def _cells(row: dict[str, str], number: int, piece: Settled, finish_key: str) -> dict[str, str]:
    language = spoken(piece.language)
    sides = row[piece.units].split(" x ") if row[piece.units] else []
    wood = piece.woods[min(number, len(piece.woods) - 1)]
    known = infer_material(wood) if row["kind"] == "wood" else None
    return {
        "part": row[language],
        "qty": row["qty"],
        "kind": known.kind if known else row["kind"],
        "material": row[f"{language}_material"] or wood,
        "fit": row["fit"],
        "finish": "" if row["kind"] in _UNFINISHED else finish_key,
        "note": words(piece.language)["note"],
        **dict(zip(_SIDES, sides, strict=False)),
    }
