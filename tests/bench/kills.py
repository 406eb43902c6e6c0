"""Kills bindings at moments of chance, alone and with two processes, and holds what is left against what it must be.

`python -m tests.bench.kills [COUNT] [SEED]` prints how many were survived.
"""

import random
import sys
import tempfile
from pathlib import Path

from tests.book.kills import Kills, figures
from tests.book.trials import made_scene


def main(count: int, seed: int) -> int:
    bad = 0
    with tempfile.TemporaryDirectory(prefix="kills-") as top:
        scene = made_scene(Path(top))
        for processes in (1, 2):
            place = Path(top, f"with {processes}")
            place.mkdir()
            kills = Kills(scene, place, processes, random.Random(seed))
            found = list(kills.each(count // 2))
            print(f"{processes} at once, {kills.lasts_s:.2f} s long: {figures(found)}", flush=True)
            bad += sum(bool(kill.wrong) for kill in found)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(*(int(text) for text in (sys.argv[1:] + ["200", "1"][len(sys.argv) - 1 :]))))
