"""Render the sample job's photographs: an invented sideboard and its making.

A test tool only, never a dependency of the package. It needs Python 3.11 with `bpy` (4.5), `Pillow`, `pillow-heif` and
`piexif` from the package index, and no screen (`numpy` comes with `bpy`):

    python tests/sample_photos/render.py sample_job/photos              # all eleven, about an hour on two cores
    python tests/sample_photos/render.py /tmp/look --draft --only lead  # one, small and quick

Inputs: nothing but the seed in `wood.py`, so that the same pictures come out again. Outputs: files named and stamped
as a phone would. A final picture is written as soon as it is rendered.
"""

from __future__ import annotations

import argparse
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import scenes_finished
import scenes_making
import stage
from develop import develop

LONG, SHORT = 1600, 1200
DRAFT_SCALE = 0.3
SAMPLES, DRAFT_SAMPLES = 24, 16


@dataclass(frozen=True)
class Picture:
    """One photograph: the file it becomes and the scene it shows."""

    file: str
    scene: Callable[[], None]
    portrait: bool = False

    @property
    def name(self) -> str:
        return self.scene.__name__


PICTURES = (
    Picture("20260209_143012.jpg", scenes_making.stock),
    Picture("20260216_111540.jpg", scenes_making.leaves_opened),
    Picture("20260224_164805.jpg", scenes_making.glue_up),
    Picture("20260303_102233.heic", scenes_making.dovetails),
    Picture("20260311_153350.jpg", scenes_making.dry_fit),
    Picture("20260320_091827.jpg", scenes_making.hardware),
    Picture("20260326_171002.jpg", scenes_making.first_coat, portrait=True),
    Picture("20260410_120114.jpg", scenes_finished.drawer_open, portrait=True),
    Picture("20260410_121503.jpg", scenes_finished.slate_inset),
    Picture("20260410_122240.jpg", scenes_finished.door),
    Picture("20260410_140231.jpg", scenes_finished.lead),
)


def take(picture: Picture, folder: Path, draft: bool) -> Path:
    """Render one picture into `folder`."""
    size = (SHORT, LONG) if picture.portrait else (LONG, SHORT)
    picture.scene()
    if draft:
        path = folder / f"{picture.name}.png"
        stage.expose(path, tuple(round(DRAFT_SCALE * side) for side in size), DRAFT_SAMPLES)
        return path
    with tempfile.TemporaryDirectory() as room:
        negative = Path(room) / "negative.png"
        stage.expose(negative, size, SAMPLES)
        return develop(negative, folder / picture.file, sideways=picture.portrait)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path, help="where the pictures go")
    parser.add_argument(
        "--only", metavar="NAME", nargs="+", help=f"of: {', '.join(p.name for p in PICTURES)}"
    )
    parser.add_argument("--draft", action="store_true", help="small, quick PNGs without metadata")
    options = parser.parse_args()
    options.folder.mkdir(parents=True, exist_ok=True)
    for picture in PICTURES:
        if not options.only or picture.name in options.only:
            print(take(picture, options.folder.resolve(), options.draft), flush=True)


if __name__ == "__main__":
    main()
