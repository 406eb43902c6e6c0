"""A command loads what it needs and no more: its start is most of what a person waits for."""

import json
import os
import pty
import subprocess
import sys
from contextlib import suppress
from pathlib import Path

import pytest

from buildbook.cli.help_page import PAGE
from buildbook.cli.parser import parser
from buildbook.cli.plain import plainly_asked
from tests.conftest import SAMPLE

HEAVY = {
    "PIL", "PIL.Image", "pint", "jinja2", "rich", "typst", "markdown_it", "icalendar", "filelock", "watchdog", "segno",
    "buildbook.job.folder", "buildbook.summary", "buildbook.trade", "buildbook.pages", "buildbook.render.html.theme",
    "buildbook.book.bind", "concurrent.futures",
}  # fmt: skip
LOADED = """
import json, sys
from buildbook.cli import main
try:
    code = main(sys.argv[1:])
except SystemExit as end:
    code = end.code
print(json.dumps([code, sorted(sys.modules)]), file=sys.stderr)
"""


def loaded_by(*arguments):
    """What a run of the command line has loaded by its end."""
    done = subprocess.run(
        [sys.executable, "-c", LOADED, *map(str, arguments)], capture_output=True, text=True, check=True
    )
    code, modules = json.loads(done.stderr.splitlines()[-1])
    return code, set(modules)


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["bind", "--help"]])
def test_help_loads_no_command(arguments):
    code, modules = loaded_by(*arguments)
    assert code == 0
    assert modules & (HEAVY | {"msgspec", "buildbook.problems", "buildbook.limits"}) == set()


@pytest.mark.parametrize("asked", ["--help", "-h"])
def test_help_as_a_whole_is_a_text_that_is_kept_and_no_parser(asked, monkeypatch):
    """`python -m buildbook.cli.parser` writes it again."""
    monkeypatch.setenv("COLUMNS", "100")
    _, modules = loaded_by(asked)
    assert modules & {"argparse", "pathlib", "typing", "shutil"} == set()
    monkeypatch.setenv("COLUMNS", "80")
    assert Path(PAGE).read_text("utf-8") == parser().format_help()


@pytest.mark.parametrize("columns", [40, 80, 200])
def test_help_fits_the_window(columns):
    environment = {name: value for name, value in os.environ.items() if name != "COLUMNS"}
    seen, window = pty.openpty()
    set_size = f"stty cols {columns} && exec {sys.executable} -m buildbook --help"
    subprocess.run(
        ["sh", "-c", set_size], stdin=window, stdout=window, stderr=window, env=environment, check=True
    )
    os.close(window)
    text = b""
    with suppress(OSError):  # the end of a terminal that is gone
        while some := os.read(seen, 4096):
            text += some
    os.close(seen)
    lines = text.decode().split("\r\n")
    assert lines[0].startswith("usage: buildbook")
    assert min(columns, 80) * 0.8 < max(map(len, lines)) <= min(columns, 80)


def test_begin_verify_and_find_load_none_of_what_binds(tmp_path, bound_sample):
    for arguments in (
        ["begin", tmp_path / "2026-001-box"],
        ["verify", bound_sample / "handover" / "sample_job"],
        ["find", "oak", "--in", bound_sample, "--json"],
    ):
        code, modules = loaded_by(*arguments)
        assert code == 0
        reads_kinds = {"buildbook.trade"} if arguments[0] == "begin" else set()  # what a piece is has a table
        assert modules & HEAVY == reads_kinds, arguments


@pytest.mark.parametrize(
    ("typed", "is_plain"),
    [
        (["find", "oak", "1200 mm"], True),
        (["find", "oak", "--json"], True),
        (["find", "oak", "glass", "--in", "book"], True),
        (["find", "oak", "--in", "book", "--json"], True),
        (["find", "oak", "--json", "--in", "book"], False),
        (["find", "--in", "book", "oak"], False),
        (["find", "oak", "--in=book"], False),
        (["find", "oak", "--js"], False),
        (["find", "oak", "--in", "-x"], False),
        (["find", "oak", "--in"], False),
        (["find", "oak", "--", "-x"], False),
        (["find", "oak", "-h"], False),
        (["find"], False),
        (["keys", "oak"], False),
    ],
)
def test_a_plain_question_is_read_as_the_parser_reads_it(typed, is_plain):
    plain = plainly_asked(typed)
    assert (plain is not None) == is_plain
    if plain is not None:
        assert vars(plain) == vars(parser().parse_args(typed))


def test_a_plain_question_loads_no_parser(bound_sample):
    code, modules = loaded_by("find", "oak", "--in", bound_sample)
    assert code == 0
    assert "argparse" not in modules


def test_binding_is_seen_to_load_much():
    _, modules = loaded_by("proof", SAMPLE)
    assert {"PIL.Image", "buildbook.job.folder"} <= modules
