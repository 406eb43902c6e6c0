"""What a shell completes is what the parser takes: bash is asked itself, of zsh and fish the text is read."""

import shutil
import subprocess

import pytest

from buildbook.cli import main
from buildbook.cli.completing import script
from buildbook.cli.parser import parser

BASH = shutil.which("bash")
ASK = """
set -u
source "$1"; shift
[[ "$(complete -p buildbook)" == *"-F _buildbook"* ]] || exit 9
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1))
_buildbook
printf '%s\\n' "${COMPREPLY[@]}"
"""


@pytest.fixture
def completed(tmp_path):
    """What bash offers for words, the last of which is being typed, in a folder with a file and two folders."""
    place = tmp_path / "here"
    for name in ("oak table", "oval_box"):
        (place / name).mkdir(parents=True)
    (place / "oak.zip").touch()
    (tmp_path / "script").write_text(script("bash"), "utf-8")

    def ask(*words):
        done = subprocess.run(
            [BASH, "--norc", "-c", ASK, "ask", str(tmp_path / "script"), "buildbook", *words],
            cwd=place, capture_output=True, text=True, check=True,
        )  # fmt: skip
        assert done.stderr == ""
        return {line for line in done.stdout.splitlines() if line}

    return ask


def test_bash_offers_the_commands(completed):
    assert completed("") == {*parser().commands, "-h", "--help", "--version"}
    assert completed("b") == {"begin", "bind", "bench"}
    assert completed("--v") == {"--version"}
    assert completed("zzz") == set()


@pytest.mark.parametrize("command", sorted(parser().commands))
def test_bash_offers_the_options_of_a_command(command, completed):
    sub = parser().commands[command]
    every = {name for name in sub._option_string_actions if name.startswith("--")}
    assert completed(command, "--") == every
    assert completed(command, "x", "--") == every


def test_bash_offers_folders_files_and_choices_where_they_are_taken(completed):
    assert completed("bind", "o") == {"oak table", "oval_box"}
    assert completed("bind", "oak\\ table"[:3]) == {"oak table"}
    assert completed("verify", "o") == {"oak table", "oval_box", "oak.zip"}
    assert completed("bind", "x", "--to", "ov") == {"oval_box"}
    assert completed("find", "walnut", "--in", "") == {"oak table", "oval_box"}
    assert completed("begin", "x", "--like", "oak") == {"oak table"}
    assert completed("completion", "") == {"bash", "zsh", "fish"}
    assert completed("bench", "x", "--port", "") == set()
    assert completed("find", "o") == set()


@pytest.mark.parametrize("shell", ["zsh", "fish"])
def test_the_other_shells_are_told_of_everything(shell):
    text = script(shell)
    for name, sub in parser().commands.items():
        of_it = [line for line in text.splitlines() if f"_from {name}'" in line or f" {name}) " in line]
        for option in sub._option_string_actions:
            shown = (
                option if shell == "zsh" else f"-l {option[2:]}" if option[:2] == "--" else f"-s {option[1]}"
            )
            assert any(shown in line for line in of_it), (name, option)
    assert text.count("'") % 2 == 0  # what is quoted ends


def test_the_command_prints_it_and_takes_no_other_shell(capsys):
    assert main(["completion", "bash"]) == 0
    assert capsys.readouterr().out == script("bash")
    with pytest.raises(SystemExit) as ended:
        main(["completion", "csh"])
    assert ended.value.code == 2
