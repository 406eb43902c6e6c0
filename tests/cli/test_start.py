"""A command loads what it needs and no more: its start is most of what a person waits for."""

import json
import subprocess
import sys

import pytest

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


def test_begin_verify_and_find_load_none_of_what_binds(tmp_path, bound_sample):
    for arguments in (
        ["begin", tmp_path / "2026-001-box"],
        ["verify", bound_sample / "handover" / "sample_job"],
        ["find", "oak", "--in", bound_sample, "--json"],
    ):
        code, modules = loaded_by(*arguments)
        assert code == 0
        assert modules & HEAVY == set(), arguments


def test_binding_is_seen_to_load_much():
    _, modules = loaded_by("proof", SAMPLE)
    assert {"PIL.Image", "buildbook.job.folder"} <= modules
