"""Draws the shelf's photos again: small JPEGs of nothing but wood and light, each from its own seed.

Run from anywhere: `python make_photos.py`. The committed files are what the tests read; the times here are what the
camera wrote, so every photo is dated to a day of its job's log. Needs Pillow.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from PIL import Image, ImageDraw, ImageFilter

SHELF = Path(__file__).resolve().parent
LARGEST_BYTES = 4096
EXIF_FOLDER, TAKEN = 0x8769, 0x9003

WOODS = {
    "ash": (222, 198, 158),
    "walnut": (104, 74, 54),
    "iroko": (150, 104, 58),
    "sycamore": (232, 220, 194),
    "oak": (112, 88, 62),
    "grey paint": (172, 174, 166),
    "cherry": (176, 112, 74),
    "cocobolo": (126, 58, 40),
}
"""Colours of planed boards, sRGB."""


@dataclass(frozen=True)
class Shot:
    """One photo: its job's folder, the wood that it shows, when it was taken (the file is named after it), and how many
    boards lie side by side in it.
    """

    job: str
    wood: str
    taken: str
    boards: int
    size: tuple[int, int] = (160, 120)

    @property
    def path(self) -> Path:
        return SHELF / self.job / "photos" / f"{self.taken}.jpg"


SHOTS = (
    Shot("2021-019-tool-cupboard", "ash", "20210920_154012", 2),
    Shot("2021-019-tool-cupboard", "ash", "20211013_161507", 4),
    Shot("2021-019-tool-cupboard", "ash", "20211019_113020", 3, (120, 160)),
    Shot("2022-006-glazed-bookcase", "walnut", "20220216_104402", 1),
    Shot("2022-006-glazed-bookcase", "walnut", "20220309_161210", 3),
    Shot("2022-006-glazed-bookcase", "walnut", "20220420_150833", 5, (120, 160)),
    Shot("2022-021-garden-bench", "iroko", "20220616_145509", 2),
    Shot("2022-021-garden-bench", "iroko", "20220705_130812", 4),
    Shot("2022-021-garden-bench", "iroko", "20220709_104455", 7),
    Shot("2023-004-turned-stools", "sycamore", "20230213_171512", 9, (128, 96)),
    Shot("2023-004-turned-stools", "sycamore", "20230301_104101", 2, (128, 96)),
    Shot("2023-017-reading-chair", "oak", "20230911_153917", 3),
    Shot("2023-017-reading-chair", "oak", "20231016_110744", 4),
    Shot("2023-017-reading-chair", "oak", "20231019_151201", 2, (120, 160)),
    Shot("2024-003-kitchen-dresser", "sycamore", "20240125_091422", 1),
    Shot("2024-003-kitchen-dresser", "grey paint", "20240308_152230", 6, (120, 160)),
    Shot("2024-015-hall-table", "cherry", "20240911_111902", 4, (64, 48)),
    Shot("2024-015-hall-table", "cherry", "20240923_143355", 2),
    Shot("2025-002-extending-table", "ash", "20250203_143010", 6),
    Shot("2025-002-extending-table", "ash", "20250211_120903", 3),
    Shot("2025-002-extending-table", "ash", "20250310_161744", 5),
    Shot("2025-018-record-cabinet", "walnut", "20250915_101320", 1),
    Shot("2025-018-record-cabinet", "walnut", "20250922_155044", 2),
    Shot("2026-001-marquetry-box", "cocobolo", "20260119_162903", 3, (64, 48)),
    Shot("2026-001-marquetry-box", "cocobolo", "20260202_114127", 4, (120, 90)),
    Shot("2026-001-marquetry-box", "cocobolo", "20260217_150518", 2),
)


def picture(shot: Shot) -> Image.Image:
    """Boards side by side with their grain, lit from one side; the same for the same shot."""
    luck = random.Random(f"{shot.job} {shot.taken}")
    width, height = shot.size
    image = Image.new("RGB", shot.size)
    draw = ImageDraw.Draw(image)
    for board in range(shot.boards):
        left, right = board * width // shot.boards, (board + 1) * width // shot.boards
        tone = luck.uniform(0.85, 1.1)
        draw.rectangle((left, 0, right, height), fill=_shade(WOODS[shot.wood], tone))
        for _ in range((right - left) // 4):
            x, lean = luck.uniform(left, right), luck.uniform(-6, 6)
            draw.line((x, 0, x + lean, height), fill=_shade(WOODS[shot.wood], tone * luck.uniform(0.8, 0.95)))
        draw.line((right, 0, right, height), fill=_shade(WOODS[shot.wood], 0.4))
    light = Image.linear_gradient("L").resize(shot.size).point(lambda value: 70 + value // 2)
    lit = Image.composite(image, Image.new("RGB", shot.size, (24, 20, 18)), light)
    return lit.filter(ImageFilter.GaussianBlur(0.6))


def _shade(colour: tuple[int, int, int], tone: float) -> tuple[int, int, int]:
    red, green, blue = (min(255, round(part * tone)) for part in colour)
    return red, green, blue


def write(shot: Shot) -> int:
    """Write one photo with the time it was taken; its size in bytes. ValueError for one that came out too large."""
    image = picture(shot)
    exif = Image.Exif()
    taken = datetime.strptime(shot.taken, "%Y%m%d_%H%M%S")
    exif.get_ifd(EXIF_FOLDER)[TAKEN] = taken.strftime("%Y:%m:%d %H:%M:%S")
    shot.path.parent.mkdir(parents=True, exist_ok=True)
    image.save(shot.path, "JPEG", quality=58, exif=exif)
    size = shot.path.stat().st_size
    if size > LARGEST_BYTES:
        raise ValueError(f"{shot.path.name} came out at {size} bytes")
    return size


if __name__ == "__main__":
    for each in SHOTS:
        write(each)
