"""Reads the archive of a handover strictly: whatever reader opens it, it holds the same files.

A zip states most things twice, and readers differ in which they believe: this takes only an archive that is told in
one way. Its records fill it from the first byte to the directory without a gap, the directory names each of them as
they name themselves, nothing stands before, between or after, and no field gives a file a second name. That is the
subset of ISO/IEC 21320-1 (stored or deflated, neither encrypted nor split), without comments; the layout is that of
APPNOTE.TXT 6.3.3, to which it refers.
"""

from __future__ import annotations

import re
import stat
import struct
import unicodedata
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import BinaryIO

from buildbook import limits
from buildbook.book.sealed.contents import PIECE, Contents, Refused, check_count, check_sizes, kind_of
from buildbook.book.sealed.names import PHOTOS, is_ours, shown

_END = struct.Struct("<4s4H2LH")
_LINE = struct.Struct("<4s6H3L5H2L")
_RECORD = struct.Struct("<4s5H3L2H")
_FIELD = struct.Struct("<HH")
_END_MARK, _LINE_MARK, _RECORD_MARK, _SIZES_MARK = b"PK\5\6", b"PK\1\2", b"PK\3\4", b"PK\7\10"
_STORED, _DEFLATED = 0, 8
_VERSION = 45  # of the format, in tenths: the newest that a reader must know
_LEVEL, _SIZES_FOLLOW, _UTF_8 = 0x0006, 0x0008, 0x0800  # flags; any other means a lock or a patch
_OTHER_NAME, _BEFORE_NAME = 0x7075, 5  # the name in UTF-8, behind a version and a sum
_HARMLESS = frozenset({0x000A, 0x5455, 0x5855, 0x7855, 0x7875, 0xCAFE})  # times, owners, a mark of Java's
_SYSTEM_FOLDER, _SYSTEM_LINK = 0x10, 0x400  # attributes of files on Windows
_FOLDERS = (b"", f"{PHOTOS}/".encode())  # inside the one at the top
_DRIVE = re.compile(r"[A-Za-z]:")
_UNSPEAKABLE = frozenset(
    {"Cc", "Cs", "Zl", "Zp"}
)  # categories: control, half a sign, line and paragraph ends


@dataclass(frozen=True)
class _Line:
    """What the directory says of one record. `at`: where it begins; `next`: where the one after it does."""

    name: bytes
    flags: int
    method: int
    crc: int
    packed: int
    size: int
    kind: str  # in words, where it is not what its name says
    at: int
    named_again: bool  # its name stands in a further field, in UTF-8
    next: int = 0

    @property
    def coded(self) -> tuple[bool, bool]:
        """By what a reader knows in which letters its name is written; a plain one needs nothing."""
        plain = self.name.isascii()
        return (bool(self.flags & _UTF_8) and not plain, self.named_again and not plain)

    @property
    def sums(self) -> tuple[int, int, int]:
        return self.crc, self.packed, self.size


def archive_contents(file: BinaryIO, length: int) -> Contents:
    """What lies in the one folder of an archive of so many bytes. Raises `Refused`."""
    lines, directory = _directory(file, length)
    where: dict[str, tuple[_Line, int]] = {}
    strays: list[str] = []
    for name, line in _named(lines).items():
        if is_ours(name):
            where[name] = (line, 0)
        else:
            strays.append(shown(name))
    check_sizes({name: line.size for name, (line, _) in where.items()})
    if sum(line.size for line in lines) > limits.UNPACKED_TIMES * length:
        raise Refused(
            f"would unpack to more than {limits.UNPACKED_TIMES} times its size, which no handover does"
        )
    begins = _contents_begin(file, lines, directory)
    where = {name: (line, begins[line.at]) for name, (line, _) in where.items()}

    def pieces(name: str) -> Iterator[bytes]:
        line, begin = where[name]
        file.seek(begin)
        yield from _checked(
            name, line, _stored(file, line) if line.method == _STORED else _inflated(file, line)
        )

    return Contents({name: line.size for name, (line, _) in where.items()}, tuple(strays), pieces)


# -- the directory ------------------------------------------------------------------------------------


def _directory(file: BinaryIO, length: int) -> tuple[list[_Line], int]:
    """The lines of the directory in the order of their records, and where it begins."""
    file.seek(max(0, length - _END.size))
    end = file.read(_END.size)
    if len(end) < _END.size or not end.startswith(_END_MARK):
        raise Refused(
            "is no handover: neither its folder nor the whole of an archive without anything behind it"
        )
    _, disk, first_disk, here, count, size, at, comment = _END.unpack(end)
    if comment or disk or first_disk or here != count or at + size + _END.size != length:
        raise Refused("is no archive of a handover: its end does not fit the rest of it")
    check_count(count)
    if size > count * limits.ARCHIVE_LINE_BYTES:
        raise Refused("is no archive of a handover: its directory is far too long")
    file.seek(at)
    raw, lines, place = file.read(size), [], 0
    while place < len(raw):
        line, place = _line(raw, place)
        lines.append(line)
    if place != size or len(lines) != count:
        raise Refused("is no archive of a handover: its directory does not fit its end")
    lines.sort(key=lambda line: line.at)
    ends = [*(line.at for line in lines[1:]), at]
    return [_Line(**{**vars(line), "next": end}) for line, end in zip(lines, ends, strict=True)], at


def _line(raw: bytes, place: int) -> tuple[_Line, int]:
    """One line of the directory, and where the next begins."""
    if len(raw) - place < _LINE.size or not raw.startswith(_LINE_MARK, place):
        raise Refused("is no archive of a handover: its directory cannot be read")
    facts = _LINE.unpack_from(raw, place)
    (_, _, needs, flags, method, _, _, crc, packed, size, *lengths, disk, _, attributes, at) = facts
    name_length, extra_length, comment_length = lengths
    begin = place + _LINE.size
    name = raw[begin : begin + name_length]
    extra = raw[begin + name_length : begin + name_length + extra_length]
    if comment_length or disk:
        raise Refused(f"holds a comment with {shown(_text(name))}, which is not sealed")
    if flags & ~(_LEVEL | _SIZES_FOLLOW | _UTF_8):
        raise Refused(f"holds {shown(_text(name))} under a lock")
    if method not in (_STORED, _DEFLATED) or needs & 0xFF > _VERSION:
        raise Refused(
            f"holds {shown(_text(name))} in an uncommon packing; pack it with the common one (deflate)"
        )
    again = _OTHER_NAME in _checked_fields(extra, name)
    line = _Line(name, flags, method, crc, packed, size, _kind(name, attributes), at, again)
    return line, begin + name_length + extra_length


def _kind(name: bytes, attributes: int) -> str:
    """What the directory says that it is where that is not what its name says: a file, or with a slash a folder."""
    folder = name.endswith(b"/")
    mode = attributes >> 16
    if attributes & _SYSTEM_LINK:
        return "a link"
    if stat.S_IFMT(mode) not in (0, stat.S_IFDIR if folder else stat.S_IFREG):
        return kind_of(mode) or "a file"
    return "a folder" if attributes & _SYSTEM_FOLDER and not folder else ""


def _checked_fields(extra: bytes, name: bytes) -> set[int]:
    """The further fields of a record. Refuses those that are not known to be harmless, and a second name above all.

    Those for files of more than 4 GB are among them: a handover has none, and they state sizes once more.
    """
    keys: set[int] = set()
    place = 0
    while place < len(extra):
        if len(extra) - place < _FIELD.size:
            raise Refused(f"holds {shown(_text(name))} with fields that cannot be read")
        key, size = _FIELD.unpack_from(extra, place)
        body = extra[place + _FIELD.size : place + _FIELD.size + size]
        place += _FIELD.size + size
        known = key in _HARMLESS or (key == _OTHER_NAME and body[_BEFORE_NAME:] == name)
        if not known or len(body) != size or key in keys:
            raise Refused(f"holds {shown(_text(name))} with a field that no handover has (0x{key:04x})")
        keys.add(key)
    return keys


# -- names --------------------------------------------------------------------------------------------


def _text(name: bytes) -> str:
    """A name as text. Only ASCII is ever compared with ours; the rest can only be in the folder's own name."""
    try:
        return name.decode()
    except UnicodeDecodeError:
        return name.decode("cp437")


def _named(lines: list[_Line]) -> dict[str, _Line]:
    """The files of the one folder by their names in it. Refuses names that any reader could take for others."""
    tops: set[bytes] = set()
    coded: set[tuple[bool, bool]] = set()
    seen: dict[str, str] = {}
    named: dict[str, _Line] = {}
    for line in lines:
        text = _text(line.name)
        _check_plain(text, line.name)
        top, slash, rest = line.name.partition(b"/")
        tops.add(top)
        if not slash:
            raise Refused(f"holds {shown(text)} outside its folder")
        if len(tops) > 1:
            one, other = (shown(_text(name)) for name in sorted(tops))
            raise Refused(f"holds two folders, {one} and {other}")
        coded.add(line.coded)
        if len(coded) > 1:
            raise Refused(f"writes the name of its folder, {shown(_text(top))}, in two ways")
        bare = text.rstrip("/")
        alike = unicodedata.normalize("NFC", unicodedata.normalize("NFC", bare).casefold())
        if alike in seen:
            but = "" if seen[alike] == bare else ", but for capitals or the form of its letters"
            raise Refused(f"holds {shown(bare)} twice{but}")
        seen[alike] = bare
        if line.kind:
            raise Refused(f"holds {shown(text)}, which is {line.kind}")
        if not line.name.endswith(b"/"):
            named[_text(rest)] = line
        elif rest not in _FOLDERS or line.size:
            raise Refused(f"holds a folder {shown(text)}, which no handover has")
    if not named:
        raise Refused("is no handover: there is nothing in it")
    return named


def _check_plain(text: str, raw: bytes) -> None:
    """Refuse a name that is not plainly relative."""
    if len(raw) > limits.NAME_BYTES:
        raise Refused(f"holds a name of {len(raw):,} bytes: {shown(text)}")
    if any(unicodedata.category(sign) in _UNSPEAKABLE for sign in text):
        raise Refused(f"holds a name with a control character: {shown(text)}")
    parts = text.removesuffix("/").split("/")
    if "\\" in text or _DRIVE.match(text) or not all(parts) or {".", ".."} & set(parts):
        raise Refused(f"holds a name that is not plainly relative: {shown(text)}")


# -- the records --------------------------------------------------------------------------------------


def _contents_begin(file: BinaryIO, lines: list[_Line], directory: int) -> dict[int, int]:
    """Where the content of each record begins. Refuses records that do not fill the archive up to its directory."""
    if (lines[0].at if lines else directory) != 0:
        raise Refused("holds something before its first file")
    return {line.at: _content_begins(file, line) for line in lines}


def _content_begins(file: BinaryIO, line: _Line) -> int:
    said = shown(_text(line.name))
    file.seek(line.at)
    head = file.read(_RECORD.size)
    if len(head) < _RECORD.size or not head.startswith(_RECORD_MARK):
        raise Refused(f"does not hold {said} where it says")
    (_, needs, flags, method, _, _, *sums, name_length, extra_length) = _RECORD.unpack(head)
    name = file.read(name_length)
    again = _OTHER_NAME in _checked_fields(file.read(extra_length), line.name)
    if (
        name != line.name
        or (again != line.named_again and not line.name.isascii())
        or method != line.method
        or (flags ^ line.flags) & ~_LEVEL
        or needs & 0xFF > _VERSION
    ):
        raise Refused(f"says two different things of {said}")
    begin = line.at + _RECORD.size + name_length + extra_length
    after = line.next - begin - line.packed
    follow = bool(flags & _SIZES_FOLLOW)
    if any(
        stated != true and not (follow and stated == 0) for stated, true in zip(sums, line.sums, strict=True)
    ):
        raise Refused(f"says two different things of the size of {said}")
    file.seek(begin + line.packed)
    if after < 0 or file.read(min(after, PIECE)) not in (_sums_behind(line) if follow else (b"",)):
        raise Refused(f"holds something between {said} and what comes next")
    return begin


def _sums_behind(line: _Line) -> tuple[bytes, bytes]:
    """The forms in which sum and sizes may stand behind a content."""
    form = struct.pack("<3L", *line.sums)
    return form, _SIZES_MARK + form


# -- contents -----------------------------------------------------------------------------------------


def _stored(file: BinaryIO, line: _Line) -> Iterator[bytes]:
    left = line.packed
    while left and (piece := file.read(min(left, PIECE))):
        left -= len(piece)
        yield piece


def _inflated(file: BinaryIO, line: _Line) -> Iterator[bytes]:
    """Raises `Refused` where the stream is broken, or ends elsewhere than the record."""
    stream = zlib.decompressobj(-zlib.MAX_WBITS)
    left, waiting = line.packed, b""
    try:
        while not stream.eof:
            if not waiting and left:
                waiting = file.read(min(left, PIECE))
                left -= len(waiting)
            piece = stream.decompress(waiting, PIECE)
            if not piece and not waiting and not stream.eof:
                break
            waiting = stream.unconsumed_tail
            yield piece
    except zlib.error as error:
        raise Refused(f"is damaged: {shown(_text(line.name))} cannot be unpacked") from error
    if not stream.eof or stream.unused_data or left:
        raise Refused(f"is damaged: {shown(_text(line.name))} ends elsewhere than it says")


def _checked(name: str, line: _Line, pieces: Iterator[bytes]) -> Iterator[bytes]:
    """The pieces, which must come to the size and the sum that the directory states."""
    size, crc = 0, 0
    for piece in pieces:
        size, crc = size + len(piece), zlib.crc32(piece, crc)
        if size > line.size:
            break
        yield piece
    if (size, crc) != (line.size, line.crc):
        raise Refused(f"is damaged: {shown(name)} does not fit its sum")
