"""Nothing that a terminal would obey is printed, by any command, wherever it came from."""

import ast
import json
import os
import pty
import subprocess
import sys
import unicodedata
import zipfile
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import buildbook
from buildbook.cli import controls, main, terminal
from tests.bench_server import wait_for

CLI = Path(buildbook.__file__).parent / "cli"
CONTROLS = "".join(map(chr, (*range(1, 32), *range(127, 160)))).replace("\n", "")
DIRECTIONS = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
SEEN_BY_NOBODY = "\u2028\u2029\u200b\u2060\ufeff\U000e0041"
ESCAPES = (
    "\x1b]0;pwned\x07",  # the terminal's title
    "\x1b[2J\x1b[1;1H",  # clears the screen
    "\x1b[8m",  # hides what follows
    "\x9b31m",  # the same lead-in as one character of C1
    "\x1bP\x1b\\",
    "\roverwritten",
    "\x7f\x08\x08",
)
NASTY = "".join(ESCAPES) + CONTROLS + DIRECTIONS + SEEN_BY_NOBODY
FORGED = "x\n  error: forged.csv"
GOOD = 'title = "A box"\nunits = "mm"\n'
NOTES = "## 2026-01-05 Begun\n\nHours: design 1\n"


def bad_signs(text):
    """What may not be there, told from Unicode's own properties and not from our pattern."""
    return {
        f"U+{ord(sign):04X}"
        for sign in text
        if sign != "\n"
        and (
            unicodedata.category(sign) in ("Cc", "Zl", "Zp", "Cs")
            or unicodedata.bidirectional(sign)
            in ("LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI")
            or sign in "\u200e\u200f\u061c\u200b\u2060\ufeff"
            or 0xE0000 <= ord(sign) < 0xE0080
        )
    }


@given(st.text(st.characters(codec=None)))
def test_any_text_is_one_plain_line(text):
    plain = terminal.plain_text(text)
    assert bad_signs(plain) == set()
    assert "\n" not in plain


def test_no_sign_that_is_taken_out_is_one_that_is_printed():
    taken_out = [
        sign for sign in map(chr, range(sys.maxunicode + 1)) if terminal.plain_text(f"a{sign}") != f"a{sign}"
    ]
    assert len(taken_out) > 2_000  # halves are most of them
    assert all(controls.UNSAFE.search(sign) or controls.BLANK.search(sign) for sign in taken_out)
    unsafe = [sign for sign in map(chr, range(sys.maxunicode + 1)) if controls.UNSAFE.search(sign)]
    assert set(unsafe) | set("\t\n\r") == set(taken_out)


@pytest.mark.parametrize(
    "text", ["Tür, 3/4″ × 12 ½ – “ash” 木 ⌀22", "👩‍🔧", "می‌خواهم", "Donau\u00addampf", "a b"]
)
def test_what_is_no_control_stays(text):
    assert terminal.plain_text(text) == text


@given(
    st.recursive(
        st.text(st.characters(codec=None)), lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner)
    )
)
def test_json_reads_back_and_is_plain(facts):
    printed = []
    writes = type("Out", (), {"write": staticmethod(printed.append)})
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sys, "stdout", writes)
        terminal.print_json(facts)
    text = "".join(printed)
    assert bad_signs(text) == set()
    assert json.loads(text) == facts


def test_only_one_module_prints():
    for path in CLI.rglob("*.py"):
        if path.name == "terminal.py":
            continue
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call):
                called = ast.unparse(node.func)
                assert called != "print", f"{path.name}, line {node.lineno}"
                assert not called.startswith(("sys.stdout.write", "sys.stderr.write")), path.name


# -- every command -------------------------------------------------------------------------------


@pytest.fixture
def shelf(tmp_path):
    """A shelf whose names and texts are as bad as a disk and the readers let them be."""
    shelf = tmp_path / f"shelf {NASTY}".replace("\x00", "")[:100]
    job = shelf / "box"
    (job / "photos").mkdir(parents=True)
    toml_text = json.dumps(f"Box {NASTY} {FORGED}").replace("\x7f", "\\u007f")
    (job / "job.toml").write_text(f'title = {toml_text}\nunits = "mm"\ncolour = {toml_text}\n')
    (job / "notes.md").write_text(
        f"{NOTES}\nGlue {NASTY} words\n\n![x](photos/{NASTY}.jpg)\n\n{DIRECTIONS}\n"
    )
    (job / "parts.csv").write_text(
        f"part,material,length,width,thickness,what{DIRECTIONS}\u009b\nTop,oak{NASTY},600{NASTY},300,20\n"
    )
    (job / "photos" / f"IMG{NASTY}"[:60]).write_bytes(b"none")
    (job / "photos" / f"{FORGED}.jpg").write_bytes(b"none")
    bad = shelf / f"job {''.join(ESCAPES)}"
    bad.mkdir()
    (bad / "job.toml").write_text(GOOD)
    (bad / "notes.md").write_text(NOTES)
    forged = shelf / FORGED
    forged.mkdir()
    (forged / "notes.md").write_text(NOTES)
    (shelf / "shop.toml").write_text(f"name = {toml_text}\nsurprise = {toml_text}\n")
    (shelf / "prices.csv").write_text(f"item,price\nglue{NASTY},x{NASTY}\n")
    return shelf


def printed_by(capfd, *arguments):
    """All that a command printed, on both streams; and its exit code."""
    code = main([str(one) for one in arguments])
    out, err = capfd.readouterr()
    assert bad_signs(out) == set()
    assert bad_signs(err) == set()
    lines = (out + err).split("\n")
    assert not any(line.startswith("  error: forged.csv") for line in lines)
    return code, out, err


@pytest.mark.parametrize("json_too", [False, True])
@pytest.mark.parametrize("command", ["proof", "bind", "handover", "estimate", "find", "verify", "keys"])
def test_no_command_prints_a_control(shelf, tmp_path, capfd, command, json_too):
    book = tmp_path / f"book {''.join(ESCAPES)}"
    arguments = {
        "proof": [shelf],
        "bind": [shelf, "--to", book],
        "handover": [shelf / "box", "--to", tmp_path / "packed"],
        "estimate": [shelf / "box", "--from", shelf, "--to", tmp_path / f"e{NASTY[:20]}"],
        "find": ["glue", "--in", shelf],
        "verify": [book],
        "keys": [f"oak{NASTY}"],
    }[command]
    code, out, err = printed_by(capfd, command, *arguments, *(["--json"] if json_too else []))
    assert code in (0, 1)
    assert out or err
    if json_too and out:
        json.loads(out)


@pytest.mark.parametrize("command", ["begin", "proof", "bind", "handover", "verify", "bench"])
def test_a_folder_of_such_a_name_that_is_not_there(tmp_path, capfd, command):
    place = tmp_path / f"no {''.join(ESCAPES)}\n  error: forged.csv: x"
    (tmp_path / "there").write_text("x")
    code, _, err = printed_by(capfd, command, place if command != "begin" else tmp_path / "there")
    assert code == 1
    assert err


def test_begin_says_where(tmp_path, capfd):
    code, out, _ = printed_by(capfd, "begin", tmp_path / f"new {''.join(ESCAPES)[:40]}")
    assert (code, "new" in out) == (0, True)


def test_an_archive_names_what_it_likes(tmp_path, capfd):
    archive = tmp_path / f"a{''.join(ESCAPES)}.zip"
    with zipfile.ZipFile(archive, "w") as made:
        made.writestr(f"top/{''.join(ESCAPES)}{DIRECTIONS}", "x")
        made.writestr("top/x\n  error: forged.csv", "x")
        made.writestr(
            "top/seal.json", '{"schema": 1, "files": {"\\u001b[2J": "0"}, "fingerprint": "\\u001b[2J"}'
        )
    assert printed_by(capfd, "verify", archive)[0] == 1


def test_found_texts_are_plain_on_a_terminal_too(make_job, tmp_path):
    """Bold is an escape sequence of ours; nothing else may be one."""
    title = json.dumps(f"Box {''.join(ESCAPES)}").replace("\x7f", "\\u007f").replace("\x9b", "\\u009b")
    job = make_job(
        "box", **{"job.toml": f"title = {title}\n", "notes.md": f"{NOTES}\nGlue \x9b8m{DIRECTIONS} dried\n"}
    )
    leading, following = pty.openpty()
    with subprocess.Popen(
        [sys.executable, "-m", "buildbook", "find", "glue", "--in", str(job.parent)],
        stdout=following, stderr=following, env={**os.environ, "TERM": "xterm", "COLUMNS": "100"},
    ) as program:  # fmt: skip
        os.close(following)
        came = b""
        try:
            while data := os.read(leading, 65536):
                came += data
        except OSError:  # the other end is closed
            pass
        program.wait()
    os.close(leading)
    text = came.decode()
    assert "Glue" in text
    for known in ("\x1b[1m", "\x1b[2m", "\x1b[0m", "\x1b[1;3m", "\r\n"):
        text = text.replace(known, "")
    assert bad_signs(text) == set()


@pytest.mark.parametrize(
    "arguments",
    [["bind", "x", f"--no{NASTY}\nerror: forged"], [f"pro{NASTY}"], ["bench", "x", "--port", NASTY]],
)
def test_a_wrong_command_line_is_told_plainly(arguments, capfd):
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    out, err = capfd.readouterr()
    assert bad_signs(out + err) == set()
    assert "\nerror: forged" not in err


def test_the_bench_prints_plainly(shelf, tmp_path):
    """A process of its own, so that it can be ended as a person ends it."""
    out, err = tmp_path / "out", tmp_path / "err"
    with out.open("wb") as to_out, err.open("wb") as to_err:
        program = subprocess.Popen(
            [sys.executable, "-m", "buildbook", "bench", shelf, "--to", tmp_path / "book", "--port", "0"],
            stdout=to_out, stderr=to_err,
        )  # fmt: skip
        try:
            wait_for(lambda: "http://127.0.0.1:" in out.read_text("utf-8"))
            (shelf / f"new {ESCAPES[0]}").mkdir()
            (shelf / "box").rename(tmp_path / "away")
            wait_for(lambda: "no longer" in err.read_text("utf-8"))
        finally:
            program.send_signal(2)
            program.wait(20)
    assert program.returncode == 0
    assert bad_signs(out.read_text("utf-8") + err.read_text("utf-8")) == set()
