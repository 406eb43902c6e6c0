"""The faults that are known and not mended yet: a list that may only shrink.

known.txt has a line for what is wrong and the kinds of piece that it is wrong for. A fault that is not on it fails the
suite, and so does one on it that is no longer found: then `python -m tests.care.matrix --mended` takes it out.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from tests.care.matrix.judge import SORTS, Fault

FILE = Path(__file__).resolve().parent / "known.txt"


def known() -> frozenset[Fault]:
    """The faults of known.txt."""
    found = set()
    for row in FILE.read_text(encoding="utf-8").splitlines():
        if row and not row.startswith("#"):
            sort, line, kinds = row.split(" ; ")
            found.update(Fault(sort, line, kind) for kind in kinds.split())  # type: ignore[arg-type]
    return frozenset(found)


def as_rows(faults: Iterable[Fault]) -> str:
    """Faults as known.txt has them: the kinds of each together."""
    together: dict[tuple[str, str], set[str]] = {}
    for fault in faults:
        together.setdefault((fault.sort, fault.line), set()).add(fault.kind)
    order = sorted(together, key=lambda one: (SORTS.index(one[0]), one[1]))  # type: ignore[arg-type]
    return "".join(f"{sort} ; {line} ; {' '.join(sorted(together[sort, line]))}\n" for sort, line in order)
