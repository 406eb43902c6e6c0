"""Videos as cameras write them, drawn and encoded here: an orange ground with a blue corner at the upper left."""

import struct
from fractions import Fraction

import av
from PIL import Image, ImageDraw

GROUND, CORNER, BLACK = (200, 120, 60), (20, 60, 220), (0, 0, 0)
CONTAINERS = {
    "mp4": ("mp4", "libx264", "yuv420p"),
    "mov": ("mov", "libx265", "yuv420p"),
    "hevc.mp4": ("mp4", "libx265", "yuv420p10le"),
    "av1.mp4": ("mp4", "libsvtav1", "yuv420p"),
    "webm": ("webm", "libvpx-vp9", "yuv420p"),
    "mkv": ("matroska", "libx264", "yuv420p"),
    "avi": ("avi", "mjpeg", "yuvj420p"),
    "old.avi": ("avi", "mpeg4", "yuv420p"),
    "3gp": ("3gp", "h263", "yuv420p"),
    "mts": ("mpegts", "libx264", "yuv420p"),
    "mpg": ("mpeg", "mpeg2video", "yuv420p"),
    "wmv": ("asf", "wmv2", "yuv420p"),
}
"""Names by how they end: the container, the codec, the kind of points."""

PRIVATE = {
    "location": "+48.1351+011.5820/",
    "artist": "Zqwxartist",
    "title": "Zqwxtitle",
    "comment": "Zqwxcomment",
}
"""What else a camera notes."""


def film(path, ending="mp4", *, size=(352, 288), pictures=25, rate=10, black=0, made="", turn=0, **data):
    """Write a video: so many pictures, the first of them black, its own data, turned by so many degrees clockwise."""
    container, codec, points = CONTAINERS[ending]
    options = {"x265-params": "log-level=none"} if codec == "libx265" else {}
    with av.open(str(path), "w", format=container) as out:
        out.metadata.update(data | ({"creation_time": made} if made else {}))
        rate = 25 if container == "mpeg" else rate  # it knows no other
        stream = out.add_stream(codec, rate=rate, options=options)
        stream.width, stream.height, stream.pix_fmt = *size, points
        for number in range(pictures):
            frame = av.VideoFrame.from_image(drawn(size, dark=number < black)).reformat(format=points)
            frame.pts, frame.time_base = number, Fraction(1, rate)
            out.mux(stream.encode(frame))
        out.mux(stream.encode())
    if turn:
        path.write_bytes(turned(path.read_bytes(), turn))
    return path


def drawn(size, *, dark=False):
    picture = Image.new("RGB", size, BLACK if dark else GROUND)
    if not dark:
        ImageDraw.Draw(picture).rectangle((0, 0, size[0] // 4, size[1] // 4), fill=CORNER)
    return picture


_MATRIX = {90: (0, 1, -1, 0), 180: (-1, 0, 0, -1), 270: (0, -1, 1, 0)}
_ONE = 1 << 16


def turned(data, degrees):
    """The bytes of an MP4 or MOV with the matrix of its track as a telephone held otherwise writes it (ISO/IEC 14496-12,
    8.3.2).
    """
    out = bytearray(data)
    start = out.rindex(b"tkhd") + 4
    matrix = start + (40 if out[start] == 0 else 52)
    assert out[matrix : matrix + 4] == struct.pack(">i", _ONE)
    a, b, c, d = (value * _ONE for value in _MATRIX[degrees])
    struct.pack_into(">9i", out, matrix, a, b, 0, c, d, 0, 0, 0, 1 << 30)
    return bytes(out)


def box(data, kind, offset, content):
    """The bytes of an MP4 with something else so far behind the name of its last box of a kind."""
    start = data.rindex(kind) + 4 + offset
    return data[:start] + content + data[start + len(content) :]


def quarter(picture):
    """In which quarter of a picture the blue corner is: `left upper` …; empty where it is in none."""
    picture = picture.convert("RGB")
    width, height = picture.size
    at = {
        "left upper": (width // 12, height // 12),
        "right upper": (width - width // 12 - 1, height // 12),
        "left lower": (width // 12, height - height // 12 - 1),
        "right lower": (width - width // 12 - 1, height - height // 12 - 1),
    }
    blue = [name for name, place in at.items() if picture.getpixel(place)[2] > picture.getpixel(place)[0]]
    return blue[0] if len(blue) == 1 else ""
