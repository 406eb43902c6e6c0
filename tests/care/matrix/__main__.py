"""Prints what the matrix finds: `python -m tests.care.matrix [--deep] [--mended] [WORDS]`.

--deep    every two levels of where it stands, its glass, its fittings, whom it is for and what is near meet in every kind:
          five times as many pieces.
--mended  takes what is no longer found out of known.txt; never adds to it.
WORDS     of a line of the oracle, of a sort of fault or of a kind: shows the cases of those faults.
"""

from __future__ import annotations

import argparse
import tempfile
from collections import Counter
from pathlib import Path

from tests.care.matrix.judge import SORTS, Fault, faults, no_rules
from tests.care.matrix.known import FILE, as_rows, known
from tests.care.matrix.pieces import Case, cases, told

CASES_SHOWN = 3


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--deep", action="store_true")
    parser.add_argument("--mended", action="store_true")
    parser.add_argument("words", nargs="*")
    asked = parser.parse_args()
    tried = cases(deep=asked.deep)
    found: dict[Fault, list[Case]] = {fault: [] for fault in no_rules()}
    with tempfile.TemporaryDirectory() as folder:
        for case in tried:
            for fault in faults(told(case, Path(folder))):
                found.setdefault(fault, []).append(case)
    _report(len(tried), found, [word.casefold() for word in asked.words])
    if asked.mended:
        left = known() & found.keys()
        head = [row for row in FILE.read_text(encoding="utf-8").splitlines() if row.startswith("#")]
        FILE.write_text("\n".join(head) + "\n" + as_rows(left), encoding="utf-8")
        print(f"known.txt: {len(left)} left")


def _report(tried: int, found: dict[Fault, list[Case]], words: list[str]) -> None:
    print(f"{tried} pieces, {len(found)} faults ({len(found.keys() - known())} not known)")
    by_sort = Counter(fault.sort for fault in found)
    by_case = Counter(fault.sort for fault, in_ in found.items() for _ in in_)
    for sort in SORTS:
        print(f"  {sort:13} {by_sort[sort]:5} of a kind, {by_case[sort]:6} in all")
    if not words:
        lines = Counter((fault.sort, fault.line) for fault, in_ in found.items() for _ in in_ or [None])
        for (sort, line), count in lines.most_common():
            kinds = sorted({fault.kind for fault in found if (fault.sort, fault.line) == (sort, line)})
            print(f"{count:5} {sort} ; {line} ; {' '.join(kinds)}")
        return
    for fault, in_ in sorted(found.items()):
        if all(word in " ".join(fault).casefold() for word in words):
            print(f"{fault.sort} ; {fault.line} ; {fault.kind} ({len(in_)})")
            for case in in_[:CASES_SHOWN]:
                print(
                    "     ", ", ".join(f"{axis} {level}" for axis, level in case.items() if level != "none")
                )


if __name__ == "__main__":
    main()
