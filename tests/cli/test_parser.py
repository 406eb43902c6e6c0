"""The help of a command shows how it is typed; what was mistyped is answered by the nearest that there is."""

import os
import shlex

import pytest

from buildbook.cli import main
from buildbook.cli.examples import EXAMPLES, MEANT
from buildbook.cli.parser import parser

COMMANDS = sorted(parser().commands)


@pytest.mark.parametrize("command", COMMANDS)
def test_the_help_of_a_command_shows_two_examples_that_can_be_typed(command, monkeypatch, capsys):
    monkeypatch.setenv("COLUMNS", "40")  # a narrow window breaks none of them
    with pytest.raises(SystemExit) as ended:
        main([command, "--help"])
    assert ended.value.code == 0
    shown = capsys.readouterr().out.partition("examples:\n")[2].splitlines()
    assert [line.strip() for line in shown] == list(EXAMPLES[command])
    assert len(set(shown)) == 2
    for line in shown:
        name, *typed = shlex.split(line.partition(" > ")[0])
        assert name == "buildbook"
        assert parser().parse_args(typed).command == command


def test_words_of_daily_speech_mean_commands_that_there_are():
    assert set(MEANT.values()) <= set(COMMANDS)
    assert not MEANT.keys() & set(COMMANDS)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("bnid x", "there is no command 'bnid'. Did you mean bind?"),
        ("proofs x", "Did you mean proof?"),
        ("estimat x", "Did you mean estimate?"),
        ("BIND x", "Did you mean bind?"),
        ("search x", "Did you mean find?"),
        ("bind x --agian", "unrecognized arguments: --agian. Did you mean --again?"),
        ("bind --agian", "Did you mean --again?"),
        ("find x --inn=y", "Did you mean --in?"),
        ("begin x --no-hang", "expected"),
        ("--vresion", "Did you mean --version?"),
        ("verify x --fingreprint y", "Did you mean --fingerprint?"),
    ],
)
def test_what_was_mistyped_gets_the_nearest(typed, said, capsys):
    if said == "expected":  # a beginning of an option is that option, as ever
        assert parser().parse_args(typed.split()).hangs is False
        return
    with pytest.raises(SystemExit) as ended:
        main(typed.split())
    assert ended.value.code == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize("typed", ["qqq x", "bind x --zzz", "bind x -- --agian", "find x -y"])
def test_what_is_near_nothing_gets_no_guess(typed, capsys):
    with pytest.raises(SystemExit) as ended:
        main(typed.split())
    assert ended.value.code == 2
    err = capsys.readouterr().err
    assert "Did you mean" not in err
    assert err.startswith("usage: buildbook")


def test_a_folder_in_place_of_a_command_is_told_what_to_type(tmp_path, monkeypatch, capsys):
    (tmp_path / "hall bench").mkdir()
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SystemExit):
        main(["hall bench"])
    err = capsys.readouterr().err
    line = err.rpartition("as in: ")[2].strip()
    assert shlex.split(line) == ["buildbook", "proof", "hall bench"]
    assert os.path.isdir(shlex.split(line)[2])


@pytest.mark.parametrize("command", ["\x1b[2Jbind", "x\nerror: forged"])
def test_what_was_typed_is_shown_without_control_characters(command, capsys):
    with pytest.raises(SystemExit):
        main([command])
    err = capsys.readouterr().err
    assert "\x1b" not in err
    assert not any(line.startswith("error: forged") for line in err.splitlines())
