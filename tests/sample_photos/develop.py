"""From a rendered PNG to a file as a phone would leave it: grain, compression, date, orientation, place.

Role: `develop`. The date and time are read off the file name. Imports `numpy`, `Pillow`, `pillow_heif`, `piexif`.
"""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

import numpy as np
import piexif
import piexif.helper
import pillow_heif
from PIL import Image

QUALITY = 88
GRAIN = 2.2  # of 255: the sensor's noise in the middle tones
FALL_OFF = 0.10  # how much darker the corners are
SUMMER_TIME = date(2026, 3, 29)
COMMENT = "sample: rendered, not photographed"
UPRIGHT, TURN_RIGHT = 1, 6  # EXIF orientation


def develop(negative: Path, path: Path, sideways: bool) -> Path:
    """Write `negative` as JPEG or HEIC, by the name of `path`; `sideways` as a phone stores a portrait."""
    image = _as_sensed(Image.open(negative).convert("RGB"))
    if sideways:
        image = image.transpose(Image.Transpose.ROTATE_90)
    exif = _exif(
        datetime.strptime(path.stem, "%Y%m%d_%H%M%S"), image.size, TURN_RIGHT if sideways else UPRIGHT
    )
    if path.suffix == ".heic":
        pillow_heif.register_heif_opener()
        image.save(path, quality=70, exif=exif)
    else:
        image.save(path, quality=QUALITY, exif=exif, optimize=True)
    return path


def _as_sensed(image: Image.Image) -> Image.Image:
    """A little grain and fall-off, the same each time."""
    values = np.asarray(image, dtype=np.float32)
    rows, columns, _ = values.shape
    y, x = np.mgrid[-1 : 1 : rows * 1j, -1 : 1 : columns * 1j]
    values = values * (1 - FALL_OFF * ((x * x + y * y) / 2) ** 1.5)[..., None]
    noise = np.random.default_rng(1)
    grain = noise.normal(0, GRAIN, (rows, columns, 1)) + noise.normal(0, GRAIN / 3, values.shape)
    return Image.fromarray(np.clip(values + grain, 0, 255).astype(np.uint8))


def _exif(taken: datetime, size: tuple[int, int], orientation: int) -> bytes:
    stamp = taken.strftime("%Y:%m:%d %H:%M:%S")
    offset = "+01:00" if taken.date() >= SUMMER_TIME else "+00:00"
    zero = ((0, 1), (0, 1), (0, 1))
    return piexif.dump(
        {
            "0th": {piexif.ImageIFD.Orientation: orientation, piexif.ImageIFD.DateTime: stamp},
            "Exif": {
                piexif.ExifIFD.DateTimeOriginal: stamp,
                piexif.ExifIFD.OffsetTimeOriginal: offset,
                piexif.ExifIFD.PixelXDimension: size[0],
                piexif.ExifIFD.PixelYDimension: size[1],
                piexif.ExifIFD.UserComment: piexif.helper.UserComment.dump(COMMENT),
            },
            "GPS": {
                piexif.GPSIFD.GPSLatitudeRef: "N",
                piexif.GPSIFD.GPSLatitude: zero,
                piexif.GPSIFD.GPSLongitudeRef: "E",
                piexif.GPSIFD.GPSLongitude: zero,
            },
        }
    )
