"""What `verify` says, and that nothing it is asked about takes it long: limits of time and memory are the system's."""

import bz2
import json
import os
import struct
import subprocess
import sys
import zipfile
import zlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook import limits
from buildbook.book.sealed import seal
from buildbook.book.sealed.names import ALWAYS, is_ours, shown
from buildbook.book.sealed.verify import verify
from buildbook.cli import main
from buildbook.render.copies import copies_of
from tests.book.forger import TOP, Record, packed, records_of
from tests.conftest import every_file

# -- what is said -------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def handover(bound_sample):
    return bound_sample / "handover" / "sample_job"


@pytest.fixture(scope="module")
def stated(handover):
    facts = json.loads((handover / "seal.json").read_text("utf-8"))
    return facts["fingerprint"], facts["whole"]


def test_without_a_fingerprint_nothing_is_vouched_for(handover, stated, capsys):
    assert main(["verify", str(handover)]) == 0
    out, _ = capsys.readouterr()
    assert all(fingerprint in out for fingerprint in stated)
    assert "as the list that came with them says" in out
    assert "as it was sealed" not in out
    assert "as they were sealed" not in out
    assert "genuine" not in out
    assert main(["verify", str(handover), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["checked"] == {"record": "list", "prints": "list"}


def test_by_the_record_all_but_the_prints_are_vouched_for(handover, stated, capsys):
    typed = stated[0].lower().replace("-", " ")
    assert main(["verify", str(handover), "--fingerprint", typed]) == 0
    out, _ = capsys.readouterr()
    assert "pictures, the dates and the record for programs are as they were sealed" in out
    assert "The prints (care-card.pdf, care-booklet.pdf) are only as the list that came with them says" in out


def test_by_the_whole_everything_is_vouched_for(handover, stated, capsys):
    assert main(["verify", str(handover), "--fingerprint", stated[1]]) == 0
    assert "Every file is as it was sealed, the prints too" in capsys.readouterr().out


def test_another_piece_s_fingerprint_does_not_fit(handover, capsys):
    other = seal.grouped("7" * seal.SYMBOLS)
    assert main(["verify", str(handover), "--fingerprint", other]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert f"does not fit the fingerprint {other}" in err


def test_a_slip_in_what_was_read_out_is_told_as_such(handover, stated, capsys):
    slipped = ("3" if stated[0][0] != "3" else "4") + stated[0][1:]
    for typed, said in (
        (slipped, "holds a slip"),
        (stated[0][:-1], "has 16 letters and digits"),
        ("", "has 0"),
    ):
        assert main(["verify", str(handover), "--fingerprint", typed]) == 2
        assert said in capsys.readouterr().err


SMALL = {"job.toml": 'title = "A"\n', "notes.md": "## 2026-01-01 x\n\ny\n"}


def test_handover_tells_both_fingerprints(make_job, tmp_path, capsys):
    folder = str(make_job("small", **SMALL))
    assert main(["handover", folder, "--to", str(tmp_path), "--json"]) == 0
    facts = json.loads(capsys.readouterr().out)
    with zipfile.ZipFile(tmp_path / "a-draft.zip") as archive:
        sealed = json.loads(archive.read("a/seal.json"))
    assert (facts["fingerprint"], facts["whole"]) == (sealed["fingerprint"], sealed["whole"])
    assert main(["handover", folder, "--to", str(tmp_path)]) == 0
    out, _ = capsys.readouterr()
    assert sealed["fingerprint"] in out
    assert sealed["whole"] in out


def test_what_would_not_be_vouched_for_is_not_packed(make_job, tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(limits, "HANDED_FILE_BYTES", 1000)
    assert main(["handover", str(make_job("small", **SMALL)), "--to", str(tmp_path / "out")]) == 1
    assert "would not stand its own check: it holds" in capsys.readouterr().err
    assert not list((tmp_path / "out").iterdir())


def test_a_thing_that_is_no_handover_is_said_to_be_none(sample, tmp_path, capsys):
    (tmp_path / "letter.txt").write_text("Dear client")
    for thing in (sample, tmp_path / "letter.txt"):
        assert main(["verify", str(thing)]) == 1
        assert "no handover" in capsys.readouterr().err


def test_what_names_hold_does_not_reach_the_terminal(handover, tmp_path, capsys):
    files = every_file(handover)
    for name in ("\x1b]0;gotcha\x07.html", "\u202elmth.xedni", "\x9b2J", "a" * 400):
        (tmp_path / "a.zip").write_bytes(packed([*records_of(files), Record(f"{TOP}/{name}", b"")]))
        main(["verify", str(tmp_path / "a.zip")])
        out, err = capsys.readouterr()
        assert all(sign.isprintable() for sign in (out + err).replace("\n", ""))
        assert max(map(len, err.splitlines())) < 300


# -- names --------------------------------------------------------------------------------------------


@given(st.text(), st.integers(1, 60_000), st.integers(1, 60_000))
def test_every_name_of_a_picture_is_known_as_ours(digest, width, height):
    assert all(is_ours(f"photos/{copy.name}") for copy in copies_of(digest, width, height))


def test_every_file_that_is_handed_over_has_a_name_of_ours(handover):
    names = set(every_file(handover))
    assert all(map(is_ours, names))
    assert names >= ALWAYS


@given(st.text(max_size=200))
def test_a_name_that_is_shown_is_short_and_plain(name):
    assert shown(name).isprintable()
    assert len(shown(name)) <= 61


# -- what is made to stop it --------------------------------------------------------------------------

SECONDS, BYTES = 2, 200_000_000
DRIVER = f"""
import resource, sys
resource.setrlimit(resource.RLIMIT_CPU, ({SECONDS}, {SECONDS} + 1))
from buildbook.cli import main
code = main(sys.argv[1:])
status = dict(line.split(":", 1) for line in open("/proc/self/status"))
print(int(status["VmHWM"].split()[0]) * 1024)
sys.exit(code)
"""


def zeros(megabytes):
    """So many million zeros, deflated: one block that says them, over and over, without ever holding them."""
    press = zlib.compressobj(9, zlib.DEFLATED, -15)
    block = press.compress(bytes(1_000_000)) + press.flush(zlib.Z_FULL_FLUSH)
    return block * megabytes + press.flush()


def bomb(size, states, *, name="care-booklet.pdf", times=1):
    def make(files, path):
        body, names = zeros(size), [name, *(f"photos/{n:016x}-504.jpg" for n in range(times - 1))]
        records = [r for r in records_of(files) if r.name != f"{TOP}/{name}"]
        bombs = [Record(f"{TOP}/{n}", body=body, method=8, states_size=states, crc=0) for n in names]
        path.write_bytes(packed(records + bombs))

    return make


def archive_of(**content):
    def make(files, path):
        path.write_bytes(packed(records_of(files | {n.replace("__", "."): c for n, c in content.items()})))

    return make


def broken(files, path):
    whole = bytearray(packed([Record(r.name, r.content, method=8) for r in records_of(files)]))
    at = whole.index(b"index.html") + len("index.html")
    whole[at + 200 : at + 300] = bytes(100)
    path.write_bytes(whole)


def many(files, path):
    path.write_bytes(packed([Record(f"{TOP}/{n}") for n in range(60_000)]))


def many_lines(files, path):
    """A directory that says the same of one record over and over."""
    path.write_bytes(
        packed([*records_of(files), *(Record(f"{TOP}/index.html", stored=False) for _ in range(4_900))])
    )


def pressed(method, body):
    """A page in a packing that no handover has: what reads only its head may hold all of it at once."""

    def make(files, path):
        rest = [r for r in records_of(files) if r.name != f"{TOP}/index.html"]
        page = Record(f"{TOP}/index.html", body=body(), method=method, states_size=4_000_000_000, crc=0)
        path.write_bytes(packed([page, *rest]))

    return make


def bzip2_zeros():
    """Two thousand million zeros in less than two thousand bytes."""
    press, some = bz2.BZ2Compressor(9), bytes(20_000_000)
    return b"".join(press.compress(some) for _ in range(100)) + press.flush()


def long_directory(files, path):
    """A million lines, of which the end says that there are five."""
    whole = packed([Record(f"{TOP}/index.html")])
    start, end = whole.index(b"PK\1\2"), whole.index(b"PK\5\6")
    size = struct.pack("<L", (end - start) * 1_000_000)
    lines = whole[start:end] * 1_000_000
    path.write_bytes(whole[:start] + lines + whole[end : end + 12] + size + whole[end + 16 :])


def folder(change):
    def make(files, path):
        for name, content in files.items():
            (path / name).parent.mkdir(parents=True, exist_ok=True)
            (path / name).write_bytes(content)
        change(path)

    return make


def replaced(name, by):
    def change(path):
        (path / name).unlink()
        by(path / name)

    return folder(change)


def sparse(size):
    def make(path):
        with path.open("wb") as file:
            file.truncate(size)

    return make


def deep(path):
    place = path / "photos"
    for _ in range(400):
        place = place / "d"
        place.mkdir()


def crowded(path):
    for number in range(limits.HANDOVER_FILES + 10):
        (path / str(number)).touch()


FACTS = b'{"schema": 1, "fingerprint": "%s", "whole": "%s", "files": {%s}}'
STOPPERS = {
    "a bomb of 400 MB": bomb(400, 400_000_000),
    "a bomb of 400 MB that says it is small": bomb(400, 50_000),
    "a bomb of 400 MB for a page": bomb(400, 400_000_000, name="index.html"),
    "a bomb of 400 MB for a seal": bomb(400, 1_000_000, name="seal.json"),
    "many bombs": bomb(100, 100_000_000, times=5),
    "200,000 brackets": archive_of(seal__json=b"[" * 200_000),
    "200,000 braces": archive_of(seal__json=b'{"files":' * 200_000),
    "a number without end": archive_of(seal__json=b'{"schema": ' + b"9" * 1_900_000 + b"}"),
    "a lone surrogate": archive_of(seal__json=FACTS % (b"0", b"0", b'"\\ud800": "0"')),
    "a listed name of 5,000 signs": archive_of(seal__json=FACTS % (b"0", b"0", b'"%s": "0"' % (b"n" * 5000))),
    "a seal of 3 MB": archive_of(seal__json=b" " * 3_000_000),
    "broken packing": broken,
    "60,000 files": many,
    "4,900 lines for one file": many_lines,
    "a name of 5,000 signs": lambda files, path: path.write_bytes(packed([Record("n" * 5000)])),
    "a file of 20 GB": lambda files, path: sparse(20_000_000_000)(path),
    "nothing": lambda files, path: path.write_bytes(b""),
    "a pipe": lambda files, path: os.mkfifo(path),
    "a link to zeros": lambda files, path: path.symlink_to("/dev/zero"),
    "a link to itself": lambda files, path: path.symlink_to(path),
    "a pipe for the seal": replaced("seal.json", os.mkfifo),
    "a pipe for the page": replaced("index.html", os.mkfifo),
    "a bomb of 2 GB in bzip2": pressed(12, bzip2_zeros),
    "a page in LZMA that is none": pressed(14, lambda: b"\x09\x04\x05\0" + b"\xff" * 60),
    "a page that breaks off at once": pressed(8, lambda: b"\x4b"),
    "a directory of a million lines": long_directory,
    "a pipe for the card": replaced("care-card.pdf", os.mkfifo),
    "zeros without end for the seal": replaced("seal.json", lambda p: p.symlink_to("/dev/zero")),
    "zeros without end for the page": replaced("index.html", lambda p: p.symlink_to("/dev/zero")),
    "a seal of 20 GB": replaced("seal.json", sparse(20_000_000_000)),
    "a booklet of 20 GB": replaced("care-booklet.pdf", sparse(20_000_000_000)),
    "a folder 400 deep": folder(deep),
    "a crowded folder": folder(crowded),
}  # fmt: skip


@pytest.mark.parametrize("what", STOPPERS)
def test_it_says_so_in_one_sentence_and_soon(what, handover, tmp_path):
    thing = tmp_path / "thing"
    STOPPERS[what](every_file(handover), thing)
    done = subprocess.run(
        [sys.executable, "-c", DRIVER, "verify", str(thing)],
        capture_output=True, encoding="utf-8", check=False, timeout=60,
    )  # fmt: skip
    assert done.returncode == 1, done.stderr
    assert "Traceback" not in done.stderr
    assert int(done.stdout) < BYTES
    *listed, said = done.stderr.splitlines()
    assert said.startswith("error: ")
    assert said.endswith(".")
    assert all(line.startswith("  ") for line in listed)


def test_a_name_that_no_disk_takes_is_not_there():
    for name in ("n" * 5000, "a\0b", "\ud800"):
        assert verify(Path(name)).broken
