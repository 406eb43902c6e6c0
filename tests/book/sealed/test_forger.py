"""No forgery is vouched for; every honest copy of the genuine handover is.

What a reader is shown is told by `zipfile`, which takes whatever can be read at all, not by the code that is tested.
"""

import io
import json
import random
import shutil
import warnings
import zipfile
from dataclasses import replace

import pytest

from buildbook.book.bind import bind
from buildbook.book.sealed.verify import verify
from tests.book import forger
from tests.book.forger import TOP, Record, packed, records_of
from tests.conftest import every_file, noise


@pytest.fixture(scope="module")
def genuine(tmp_path_factory):
    """A handover with little in it, bound by the program: its folder."""
    place = tmp_path_factory.mktemp("genuine")
    job = place / TOP
    (job / "photos").mkdir(parents=True)
    job.joinpath("job.toml").write_text(
        'title = "Hall bench"\nnumber = "2026-015"\nunits = "mm"\n[photos]\nlead = "photos/a.jpg"\n'
    )
    job.joinpath("notes.md").write_text("## 2026-01-05 Begun\n\nHours: design 1\n")
    job.joinpath("photos/a.jpg").write_bytes(noise(1, (64, 48)))
    assert bind(job, place / "book").ok
    return place / "book" / "handover" / TOP


@pytest.fixture(scope="module")
def files(genuine):
    return every_file(genuine)


@pytest.fixture(scope="module")
def stated(files):
    """The genuine fingerprints: of the record, and of the whole."""
    facts = json.loads(files["seal.json"])
    return facts["fingerprint"], facts["whole"]


def shown(archive):
    """What a reader is shown by an archive: each name with its content, in any order."""
    with zipfile.ZipFile(io.BytesIO(archive)) as opened:
        return sorted((info.filename, opened.read(info)) for info in opened.infolist() if not info.is_dir())


def gets_through(path, archive, files, stated):
    """Whether a forgery is vouched for: all of it by the whole fingerprint, or a false part of it by the record's.

    The record's says nothing of the prints, so those alone may differ under it, if nothing is said of them.
    """
    record, whole = stated
    path.write_bytes(archive)
    if verify(path, whole).ok:
        return True
    verdict = verify(path, record)
    if not verdict.ok:
        return False
    own = {f"{TOP}/{name}": content for name, content in files.items()}
    unsealed = {f"{TOP}/{name}" for name in (*forger.PRINTS, "seal.json")}
    found = shown(archive)
    false = [name for name, content in found if name not in unsealed and own.get(name) != content]
    return bool(
        false
        or sorted(own) != [name for name, _ in found]
        or verdict.checked != {"record": "record", "prints": "list"}
    )


def test_no_forgery_made_by_rule_gets_through(files, stated, tmp_path):
    tried, through = set(), []
    for forgery in forger.by_rule(files):
        tried.add(forgery.archive)
        if gets_through(tmp_path / "forged.zip", forgery.archive, files, stated):
            through.append((forgery.attack, forgery.what))
    assert not through
    assert len(tried) >= 500
    assert packed(records_of(files)) not in tried


def test_no_forgery_made_by_hand_gets_through(files, stated, tmp_path):
    tried = list(forger.by_hand(files))
    through = [
        (forgery.attack, forgery.what)
        for forgery in tried
        if gets_through(tmp_path / "forged.zip", forgery.archive, files, stated)
    ]
    assert not through
    assert len({forgery.archive for forgery in tried}) == len(tried) > 100


def test_no_forged_folder_gets_through(genuine, stated, tmp_path):
    record, whole = stated
    for number, (what, forge) in enumerate(forger.folders(every_file(genuine)).items()):
        folder = tmp_path / str(number) / TOP
        shutil.copytree(genuine, folder)
        assert verify(folder, whole).ok
        forge(folder)
        assert not verify(folder, whole).ok, what
        assert not verify(folder).ok or verify(folder).whole != whole, what
        verdict = verify(folder, record)
        changed = {n for n, c in every_file(folder).items() if every_file(genuine).get(n) != c}
        assert not verdict.ok or (
            changed <= {*forger.PRINTS, "seal.json"} and verdict.checked["prints"] == "list"
        )


def test_bytes_changed_at_random_show_nothing_else(files, stated, tmp_path):
    """Whatever is done to the archive: if it is vouched for, then a reader sees what was sealed."""
    whole = packed(
        [replace(r, method=forger.DEFLATED, descriptor=n % 2 == 0) for n, r in enumerate(records_of(files))]
    )
    chance, path, vouched = random.Random(7), tmp_path / "changed.zip", 0
    honest = shown(whole)
    directory = whole.index(b"PK\1\2")
    starts = [n for n in range(directory) if whole.startswith(b"PK\3\4", n)]
    for _ in range(1500):
        changed = bytearray(whole)
        for _ in range(chance.choice((1, 1, 2, 4))):
            start, stop = chance.choice(
                [(directory, len(whole)), *((s, s + 90) for s in starts), (0, len(whole))]
            )
            at = chance.randrange(start, stop)
            match chance.randrange(4):
                case 0:
                    changed[at : at + 1] = b""
                case 1:
                    changed[at:at] = chance.randbytes(1)
                case _:
                    changed[at] = chance.choice(
                        (changed[at] ^ 1 << chance.randrange(8), chance.randrange(256))
                    )
            del at
        path.write_bytes(changed)
        if bytes(changed) != whole and verify(path, stated[1]).ok:
            vouched += 1
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                assert shown(bytes(changed)) == honest
    assert vouched  # times, and whatever else shows nothing


# -- what is genuine ----------------------------------------------------------------------------------

TIMES = b"UT\x09\x00\x03" + bytes(8) + b"ux\x0b\x00\x01\x04" + bytes(4) + b"\x04" + bytes(4)
NTFS = b"\x0a\x00\x20\x00" + bytes(4) + b"\x01\x00\x18\x00" + bytes(24)


def again(files, top=TOP, *, method=zipfile.ZIP_DEFLATED, backwards=False, folders=False, streamed=False):
    """Packed anew as another tool might."""

    class Away(io.BytesIO):
        def seekable(self):
            return False

        def tell(self):
            raise OSError("cannot tell")

    out = Away() if streamed else io.BytesIO()
    with zipfile.ZipFile(out, "w", method) as archive:
        if folders:
            archive.mkdir(top)
            archive.mkdir(f"{top}/photos")
        for name in sorted(files, reverse=backwards):
            archive.writestr(zipfile.ZipInfo(f"{top}/{name}", (2031, 5, 12, 8, 0, 0)), files[name], method)
    return out.getvalue()


GENUINE = {
    "as it was": lambda files: again(files),
    "in another order": lambda files: again(files, backwards=True),
    "stored": lambda files: again(files, method=zipfile.ZIP_STORED),
    "with lines for folders": lambda files: again(files, folders=True),
    "streamed": lambda files: again(files, streamed=True),
    "under another name": lambda files: again(files, "Für Sie"),
    "under a name in an old code": lambda files: packed(
        [Record(f"Für Sie/{n}".encode("cp437"), c) for n, c in files.items()]
    ),
    "with times and owners": lambda files: packed(
        [replace(r, extra=TIMES, local_extra=TIMES) for r in records_of(files)]
    ),
    "with the times of another system": lambda files: packed(
        [replace(r, extra=NTFS, mode=0, system=0, attributes=0x20) for r in records_of(files)]
    ),
    "sizes behind, and in front too": lambda files: packed(
        [replace(r, flags=8, method=forger.DEFLATED, descriptor=True) for r in records_of(files)]
    ),
}


@pytest.mark.parametrize("how", GENUINE)
def test_the_genuine_archive_passes_however_it_was_packed(how, files, stated, tmp_path):
    path = tmp_path / "a.zip"
    path.write_bytes(GENUINE[how](files))
    record, whole = stated
    assert (verify(path).fingerprint, verify(path).whole) == stated
    assert verify(path, record).checked == {"record": "record", "prints": "list"}
    assert verify(path, whole).checked == {"record": "whole", "prints": "whole"}


def test_the_genuine_folder_passes_also_with_second_links_to_its_files(genuine, stated, tmp_path):
    """A backup that keeps what is alike but once links files hard: it is their bytes that count."""
    folder = shutil.copytree(genuine, tmp_path / "copy")
    (tmp_path / "second").hardlink_to(folder / "index.html")
    assert verify(folder, stated[1]).ok
