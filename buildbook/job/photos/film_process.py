"""Reads one video in a process of its own, which may be killed: what it is given, anyone may have written.

A script that stands alone: `python -P film_process.py facts|frame LIMITS`, the video on standard input. Out, on
standard output: a line of JSON, and for `frame` the picture after it, three bytes a point. It exits with 0 whatever the
video is; with another code it was killed, or fell over. Of the file's own data only when it was made is told: no place,
no name.

The picture is the first that is not black, among the first of the video: cameras and programs fade in. Where all of
those are black it is the very first.
"""

from __future__ import annotations

import hashlib
import json
import sys
import time
from collections.abc import Iterator
from typing import Any, BinaryIO

LOOKED_AT = 90  # pictures, three seconds of most cameras, that are looked at for one that is not black
LOOKED_AT_S = 4  # of the processor, for them and for a length that must be counted
PACKETS = 2_000  # pieces of a video that are tried until one is a picture
DARK = 40  # of 255: a point that is no brighter is black; studio black is 16
BRIGHT_PCT = 2  # of the points must be brighter
SMALL = (64, 36)  # points in which that is counted
QUARTER = 90

FORMATS = "mov,mp4,matroska,webm,avi,mpegts,mpeg,mpegvideo,asf,hevc,h264"
"""What may be opened, as the library calls it: containers of cameras. Not among them are lists of other files and
addresses, which would be opened too.
"""

WHEN = ("com.apple.quicktime.creationdate", "creation_time", "date")
"""Data of the file that say when it was made, the best first: the first has the local time and how far it is off."""


class NotShown(Exception):
    """Why a video is not read, by a key of `films.SAID`."""


def main() -> None:
    what, limits = sys.argv[1], json.loads(sys.argv[2])
    _bound(limits)
    pixels = b""
    try:
        told, pixels = _read(limits)
    except NotShown as why:
        told = {"fault": str(why)}
    except MemoryError:
        told = {"fault": "too much"}
    out = sys.stdout.buffer
    out.write(json.dumps(told).encode() + b"\n")
    if what == "frame":
        out.write(pixels)
    out.flush()


def _bound(limits: dict[str, int]) -> None:
    """Where the system has no such limits there is the clock alone, by which whoever began this ends it."""
    try:
        import resource
    except ImportError:
        return
    for what, most in ((resource.RLIMIT_CPU, limits["cpu_s"]), (resource.RLIMIT_AS, limits["memory"])):
        hard = resource.getrlimit(what)[1]
        most = most if hard == resource.RLIM_INFINITY else min(most, hard)
        try:
            resource.setrlimit(what, (most, most))
        except (OSError, ValueError):  # a system that knows the limit and does not keep it
            continue


def _read(limits: dict[str, int]) -> tuple[dict[str, Any], bytes]:
    import av

    av.logging.set_level(None)
    file = open(0, "rb", closefd=False)  # noqa: SIM115
    options = {
        "format_whitelist": FORMATS,
        "protocol_whitelist": "",
        "max_pixels": str(limits["points"]),
        "threads": "1",
    }
    try:
        container = av.open(file, options=options, io_open=_refused, metadata_errors="replace")
    except MemoryError:
        raise
    except Exception as why:  # whatever the library makes of bytes that anyone may have written
        raise NotShown("no video") from why
    with container:
        stream = _stream(container)
        if stream is None:
            raise NotShown("no picture")
        context = stream.codec_context
        if context.width * context.height > limits["points"]:
            raise NotShown("too large")
        context.thread_count = 1
        frame = _first(container, stream)
        if frame is None:
            raise NotShown("broken")
        if frame.width * frame.height > limits["points"]:
            raise NotShown("too large")
        told, pixels = _shown(frame, stream, limits["edge"])
        said = {key.casefold(): value for key, value in container.metadata.items()}
        told["made"] = next((said[key][:40] for key in WHEN if said.get(key)), "")
        told["seconds"] = _seconds(container, stream, file)
        return told, pixels


def _refused(*_: object) -> BinaryIO:
    """A video that names another file, or an address, is given none."""
    raise FileNotFoundError


def _stream(container: Any) -> Any:
    """The pictures of a video; a picture of its cover is none of them."""
    moving = [one for one in container.streams.video if not _is_cover(one)]
    best = container.streams.best("video")
    return best if best in moving else next(iter(moving), None)


def _is_cover(stream: Any) -> bool:
    from av.stream import Disposition

    return bool(stream.disposition & Disposition.attached_pic)


def _first(container: Any, stream: Any) -> Any:
    """The picture that is shown; None where there is none."""
    first = None
    for number, frame in enumerate(_frames(container, stream), 1):
        if first is None:
            first = frame
        if not frame.is_corrupt and not _is_black(frame):
            return frame
        if number == LOOKED_AT or time.process_time() > LOOKED_AT_S:
            break
    return first


def _frames(container: Any, stream: Any) -> Iterator[Any]:
    """Pictures as they can be decoded; what of them is broken is passed over."""
    packets = container.demux(stream)
    for _ in range(PACKETS):
        try:
            packet = next(packets)
            yield from packet.decode()
        except StopIteration:
            return
        except MemoryError:
            raise
        except Exception:  # as above
            if time.process_time() > LOOKED_AT_S:
                return


def _is_black(frame: Any) -> bool:
    small = frame.reformat(*SMALL, "gray", threads=1)
    bright = sum(value > DARK for row in _rows(small.planes[0], SMALL[0], SMALL[1]) for value in row)
    return bright * 100 < BRIGHT_PCT * SMALL[0] * SMALL[1]


def _rows(plane: Any, width: int, height: int) -> Iterator[bytes]:
    """The lines of a plane without what fills them up."""
    data, line = bytes(plane), plane.line_size
    return (data[line * number : line * number + width] for number in range(height))


def _shown(frame: Any, stream: Any, edge: int) -> tuple[dict[str, Any], bytes]:
    """The picture in red, green and blue, its points square, no longer than an edge; not yet turned upright."""
    wide = float(stream.sample_aspect_ratio or 1) or 1.0
    width, height = (frame.width * wide, frame.height) if wide > 1 else (frame.width, frame.height / wide)
    scale = min(1.0, edge / max(width, height))
    width, height = max(1, round(width * scale)), max(1, round(height * scale))
    picture = frame.reformat(width, height, "rgb24", interpolation="BICUBIC", threads=1)
    pixels = b"".join(_rows(picture.planes[0], width * 3, height))
    turn = round(-frame.rotation / QUARTER) * QUARTER % 360
    digest = hashlib.sha256(f"{width} {height} {turn}\n".encode() + pixels).hexdigest()
    return {"fault": "", "width": width, "height": height, "turn": turn, "frame": digest}, pixels


def _seconds(container: Any, stream: Any, file: BinaryIO) -> float | None:
    """As the file states it; one that was recorded straight to a page or a message states none, and its pieces are
    counted, none of them decoded.
    """
    import av

    if container.duration:
        return float(container.duration / av.time_base)
    last = None
    try:
        for packet in container.demux(stream):
            if packet.pts is not None and packet.time_base:
                end = float((packet.pts + (packet.duration or 0)) * packet.time_base)
                last = end if last is None else max(last, end)
            if time.process_time() > LOOKED_AT_S:
                return None
    except Exception:  # as above
        return None
    return last


if __name__ == "__main__":
    main()
