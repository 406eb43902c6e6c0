"""What a shell completes is what the parser takes: bash, zsh and fish are asked themselves."""

import pytest

from buildbook.cli import main
from buildbook.cli.completing import script
from buildbook.cli.parser import parser
from tests.cli.shells import Bash, Fish, Zsh

SHELLS = {"bash": Bash, "zsh": Zsh, "zsh, found by name": lambda *at: Zsh(*at, found=True), "fish": Fish}
FOLDERS = {"oak table", "oval_box", "bench"}


@pytest.fixture(scope="module", params=SHELLS)
def shell(request, tmp_path_factory):
    """A shell in a folder with a file and folders, one of which has the name of a command."""
    place = tmp_path_factory.mktemp("shell")
    here = place / "here"
    for name in FOLDERS:
        (here / name).mkdir(parents=True)
    (here / "oak.zip").touch()
    one = SHELLS[request.param](place, here)
    yield one
    one.end()


def test_it_offers_the_commands(shell):
    assert shell.offers("") - {"-h", "--help", "--version"} == {*parser().commands}
    assert shell.offers("b") == {"begin", "bind", "bench"}
    assert shell.offers("--v") == {"--version"}
    assert shell.offers("zzz") == set()


@pytest.mark.parametrize("command", sorted(parser().commands))
def test_it_offers_the_options_of_a_command(command, shell):
    sub = parser().commands[command]
    every = {name for name in sub._option_string_actions if name.startswith("--")}
    assert shell.offers(command, "--") == every
    assert shell.offers(command, "x", "--") == every
    assert shell.offers(command, "bench", "--") == every  # a folder that has the name of a command


def test_it_offers_folders_files_and_choices_where_they_are_taken(shell):
    assert shell.offers("bind", "o") == {"oak table", "oval_box"}
    assert shell.offers("bind", "") == FOLDERS
    assert shell.offers("bench", "b") == {"bench"}
    assert shell.offers("bind", "oak") == {"oak table"}
    assert shell.offers("verify", "o") == {"oak table", "oval_box", "oak.zip"}
    assert shell.offers("bind", "x", "--to", "ov") == {"oval_box"}
    assert shell.offers("find", "walnut", "--in", "o") == {"oak table", "oval_box"}
    assert shell.offers("begin", "x", "--like", "oak") == {"oak table"}
    assert shell.offers("completion", "") == {"bash", "zsh", "fish"}
    assert shell.offers("find", "o") == set()


def test_it_offers_nothing_where_a_word_is_made_up(shell):
    assert shell.offers("bench", "x", "--port", "o") == set()
    assert shell.offers("begin", "x", "--client", "o") == set()


def test_the_command_prints_it_and_takes_no_other_shell(capsys):
    assert main(["completion", "bash"]) == 0
    assert capsys.readouterr().out == script("bash")
    with pytest.raises(SystemExit) as ended:
        main(["completion", "csh"])
    assert ended.value.code == 2
