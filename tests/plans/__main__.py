"""Prints how much of each plan stands in the log, before and today: `python -m tests.plans [--missing]`.

`--missing` names each line that does not.
"""

import sys
import tempfile
from pathlib import Path

from tests.plans.needed import JOBS, counted, log_text, plan, source


def main() -> None:
    before, today = [], []
    for piece, job in JOBS.items():
        lines = plan(piece)
        with tempfile.TemporaryDirectory() as book:
            text = log_text(job, Path(book))
        states = [source(line, text) for line in lines]
        print(f"{piece:10} {len(lines):3} lines  before {counted([line.before for line in lines])}")
        print(f"{'':10} {'':9}  today  {counted(states)}")
        if "--missing" in sys.argv:
            for line, state in zip(lines, states, strict=True):
                if state != "log":
                    print(
                        f"    {state:9} {line.area}: {line.needed}" + (f" ({line.how})" if line.how else "")
                    )
        before += [line.before for line in lines]
        today += states
    print(f"{'all':10} {len(today):3} lines  before {counted(before)}")
    print(f"{'':10} {'':9}  today  {counted(today)}")


if __name__ == "__main__":
    main()
