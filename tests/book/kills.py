"""Bindings by real processes that are killed at moments of chance, alone or with processes of their own."""

import os
import random
import signal
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

from tests.book.trials import Attempt, Outcome, Scene, files_of

LONGEST_S = 120
PROGRAM = """
import sys
from pathlib import Path
from buildbook.book import bind as binding

if __name__ == "__main__":
    binding.WORTH_PROCESSES = 2
    shelf, book, processes = sys.argv[1:]
    print("begins", flush=True)
    binding.bind(Path(shelf), Path(book), processes=int(processes))
"""


class Kill(NamedTuple):
    """What was wrong after a program was killed. `touched`: whether it had begun to change the book, and was not done."""

    after_s: float
    touched: bool
    wrong: list[str]


@dataclass
class Kills:
    """Kills in one place. `lasts_s`: how long a binding takes from when it begins."""

    scene: Scene
    place: Path
    processes: int
    chance: random.Random
    lasts_s: float = field(init=False)

    def __post_init__(self) -> None:
        (self.place / "program.py").write_text(PROGRAM)
        self.lasts_s = self._lasts("whole")

    def _lasts(self, name: str) -> float:
        attempt = self._attempt(name)
        with self._begun(attempt) as program:
            begun = time.monotonic()
            assert program.wait(LONGEST_S) == 0
            return time.monotonic() - begun

    def _attempt(self, name: str) -> Attempt:
        place = self.place / name
        place.mkdir()
        return Attempt(self.scene, place, known=False)

    def _begun(self, attempt: Attempt) -> subprocess.Popen[str]:
        arguments = [sys.executable, self.place / "program.py", attempt.shelf, attempt.book, self.processes]
        program = subprocess.Popen(
            list(map(str, arguments)), stdout=subprocess.PIPE, text=True, start_new_session=True
        )
        assert program.stdout is not None
        assert program.stdout.readline() == "begins\n"
        return program

    def each(self, count: int) -> Iterator[Kill]:
        for number in range(count):
            attempt = self._attempt(f"{number}")
            before = files_of(attempt.book)
            after_s = self.chance.uniform(0, self.lasts_s)
            with self._begun(attempt) as program:
                time.sleep(after_s)
                os.kill(program.pid, signal.SIGKILL)
                done = program.wait(LONGEST_S) == 0
            found = files_of(attempt.book)
            touched = found != before and not done
            outcome = Outcome(None, "", ())
            yield Kill(after_s, touched, attempt.wrong(outcome, killed=True))


def figures(kills: list[Kill]) -> str:
    wrong = Counter(said for kill in kills for said in kill.wrong)
    lines = [
        f"{len(kills)} kills, {sum(kill.touched for kill in kills)} of them while the book was being changed,"
        f" {sum(not kill.wrong for kill in kills)} survived"
    ]
    return "\n".join(lines + [f"  {count} × {said}" for said, count in wrong.most_common()])
