"""Three shops that have read the README and nothing else, and the files that each wrote first, beside this file.

`lay` puts a job down as its maker had it, with photos as a phone or a messenger leaves them; `mend` does what the first
`proof` told, and no more.
"""

from __future__ import annotations

import shutil
from pathlib import Path

from openpyxl import load_workbook
from PIL import Image

HERE = Path(__file__).parent
FOLDERS = {"desk": "2026-031-trestle-desk", "bank": "2026-08-dielenbank", "gate": "side-gate-pellew"}
_DAYS = ("0831", "0902", "0903", "0908", "0908", "0912", "0914", "0919", "0921", "0924", "1001", "1003")
_SENT = (
    "0907-WA0002",
    "0909-WA0000",
    "0909-WA0001",
    "0910-WA0004",
    "0911-WA0007",
    "0915-WA0011",
    "0918-WA0009",
)


def lay(which: str, shelf: Path) -> Path:
    """A shelf with the one job as it was first written; the job's folder."""
    job = shelf / FOLDERS[which]
    shutil.copytree(HERE / which, job)
    (job / "shop.toml").rename(shelf / "shop.toml")
    if which == "desk":
        _phone(job / "photos")
    elif which == "bank":
        (job / "stueckliste.csv").rename(job / "Stückliste.csv")  # kept by a name that every system can write
        _messenger(job / "Bilder")
    return job


def mend(which: str, job: Path) -> None:
    """What the first proof asked for, by hand."""
    facts = job / "job.toml"
    said = facts.read_text("utf-8")
    if which == "desk":
        book = load_workbook(job / "parts.xlsx")
        book.active["D20"] = "3/4"
        book.save(job / "parts.xlsx")
    elif which == "bank":
        (job / "Stückliste.csv").rename(job / "parts.csv")
        (job / "notizen.txt").rename(job / "notes.md")
        (job / "Bilder").rename(job / "photos")
        facts.write_text(said.replace("3 Personen", "240 kg"), "utf-8")
    else:
        said = said.replace('"posts"', '"floor"').replace('near      = ["sea"]\n', "")
        facts.write_text(said, "utf-8")
        rows = (job / "parts.csv").read_text("utf-8")
        rows = rows.replace("92 cover", "92").replace("Green oak", "European oak")
        (job / "parts.csv").write_text(rows, "utf-8")


def _phone(folder: Path) -> None:
    folder.mkdir()
    for number, day in enumerate(_DAYS):
        exif = Image.Exif()
        exif.get_ifd(0x8769)[0x9003] = f"2026:{day[:2]}:{day[2:]} 10:{number:02}:00"
        _picture(number).save(folder / f"IMG_{4101 + 7 * number}.JPG", exif=exif)


def _messenger(folder: Path) -> None:
    folder.mkdir()
    for number, name in enumerate(_SENT):
        _picture(number).save(folder / f"IMG-2026{name}.jpg")


def _picture(number: int) -> Image.Image:
    return Image.new("RGB", (320, 240), (90 + 9 * number, 60 + 5 * number, 40))
