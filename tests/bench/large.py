"""Large honest jobs: how long binding takes, and how that grows with rows, entries, photos and prose.

Run as `python -m tests.bench.large [WORD]`. Each job is bound in a process of its own at a quarter, half and all of its
size. An exponent of 1 grows with the job, 2 is a loop inside a loop. Photos are small
and were bound once before, so that what is timed is everything but encoding: that grows with each photo alone.
"""

import io
import math
import random
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from PIL import Image

from tests.hostile.attacks import FINISH, HEADINGS, JOB, ROW, Attack, Files
from tests.hostile.trial import lay, spent

WORDS = " ".join(
    (
        "planed the boards true and let them rest under weight before the second pass came up flat at nineteen",
        "the left stile moved a little overnight so its rail was cut again with the knife and pared to the line",
    )
).split()
WOODS = ("European oak", "black walnut", "ash", "sycamore")


def _prose(chance: random.Random, words: int) -> str:
    return " ".join(chance.choice(WORDS) for _ in range(words)).capitalize() + "."


def rows(count: int) -> Files:
    """Timber, sheets and hardware, each row another part."""
    chance = random.Random(1)
    made = []
    for n in range(count):
        wood = WOODS[n % len(WOODS)]
        if n % 10 == 8:
            made.append(
                f"Back {n},1,birch plywood,{500 + n % 900},{300 + n % 300},9,,,,,body,FI,Panel Store,46,sheet,\n"
            )
        elif n % 10 == 9:
            made.append(
                f'Hinge {n},4,"brass butt hinge, {30 + n % 60} mm",63,35,2,,,,,,,the ironmonger,9.40,each,\n'
            )
        else:
            made.append(
                f"Panel {n},{n % 4 + 1},{wood},{400 + n % 1500},{60 + n % 400},20,27,{('flat', 'quarter')[n % 2]},"
                f"{('glued', 'floating')[n % 2]},{70 + n % 400 if n % 2 else ''},body,GB,Yard {n % 9},,,{_prose(chance, 6)}\n"
            )
    return {"parts.csv": (HEADINGS + "".join(made)).encode()}


def _days(count: int, text: Callable[[int], str]) -> Files:
    days = (
        f"## 20{10 + n // 336}-{n // 28 % 12 + 1:02}-{n % 28 + 1:02} Day {n}\n\n{text(n)}\n\n"
        for n in range(count)
    )
    return {"notes.md": "".join(days).encode()}


def entries(count: int) -> Files:
    """Days of 120 words with hours, a picture and a setting; every tenth tells the client something."""
    chance = random.Random(2)

    def day(n: int) -> str:
        told = f"\n\n### For the client\n\n{_prose(chance, 40)}" if n % 10 == 0 else ""
        return (
            f"{_prose(chance, 120)}\n\nHours: milling 2.5, joinery 1 1/4\n\nSetting: fence at {n} mm.{told}"
        )

    return _days(count, day)


def _jpeg(number: int) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), (number % 256, number // 256, 99)).save(out, "JPEG", comment=b"%d" % number)
    return out.getvalue()


def photos(count: int) -> Files:
    """Photos that days show, one in ten of them to the client too."""
    made = {f"photos/img_{n:05}.jpg": _jpeg(n) for n in range(count)}

    def day(n: int) -> str:
        shown = "".join(
            f"![Step {k}](photos/img_{k:05}.jpg)\n\n" for k in range(n * 10, min(count, n * 10 + 10))
        )
        return f"Planed.\n\n{shown}" + (
            f"### For the client\n\n![The piece](photos/img_{n * 10:05}.jpg)" if n % 10 == 0 else ""
        )

    return made | _days(math.ceil(count / 10), day)


def slips(count: int) -> Files:
    """Photos of which the days name every fifth by a name that is nearly right."""
    made = photos(count)
    made["notes.md"] = b"".join(
        line.replace(b"img_", b"imgs_") if number % 5 == 0 else line
        for number, line in enumerate(made["notes.md"].splitlines(keepends=True))
    )
    return made


def prose(count: int) -> Files:
    """One day of so many words, without end."""
    chance = random.Random(3)
    return {
        "notes.md": f"## 2026-02-10 Day\n\n{chr(10).join(_prose(chance, 100) + chr(10) for _ in range(count // 100))}".encode()
    }


def told(count: int) -> Files:
    """A passage for the client of so many words."""
    chance = random.Random(4)
    text = "\n".join(_prose(chance, 100) + "\n" for _ in range(count // 100))
    return {"notes.md": f"## 2026-02-10 Day\n\n### For the client\n\n{text}".encode()}


def finishes(count: int) -> Files:
    """Finishes of three coats, each on a part of its own."""
    tables = "".join(FINISH.replace('"body"', f'"f{n}"') for n in range(count))
    parts = "".join(ROW.replace("body", f"f{n}") for n in range(count))
    return {"job.toml": (JOB + tables).encode(), "parts.csv": (HEADINGS + parts).encode()}


LARGE: dict[str, tuple[Callable[[int], Files], int]] = {
    "rows": (rows, 2000),
    "entries": (entries, 500),
    "photos": (photos, 3000),
    "slips": (slips, 3000),
    "prose": (prose, 200_000),
    "told": (told, 10_000),
    "finishes": (finishes, 40),
}


def main(word: str) -> None:
    for name, (made, most) in LARGE.items():
        if word not in name:
            continue
        took: list[float] = []
        for count in (most // 4, most // 2, most):
            with tempfile.TemporaryDirectory() as place:
                lay(Attack(name, lambda made=made, count=count: made(count)), Path(place))
                if name in ("photos", "slips"):
                    spent(Path(place))
                result = spent(Path(place))
            took.append(result.seconds)
            print(
                f"{name:9} {count:7}  {result.seconds:6.2f} s {result.megabytes:6.0f} MB  {growth(took)} {result.wrong}",
                flush=True,
            )


def growth(took: list[float]) -> str:
    """The exponent from what doubling twice added: what every job takes, whatever its size, drops out."""
    if len(took) < 3 or took[2] <= took[1] or took[1] <= took[0]:
        return ""
    return f"exponent {math.log2((took[2] - took[1]) / (took[1] - took[0])):4.2f}"


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else "")
