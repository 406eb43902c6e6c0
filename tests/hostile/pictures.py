"""Picture files that were made to stop us: small to send, huge to open. Made byte by byte where no encoder would."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Callable, Iterator

from PIL import Image

from tests.hostile.attacks import Attack, Files

MEGA = 1_000_000
_ADLER = 65_521


def _chunk(kind: bytes, content: bytes) -> bytes:
    return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))


def zeros_packed(count: int) -> bytes:
    """`count` zero bytes as zlib packs them, made without packing them all: one block of deflate, said again."""
    step = 4_000_000
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    block = packer.compress(b"\0" * step) + packer.flush(zlib.Z_FULL_FLUSH)
    whole, rest = divmod(count, step)
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    end = packer.compress(b"\0" * rest) + packer.flush()
    checksum = (count % _ADLER) << 16 | 1
    return b"\x78\xda" + block * whole + end + struct.pack(">I", checksum)


def png(
    width: int, height: int, depth: int = 8, colour: int = 2, more: bytes = b"", interlaced: int = 0
) -> bytes:
    """A PNG of nothing but zeros. `colour`: 0 grey, 2 RGB, 3 palette, 4 grey and alpha, 6 RGBA."""
    signs = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}[colour]
    line = 1 + (width * signs * depth + 7) // 8
    palette = _chunk(b"PLTE", bytes(768)) if colour == 3 else b""
    head = _chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, interlaced))
    body = _chunk(b"IDAT", zeros_packed(line * height))
    return b"\x89PNG\r\n\x1a\n" + head + palette + more + body + _chunk(b"IEND", b"")


def jpeg(width: int, height: int, **options: object) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (width, height), (90, 60, 30)).save(out, "JPEG", quality=30, **options)
    return out.getvalue()


def layered(width: int, height: int, more: int) -> bytes:
    """A progressive JPEG whose last layer is said again and again."""
    plain = jpeg(width, height, progressive=True)
    last = plain.rindex(b"\xff\xda")
    return plain[:last] + plain[last:-2] * more + plain[-2:]


def jpeg_header(width: int, height: int) -> bytes:
    """A small JPEG that says another size in its header."""
    plain = bytearray(jpeg(64, 64))
    at = plain.index(b"\xff\xc0") + 5
    plain[at : at + 4] = struct.pack(">HH", height, width)
    return bytes(plain)


def tiff(
    width: int, height: int, bits: tuple[int, ...] = (8, 8, 8), entries: int = 0, packed: bool = True
) -> bytes:
    """A TIFF of zeros in one strip. `entries` more tags that mean nothing."""
    size = width * height * sum(bits) // 8
    content = zeros_packed(size) if packed else b"\0" * min(size, MEGA)
    tags = [
        (256, 4, 1, width),
        (257, 4, 1, height),
        (258, 3, len(bits), bits),
        (259, 3, 1, 8 if packed else 1),
        (262, 3, 1, 2 if len(bits) >= 3 else 1),
        (273, 4, 1, "strip"),
        (277, 3, 1, len(bits)),
        (278, 4, 1, height),
        (279, 4, 1, len(content)),
    ]
    tags += [(40_000 + n, 4, 1, n) for n in range(min(entries, 25_000))]
    directory_at = 8
    beyond_at = directory_at + 2 + 12 * len(tags) + 4
    beyond = struct.pack(f"<{len(bits)}H", *bits) if len(bits) > 2 else b""
    out = [b"II*\0", struct.pack("<I", directory_at), struct.pack("<H", len(tags))]
    for tag, kind, count, value in tags:
        if value == "strip":
            value = beyond_at + len(beyond)
        if isinstance(value, tuple):
            field = (
                struct.pack("<I", beyond_at)
                if len(value) > 2
                else struct.pack("<HH", *value, *[0] * (2 - len(value)))
            )
        elif kind == 3:
            field = struct.pack("<HH", value, 0)
        else:
            field = struct.pack("<I", value)
        out.append(struct.pack("<HHI", tag, kind, count) + field)
    return b"".join([*out, struct.pack("<I", 0), beyond, content])


def tiff_loop() -> bytes:
    """A TIFF whose next directory is its first, without end."""
    plain = bytearray(tiff(8, 8))
    count = struct.unpack_from("<H", plain, 8)[0]
    struct.pack_into("<I", plain, 10 + 12 * count, 8)
    return bytes(plain)


def webp(width: int, height: int, **options: object) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (width, height), (90, 60, 30)).save(out, "WEBP", method=0, quality=1, **options)
    return out.getvalue()


def animated(kind: str, frames: int) -> bytes:
    out = io.BytesIO()
    first, *rest = [Image.new("RGB", (32, 32), (n % 256, n // 256, 9)) for n in range(frames)]
    first.save(out, kind, save_all=True, append_images=rest)
    return out.getvalue()


def heic(width: int, height: int) -> bytes:
    import pillow_heif

    out = io.BytesIO()
    picture = pillow_heif.from_bytes("RGB", (width, height), bytes(width * height * 3))
    picture.save(out, quality=1)
    return out.getvalue()


def heic_header(width: int, height: int) -> bytes:
    """A small HEIC that says another size in its header."""
    plain = heic(64, 64)
    return plain.replace(struct.pack(">II", 64, 64), struct.pack(">II", width, height))


def with_exif(length: int) -> bytes:
    """A JPEG with as many megabytes of picture data about it, as segments that a reader joins."""
    plain = jpeg(64, 64)
    part = b"Exif\0\0" + b"MM\0*\0\0\0\x08\0\0" + b"x" * 65_000
    segment = b"\xff\xe1" + struct.pack(">H", len(part) + 2) + part
    return plain[:2] + segment * (length // len(part)) + plain[2:]


def many(count: int, made: Callable[[int], bytes], name: str = "photos/{}.jpg") -> Files:
    return {name.format(n): made(n) for n in range(count)}


def _tiny(number: int) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (8, 8), (number % 256, number // 256, 1)).save(out, "JPEG", comment=b"%d" % number)
    return out.getvalue()


SIDE = 13_000  # 169 million points
NEAR = 12_000  # 144 million points: below the limit

ONE: dict[str, tuple[str, Callable[[], bytes], str]] = {
    "PNG of 169 million points": ("a.png", lambda: png(SIDE, SIDE), "million"),
    "PNG of 144 million points": ("a.png", lambda: png(NEAR, NEAR), ""),
    "PNG of 144 million points, RGBA": ("a.png", lambda: png(NEAR, NEAR, colour=6), ""),
    "PNG of 144 million points of 16 bits, RGBA": ("a.png", lambda: png(NEAR, NEAR, 16, 6), ""),
    "PNG of 144 million points, grey and alpha": ("a.png", lambda: png(NEAR, NEAR, colour=4), ""),
    "PNG of 144 million points of 16 bits, grey": ("a.png", lambda: png(NEAR, NEAR, 16, 0), ""),
    "PNG of 144 million points, palette": ("a.png", lambda: png(NEAR, NEAR, colour=3), ""),
    "PNG of 144 million points of 1 bit": ("a.png", lambda: png(NEAR, NEAR, 1, 0), ""),
    "PNG of 144 million points, interlaced": ("a.png", lambda: png(NEAR, NEAR, interlaced=1), ""),
    "PNG of 144 million points on its side": (
        "a.png",
        lambda: png(
            NEAR,
            NEAR,
            more=_chunk(b"eXIf", b"MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0"),
        ),
        "",
    ),
    "PNG of 144 million points, transparent by a colour": (
        "a.png",
        lambda: png(NEAR, NEAR, more=_chunk(b"tRNS", b"\0" * 6)),
        "",
    ),
    "PNG of 2,000,000,000 points": ("a.png", lambda: png(2_000_000, 1000, 1, 0), "million"),
    "PNG of one line": ("a.png", lambda: png(100 * MEGA, 1, 1, 0), "points long"),
    "PNG of one column": ("a.png", lambda: png(1, 60 * MEGA, 1, 0), "points long"),
    "PNG that says 2^31": (
        "a.png",
        lambda: png(8, 8).replace(struct.pack(">II", 8, 8), b"\x7f\xff\xff\xff" * 2),
        "",
    ),
    "PNG with words of 100 MB": (
        "a.png",
        lambda: png(8, 8, more=_chunk(b"zTXt", b"a\0\0" + zeros_packed(100 * MEGA))),
        "",
    ),
    "PNG with 50,000 words": ("a.png", lambda: png(8, 8, more=_chunk(b"tEXt", b"a\0b") * 50_000), ""),
    "PNG with a colour profile of 100 MB": (
        "a.png",
        lambda: png(8, 8, more=_chunk(b"iCCP", b"a\0\0" + zeros_packed(100 * MEGA))),
        "",
    ),
    "PNG with no end": ("a.png", lambda: png(4000, 4000)[:-1000], ""),
    "JPEG that says 60,000 by 60,000": ("a.jpg", lambda: jpeg_header(60_000, 60_000), "million"),
    "JPEG that says 12,000 by 12,000": ("a.jpg", lambda: jpeg_header(NEAR, NEAR), ""),
    "JPEG that says 65,500 by 1": ("a.jpg", lambda: jpeg_header(65_500, 1), ""),
    "JPEG of 144 million points": ("a.jpg", lambda: jpeg(NEAR, NEAR), ""),
    "JPEG of 144 million points, progressive": (
        "a.jpg",
        lambda: jpeg(NEAR, NEAR, progressive=True, subsampling=0),
        "",
    ),
    "JPEG of 59 million points, progressive": (
        "a.jpg",
        lambda: jpeg(7700, 7700, progressive=True, subsampling=0),
        "",
    ),
    "JPEG of 2,000 layers": ("a.jpg", lambda: layered(7700, 7700, 2000), "layers"),
    "JPEG of 99 layers": ("a.jpg", lambda: layered(7700, 7700, 90), ""),
    "JPEG with megabytes about it": ("a.jpg", lambda: with_exif(20 * MEGA), ""),
    "JPEG with 30 MB after its end": ("a.jpg", lambda: jpeg(64, 64) + b"\xff\xd8" * (15 * MEGA), ""),
    "JPEG of nothing but marks": ("a.jpg", lambda: b"\xff\xd8" + b"\xff" * (20 * MEGA), "segments"),
    "JPEG of empty segments": ("a.jpg", lambda: b"\xff\xd8" + b"\xff\xe5\0\x02" * (2 * MEGA), "segments"),
    "TIFF of 169 million points": ("a.tif", lambda: tiff(SIDE, SIDE), "million"),
    "TIFF of 144 million points": ("a.tif", lambda: tiff(NEAR, NEAR), ""),
    "TIFF of 144 million points of 16 bits": ("a.tif", lambda: tiff(NEAR, NEAR, (16, 16, 16)), ""),
    "TIFF of 59 million points": ("a.tif", lambda: tiff(7700, 7700), ""),
    "TIFF of 59 million points of 16 bits": ("a.tif", lambda: tiff(7700, 7700, (16, 16, 16)), ""),
    "TIFF that says 100,000 by 100,000": ("a.tif", lambda: tiff(100_000, 100_000, packed=False), "million"),
    "TIFF with 25,000 tags": ("a.tif", lambda: tiff(64, 64, entries=25_000), ""),
    "TIFF that goes round": ("a.tif", tiff_loop, ""),
    "WebP of 169 million points": ("a.webp", lambda: webp(SIDE, SIDE), "million"),
    "WebP of 39 million points": ("a.webp", lambda: webp(6250, 6250), ""),
    "WebP of 144 million points, lossless": ("a.webp", lambda: webp(NEAR, NEAR, lossless=True), ""),
    "WebP of 2,000 frames": ("a.webp", lambda: animated("WEBP", 2000), ""),
    "PNG of 3,000 frames": ("a.png", lambda: animated("PNG", 3000), ""),
    "TIFF of 2,000 frames": ("a.tif", lambda: animated("TIFF", 2000), ""),
    "HEIC of 16 million points": ("a.heic", lambda: heic(4000, 4000), ""),
    "HEIC that says 30,000 by 30,000": ("a.heic", lambda: heic_header(30_000, 30_000), "million"),
    "HEIC that says 12,000 by 12,000": ("a.heic", lambda: heic_header(NEAR, NEAR), ""),
    "HEIC of nothing but its mark": ("a.heic", lambda: b"\0\0\0\x18ftypheic" + b"\0" * MEGA, ""),
    "HEIC with a box of 2^63": (
        "a.heic",
        lambda: b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + b"\0\0\0\x01meta\x7f" + b"\xff" * 7 + b"x" * 999,
        "",
    ),
}


def _pictures() -> Iterator[Attack]:
    for name, (file, made, tells) in ONE.items():
        yield Attack(f"picture: {name}", lambda file=file, made=made: {f"photos/{file}": made()}, True, tells)
    yield Attack(
        "pictures: 2 PNG of 144 million points",
        lambda: many(2, lambda n: png(NEAR - n, NEAR), "photos/{}.png"),
        True,
    )
    yield Attack("pictures: 1,000 tiny", lambda: many(1000, _tiny), True)
    yield Attack("pictures: 12,000 of one byte", lambda: many(12_000, lambda n: b"%d" % n), None)
    yield Attack("pictures: 3,000 the same", lambda: many(3000, lambda n: _tiny(0)), True)


PICTURES: tuple[Attack, ...] = tuple(_pictures())
