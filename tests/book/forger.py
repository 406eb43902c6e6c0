"""A forger: archives and folders that pass themselves off as a genuine handover, made by rule.

Archives are written record by record, so that they may say what no ordinary tool would write: one name in the local
record and another in the directory, a record that the directory does not list, the same name twice. Every pair of
name trick, place and content trick makes one forgery; what those do not reach is made by hand.
"""

from __future__ import annotations

import hashlib
import json
import os
import struct
import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from buildbook.book.sealed.seal import whole

TOP = "2026-015-hall-bench"
FILE, LINK, PIPE = 0o100644, 0o120777, 0o010644
STORED, DEFLATED = 0, 8
BLANK = b"0000-0000-0000-0000-0"
PRINTS = ("care-card.pdf", "care-booklet.pdf")

Files = dict[str, bytes]
"""Name inside the handover and content."""


@dataclass(frozen=True)
class Record:
    """One record of an archive, written as it stands, true or not. None of the statements: the true one."""

    name: str | bytes
    content: bytes = b""
    mode: int = FILE
    method: int = STORED
    flags: int = 0
    local_name: str | bytes | None = None
    local_content: bytes | None = None
    body: bytes | None = None  # what is stored, where the content is not
    local_flags: int | None = None
    extra: bytes = b""
    local_extra: bytes = b""
    comment: bytes = b""
    states_size: int | None = None
    local_size: int | None = None
    crc: int | None = None
    listed: bool = True
    stored: bool = True
    before: bytes = b""  # bytes in front of it that belong to no record
    descriptor: bool = False  # sizes follow the content, as tools write that cannot go back
    system: int = 3
    needs: int = 20
    attributes: int = 0
    marked: bool = True  # as in UTF-8, where its name is not plain


def packed(
    records: list[Record],
    *,
    front: bytes = b"",
    gap: bytes = b"",
    behind: bytes = b"",
    comment: bytes = b"",
    end: bytes = b"",
) -> bytes:
    """The archive: `front` before all, `gap` before and `behind` after the directory, `end` after all."""
    out, directory, count = bytearray(front), bytearray(), 0
    for record in records:
        out += record.before
        at = len(out)
        name, local_name = _raw(record.name), _raw(record.local_name or record.name)
        content = record.content if record.local_content is None else record.local_content
        body = record.body or (_deflated(content) if record.method == DEFLATED else content)
        size = len(content) if record.states_size is None else record.states_size
        crc = zlib.crc32(content) if record.crc is None else record.crc
        flags = (
            record.flags
            | (0x800 if record.marked and not name.isascii() else 0)
            | (8 if record.descriptor else 0)
        )
        sizes = struct.pack("<III", crc, len(body), size)
        if record.stored:
            local_flags = flags if record.local_flags is None else record.local_flags
            out += struct.pack("<4sHHHHH", b"PK\3\4", record.needs, local_flags, record.method, 0, 0x21)
            own_sizes = (
                sizes if record.local_size is None else sizes[:8] + struct.pack("<I", record.local_size)
            )
            out += bytes(12) if record.descriptor else own_sizes
            out += struct.pack("<HH", len(local_name), len(record.local_extra))
            out += local_name + record.local_extra + body
            if record.descriptor:
                out += b"PK\7\10" + sizes
        if record.listed:
            count += 1
            directory += struct.pack(
                "<4sBBHHHHH", b"PK\1\2", 20, record.system, record.needs, flags, record.method, 0, 0x21
            )
            directory += sizes + struct.pack("<HHH", len(name), len(record.extra), len(record.comment))
            directory += struct.pack("<HHII", 0, 0, record.mode << 16 | record.attributes, at)
            directory += name + record.extra + record.comment
    out += gap
    at = len(out)
    out += directory + behind
    out += struct.pack("<4sHHHHIIH", b"PK\5\6", 0, 0, count, count, len(directory), at, len(comment))
    return bytes(out + comment + end)


def _raw(name: str | bytes) -> bytes:
    return name if isinstance(name, bytes) else name.encode("utf-8", "surrogatepass")


def _deflated(content: bytes) -> bytes:
    press = zlib.compressobj(9, zlib.DEFLATED, -15)
    return press.compress(content) + press.flush()


def records_of(files: Files, top: str = TOP) -> list[Record]:
    """The genuine records, in order of their names."""
    return [Record(f"{top}/{name}", content) for name, content in sorted(files.items())]


def resealed(files: Files, **digests: str) -> Files:
    """The files with a list and a whole fingerprint that fit them, under the record's fingerprint that was there.

    Whoever forges has our program too.
    """
    facts = json.loads(files["seal.json"])
    others = {name: content for name, content in files.items() if name != "seal.json"}
    listed = {name: hashlib.sha256(content).hexdigest() for name, content in others.items()} | digests
    facts |= {"whole": whole(listed), "files": dict(sorted(listed.items()))}
    return files | {"seal.json": seal_text(facts)}


def seal_text(facts: dict[str, object]) -> bytes:
    return (json.dumps(facts, indent=1) + "\n").encode()


# -- by rule: name × place × content ------------------------------------------------------------------


@dataclass(frozen=True)
class Forgery:
    """An archive that is not the genuine one, what it tries, and under which head it is counted."""

    attack: str
    what: str
    archive: bytes


NAMES: dict[str, str] = {
    "the page’s name": "index.html",
    "the page’s name in capitals": "INDEX.HTML",
    "one capital": "Index.html",
    "a name like the page’s": "index.htm",
    "a wide letter": "ｉndex.html",
    "a decomposed letter": "i\u0307ndex.html",
    "a direction mark": "\u202eindex.html",
    "up one folder": "../index.html",
    "this folder": "./index.html",
    "up and back": "photos/../index.html",
    "two slashes": "photos//index.html",
    "absolute": "/index.html",
    "a drive": "C:/index.html",
    "a drive and a backslash": "C:\\index.html",
    "a backslash": "photos\\index.html",
    "a line break": "index.html\n",
    "a line break and a digest": "care.ics\n" + "0" * 64 + "  index.html",
    "a NUL": "index.html\0.jpg",
    "a dot at the end": "index.html.",
    "a space at the end": "index.html ",
    "hidden": ".index.html",
    "a stream": "index.html::$DATA",
    "another PDF": "warranty.pdf",
    "the card": "care-card.pdf",
    "the seal": "seal.json",
    "a picture’s name": "photos/0123456789abcdef-504.jpg",
    "a folder’s name": "index.html/",
    "5,000 signs": "i" * 5000,
}  # fmt: skip


def _false(page: bytes) -> bytes:
    return page.replace(b"</main>", b"<p>It may be washed with acetone.</p></main>", 1)


def _zeros(page: bytes, fingerprint: bytes) -> bytes:
    return page.replace(fingerprint, BLANK)


@dataclass(frozen=True)
class Content:
    """What is put there, as what kind of file, and whether the list in the seal is made to fit."""

    content: bytes
    mode: int = FILE
    listed: bool = False


def contents(files: Files) -> dict[str, Content]:
    """The content tricks."""
    page = files["index.html"]
    fingerprint = json.loads(files["seal.json"])["fingerprint"].encode()
    pdf = b"%PDF-1.7\n% nobody sealed this\n%%EOF\n"
    other = resealed(files | {"index.html": _false(page)})["seal.json"]
    return {
        "a false page": Content(_false(page)),
        "a false page, listed": Content(_false(page), listed=True),
        "zeros for the fingerprint": Content(_zeros(page, fingerprint)),
        "zeros for the fingerprint, listed": Content(_zeros(page, fingerprint), listed=True),
        "the page again": Content(page),
        "nothing": Content(b""),
        "a PDF, listed": Content(pdf, listed=True),
        "a seal that fits a false page": Content(other),
        "a link": Content(b"/etc/hostname", LINK),
    }


def _beside(prefix: str, *, first: bool) -> Callable[[Files, str, Content], list[Record]]:
    def place(files: Files, name: str, made: Content) -> list[Record]:
        forged = Record(prefix + name, made.content, made.mode)
        inside = prefix == f"{TOP}/"
        rest = records_of(_listing(files, name, made) if made.listed and inside else files)
        return [forged, *rest] if first else [*rest, forged]

    return place


def _listing(files: Files, name: str, made: Content) -> Files:
    return resealed(files, **{name: hashlib.sha256(made.content).hexdigest()})


def _instead(files: Files, name: str, made: Content) -> list[Record]:
    """In the place of the genuine page, or of the file that bears the name."""
    away = name if name in files and name != "seal.json" else "index.html"
    left = {n: c for n, c in files.items() if n != away}
    if made.listed:
        left = resealed(left, **{name: hashlib.sha256(made.content).hexdigest()})
    return [*records_of(left), Record(f"{TOP}/{name}", made.content, made.mode)]


def _unlisted(files: Files, name: str, made: Content) -> list[Record]:
    """In the archive, but not in its directory: what reads from the front finds it."""
    return [Record(f"{TOP}/{name}", made.content, made.mode, listed=False), *records_of(files)]


def _two_names(files: Files, name: str, made: Content) -> list[Record]:
    """The directory calls it the page, its own record calls it otherwise."""
    rest = [r for r in records_of(files) if r.name != f"{TOP}/index.html"]
    page = Record(f"{TOP}/index.html", files["index.html"], made.mode, local_name=f"{TOP}/{name}")
    return [*rest, page, Record(f"{TOP}/{name}", made.content, made.mode)]


PLACES: dict[str, Callable[[Files, str, Content], list[Record]]] = {
    "the archive’s root, first": _beside("", first=True),
    "the archive’s root, last": _beside("", first=False),
    "a second folder, first": _beside("0-bench/", first=True),
    "a second folder, last": _beside("hall-bench/", first=False),
    "the folder in capitals": _beside(f"{TOP.upper()}/", first=False),
    "the folder, first": _beside(f"{TOP}/", first=True),
    "the folder, last": _beside(f"{TOP}/", first=False),
    "a folder in the folder": _beside(f"{TOP}/pages/", first=False),
    "instead of the genuine": _instead,
    "no line in the directory": _unlisted,
    "two names of one record": _two_names,
}


def by_rule(files: Files) -> Iterator[Forgery]:
    """Every name trick at every place with every content trick, each once; the genuine one is left out."""
    made = {packed(records_of(files))}
    genuine = _seen(records_of(files))
    for place_name, place in PLACES.items():
        for name_trick, name in NAMES.items():
            for content_trick, content in contents(files).items():
                records = place(files, name, content)
                archive = packed(records)
                if archive not in made and _seen(records) != genuine:
                    made.add(archive)
                    what = f"{name_trick}; {place_name}; {content_trick}"
                    yield Forgery(f"by rule: {place_name}", what, archive)


def _seen(records: list[Record]) -> list[tuple[object, ...]]:
    return sorted((_raw(r.name), r.content, r.mode, r.listed, _raw(r.local_name or r.name)) for r in records)


# -- by hand ------------------------------------------------------------------------------------------


def by_hand(files: Files) -> Iterator[Forgery]:
    """The forgeries that a person thinks of, and those that the format of archives allows."""
    yield from _of_names(files)
    yield from _of_contents(files)
    yield from _of_seals(files)
    yield from _of_format(files)


def _of_names(files: Files) -> Iterator[Forgery]:
    page, rest = files["index.html"], records_of(files)
    false = _false(page)
    for what, name in {
        "a false page at the archive’s root": "index.html",
        "a false page in a second folder": "care/index.html",
        "a false page in the folder above": "../index.html",
        "a false page by way of the folder above": f"{TOP}/../{TOP}/index.html",
        "a false page under ./": f"./{TOP}/index.html",
        "a false page under an absolute name": f"/{TOP}/index.html",
        "a false page under a name with backslashes": f"{TOP}\\index.html",
        "a false page on a drive": f"C:/{TOP}/index.html",
        "a false page under the same name": f"{TOP}/index.html",
        "a false page under the same name but for capitals": f"{TOP}/INDEX.html",
    }.items():
        yield Forgery("by hand: names", what, packed([Record(name, false), *rest]))
        yield Forgery("by hand: names", f"{what}, last", packed([*rest, Record(name, false)]))
    yield Forgery("by hand: names", "no folder at all", packed([Record(n, c) for n, c in files.items()]))
    lying = [Record(r.name, r.content, local_name=f"care/{n}") for r, n in zip(rest, files, strict=True)]
    yield Forgery("by hand: names", "another folder in every record", packed(lying))
    changed = resealed(files | {"index.html": false})
    copy_first = [*records_of(files, "a-genuine-copy"), *records_of(changed)]
    yield Forgery("by hand: names", "the sealed copy first, then a false one", packed(copy_first))
    for what, top in {
        "the folder above": "..",
        "this folder": ".",
        "no folder": "",
        "a drive": "C:",
        "a folder on a drive": "C:bench",
        "a folder with a backslash": "..\\bench",
        "a folder with a line break": "bench\n",
        "a folder that moves the cursor": "\x1b[1A",
        "a folder of 5,000 signs": "b" * 5000,
    }.items():
        yield Forgery("by hand: names", f"the genuine files in {what}", packed(records_of(files, top)))
    inside = records_of(files, f"{TOP}/{TOP}")
    yield Forgery(
        "by hand: names", "the sealed copy in a folder of it", packed([*records_of(changed), *inside])
    )
    other_name = (
        struct.pack("<HHBI", 0x7075, 5 + 10, 1, zlib.crc32(f"{TOP}/care.ics".encode())) + b"index.html"
    )
    ics = [replace(r, extra=other_name) if r.name == f"{TOP}/care.ics" else r for r in rest]
    yield Forgery("by hand: names", "another name in Unicode beside the name", packed(ics))
    accented = records_of(files, "Stühle")
    halves = [replace(r, marked=bool(number % 2)) for number, r in enumerate(accented)]
    yield Forgery("by hand: names", "one folder that some readers take for two, by a mark", packed(halves))
    for number, record in enumerate(accented):
        again = _unicode_name(record.name) if number % 2 else b""
        halves[number] = replace(record, marked=False, extra=again, local_extra=again)
    yield Forgery("by hand: names", "one folder that some readers take for two, by a field", packed(halves))
    twice = [replace(r, marked=False, local_extra=_unicode_name(r.name)) for r in accented]
    yield Forgery("by hand: names", "a name in Unicode in the records, not in the directory", packed(twice))


def _unicode_name(name: str | bytes) -> bytes:
    """The further field that says the name once more, in UTF-8."""
    raw = _raw(name)
    return struct.pack("<HHBI", 0x7075, 5 + len(raw), 1, zlib.crc32(raw)) + raw


def _of_contents(files: Files) -> Iterator[Forgery]:
    page = files["index.html"]
    stated = json.loads(files["seal.json"])["fingerprint"].encode()
    zeros = files | {"index.html": _zeros(page, stated)}
    yield Forgery("by hand: contents", "a page with zeros", packed(records_of(zeros)))
    yield Forgery("by hand: contents", "a page with zeros, listed", packed(records_of(resealed(zeros))))
    twice = files | {"index.html": page.replace(stated, stated + b" " + BLANK)}
    yield Forgery("by hand: contents", "zeros beside the fingerprint", packed(records_of(resealed(twice))))
    without = resealed({name: content for name, content in zeros.items() if name not in PRINTS})
    yield Forgery("by hand: contents", "zeros, and no prints", packed(records_of(without)))
    for name in files:
        gone = {n: c for n, c in files.items() if n != name}
        yield Forgery("by hand: contents", f"without {name}", packed(records_of(gone)))
        if name != "seal.json":
            other = files | {name: files[name][:-1] + bytes([files[name][-1] ^ 1])}
            yield Forgery("by hand: contents", f"one bit of {name}", packed(records_of(other)))
            both = records_of(resealed(other))
            yield Forgery("by hand: contents", f"one bit of {name}, listed", packed(both))
            yield Forgery(
                "by hand: contents", f"without {name}, not listed", packed(records_of(resealed(gone)))
            )
    for name in PRINTS:
        other = resealed(files | {name: b"%PDF-1.7\n% another card\n%%EOF\n"})
        yield Forgery("by hand: contents", f"another {name}, listed", packed(records_of(other)))
    added = resealed(files | {"guarantee.pdf": b"%PDF-1.7\n% for life\n%%EOF\n"})
    yield Forgery("by hand: contents", "a PDF more, listed", packed(records_of(added)))
    small = resealed(files | {"photos/0123456789abcdef-504.jpg": b"\xff\xd8 no picture of ours"})
    yield Forgery("by hand: contents", "a picture more, listed", packed(records_of(small)))
    inner = files | {"genuine.zip": packed(records_of(files))}
    yield Forgery("by hand: contents", "the genuine archive inside", packed(records_of(resealed(inner))))


def _of_seals(files: Files) -> Iterator[Forgery]:
    facts = json.loads(files["seal.json"])
    text = files["seal.json"].decode()
    page = hashlib.sha256(_false(files["index.html"])).hexdigest()
    breaking = f"care.ics\n{facts['files']['index.html']}  index.html"

    def seal(what: str, content: str | bytes) -> Forgery:
        raw = content if isinstance(content, bytes) else content.encode("utf-8", "surrogatepass")
        return Forgery("by hand: seals", what, packed(records_of(files | {"seal.json": raw})))

    def made(**more: object) -> str:
        return json.dumps(facts | more, indent=1) + "\n"

    digests = dict(facts["files"])
    yield seal("a line break in a listed name", made(files=digests | {breaking: page}))
    yield seal("the same key twice", text.replace('"schema"', '"fingerprint": "0",\n "schema"', 1))
    yield seal(
        "the same name twice in the list",
        text.replace('"files": {', f'"files": {{\n  "index.html": "{page}",', 1),
    )
    yield seal("a second list", text.replace('"files"', '"files": {},\n "files"', 1))
    yield seal("one more key", made(words="Sealed by the best shop in the county."))
    yield seal("digests in capitals", made(files={n: d.upper() for n, d in digests.items()}))
    yield seal("short digests", made(files={n: d[:8] for n, d in digests.items()}))
    yield seal("no digests", made(files=dict.fromkeys(digests, "")))
    yield seal("numbers for digests", made(files=dict.fromkeys(digests, 1)))
    yield seal("an empty list", made(files={}))
    yield seal("a list that lists itself", made(files=digests | {"seal.json": page}))
    yield seal("another schema", made(schema=2))
    yield seal("true for a schema", made(schema=True))
    yield seal("a fingerprint of zeros", made(fingerprint=BLANK.decode()))
    yield seal("a fingerprint in small letters", made(fingerprint=str(facts["fingerprint"]).lower()))
    yield seal("a fingerprint that is a sign of the page", made(fingerprint="e"))
    yield seal("no fingerprint", made(fingerprint=""))
    yield seal("something after the seal", text + "{}")
    yield seal("spaces that say something", text.replace("{", "{\t\t \t", 1))
    yield seal("a lone surrogate", made(files=digests | {"\ud800.jpg": page}))
    yield seal("200,000 brackets", "[" * 200_000)
    yield seal("a name of 5,000 signs", made(files=digests | {"n" * 5000: page}))
    yield seal("not UTF-8", text.encode("utf-16"))


def _of_format(files: Files) -> Iterator[Forgery]:
    rest, false = records_of(files), _false(files["index.html"])
    changed = records_of(resealed(files | {"index.html": false}))

    def made(what: str, archive: bytes) -> Forgery:
        return Forgery("by hand: the archive", what, archive)

    def page(**more: object) -> bytes:
        return packed([replace(r, **more) if r.name == f"{TOP}/index.html" else r for r in rest])  # type: ignore[arg-type]

    genuine = packed(rest)
    yield made("another archive in front", packed(changed) + genuine)
    yield made("another archive behind", genuine + packed(changed))
    yield made("a page in front", packed(rest, front=false))
    yield made("a page behind", packed(rest, end=false))
    yield made("a page before the directory", packed(rest, gap=false))
    yield made("a page behind the directory", packed(rest, behind=false))
    hidden = _deflated(files["index.html"]) + false
    yield made("a page behind the end of a packed one", page(method=DEFLATED, body=hidden))
    cut = _deflated(files["index.html"])[:-4]
    yield made("a packed page without its end", page(method=DEFLATED, body=cut))
    yield made("a page between two records", page(before=false))
    yield made(
        "another archive as the comment", packed(rest, comment=packed([Record(f"{TOP}/index.html", false)]))
    )
    yield made("a comment", packed(rest, comment=b"Sealed by the shop."))
    yield made("a comment with a record", page(comment=b"Sealed by the shop."))
    yield made("another page in the record than its sum says", page(local_content=false))
    yield made("a record said to be locked", page(flags=1))
    yield made("a record locked in its own words", page(local_flags=1))
    yield made("strong locks", page(flags=0x2041))
    yield made("another way of packing", page(method=99))
    yield made("for a reader of another age", page(needs=200))
    yield made("a size that is too small", page(states_size=10))
    yield made("a size that is too large", page(states_size=len(files["index.html"]) + 1))
    yield made("another size in its own words", page(local_size=10))
    yield made("a wrong sum", page(crc=1))
    yield made("a page that is a link", page(mode=LINK))
    yield made("a page that is a pipe", page(mode=PIPE))
    yield made("a page that is a device", page(mode=0o020644))
    yield made("a page that is a folder", page(attributes=0x10))
    yield made("a page that points elsewhere, as one system has it", page(attributes=0x400, system=0))
    yield made("a record of which nothing is stored", page(stored=False))
    yield made(
        "something in a field that nobody reads", page(local_extra=struct.pack("<HH", 0x4242, 4) + b"note")
    )
    yield made("half of it", genuine[: len(genuine) // 2])
    yield made("nothing but an end", packed([]))
    yield made("only folders", packed([Record(f"{TOP}/", mode=0o040755)]))
    yield made("a folder that holds something", packed([*rest, Record(f"{TOP}/photos/", false, 0o040755)]))
    yield made("a folder more", packed([*rest, Record(f"{TOP}/notes/", mode=0o040755)]))


# -- folders ------------------------------------------------------------------------------------------


def folders(files: Files) -> dict[str, Callable[[Path], None]]:
    """What may be done to a genuine folder; each is handed a fresh copy of it."""
    false = _false(files["index.html"])
    stated = json.loads(files["seal.json"])["fingerprint"].encode()

    def put(name: str, content: bytes, *, listed: bool = False) -> Callable[[Path], None]:
        def do(folder: Path) -> None:
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(content)
            if listed:
                (folder / "seal.json").write_bytes(resealed(files | {name: content})["seal.json"])

        return do

    def link(name: str, to: str) -> Callable[[Path], None]:
        def do(folder: Path) -> None:
            if name in files:
                (folder / name).rename(folder.parent / "aside")
            (folder / name).symlink_to(to)

        return do

    def whole_folder_linked(folder: Path) -> None:
        (folder / "photos").rename(folder.parent / "pictures")
        (folder / "photos").symlink_to(folder.parent / "pictures")

    def pipe(name: str) -> Callable[[Path], None]:
        def do(folder: Path) -> None:
            (folder / name).unlink(missing_ok=True)
            os.mkfifo(folder / name)

        return do

    return {
        "a false page": put("index.html", false),
        "a false page, listed": put("index.html", false, listed=True),
        "zeros, listed": put("index.html", _zeros(files["index.html"], stated), listed=True),
        "a page more": put("index.htm", false),
        "a page more, listed": put("index.htm", false, listed=True),
        "a page in capitals": put("INDEX.HTML", false),
        "a PDF more, listed": put("guarantee.pdf", b"%PDF", listed=True),
        "another card, listed": put("care-card.pdf", b"%PDF", listed=True),
        "a hidden file": put(".htaccess", b"Redirect / /false"),
        "a folder more": put("en/index.html", false),
        "a folder deep down": put("photos/more/index.html", false),
        "a file among the pictures": put("photos/index.html", false),
        "a name with a line break, listed": put("care.ics\n.html", false, listed=True),
        "the page by a link to the same bytes": link("index.html", "../aside"),
        "a link that leads out": link("notes.html", "/etc/hostname"),
        "a link that leads nowhere": link("notes.html", "nowhere"),
        "a link to itself": link("photos/loop", "."),
        "the pictures by a link": whole_folder_linked,
        "a pipe": pipe("notes.html"),
        "a pipe for the page": pipe("index.html"),
        "a pipe for the seal": pipe("seal.json"),
    }
