"""Scripts by which a shell completes what is typed, made from the parser: commands, their options, and what follows.

A script holds all that it needs; it does not ask the program again. Sources: the manuals of bash (Programmable
Completion), zsh (zshcompsys, `_arguments`) and fish (`complete`).
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from dataclasses import dataclass

from buildbook.cli.parser import parser

_FOLDERS = frozenset(("FOLDER", "SHELF", "BOOK", "ENQUIRY", "JOB"))
_FILES = frozenset(("HANDOVER",))
"""What the help calls an argument, where that is a place on the disk: a folder, or a file too."""


@dataclass(frozen=True)
class Argument:
    """What may be typed at a place. options: by which words it is begun, none of what has a place of its own; takes:
    `folder`, `file`, `word`, or nothing of a switch; choices: of what; about: what it is.
    """

    options: tuple[str, ...]
    takes: str
    choices: tuple[str, ...]
    about: str


@dataclass(frozen=True)
class Command:
    name: str
    about: str
    arguments: tuple[Argument, ...]

    @property
    def options(self) -> list[str]:
        return [name for one in self.arguments for name in one.options]

    @property
    def given(self) -> list[Argument]:
        """Options with a value."""
        return [one for one in self.arguments if one.options and one.takes]

    @property
    def placed(self) -> list[Argument]:
        """Arguments without an option."""
        return [one for one in self.arguments if not one.options]


def script(shell: str) -> str:
    """The script for `bash`, `zsh` or `fish`."""
    top = parser()
    commands = [
        Command(name, top.summaries[name], tuple(map(_argument, sub.arguments)))
        for name, sub in top.commands.items()
    ]
    made = {"bash": _bash, "zsh": _zsh, "fish": _fish}[shell]
    of_all = [name for one in top.arguments for name in one.option_strings]
    return "\n".join(made(commands, of_all)) + "\n"


def _argument(action: argparse.Action) -> Argument:
    called = str(action.metavar or "")
    takes = "folder" if called in _FOLDERS else "file" if called in _FILES else "word"
    choices = tuple(map(str, action.choices or ()))
    about = (action.help or "").partition(";")[0].partition(" (default")[0]
    return Argument(tuple(action.option_strings), "" if action.nargs == 0 else takes, choices, about)


# -- bash ----------------------------------------------------------------------------------------

_BASH_COMPLETES = {"folder": 'compgen -d -- "$word"', "file": 'compgen -f -- "$word"'}


def _bash(commands: list[Command], of_all: list[str]) -> Iterator[str]:
    names = " ".join(one.name for one in commands)
    yield "# buildbook: completion for bash. Made from what the program takes: buildbook completion bash"
    yield "_buildbook() {"
    yield '    local word="${COMP_WORDS[COMP_CWORD]}" before="${COMP_WORDS[COMP_CWORD-1]}"'
    yield '    local command="${COMP_WORDS[1]}" one'
    yield "    COMPREPLY=()"
    yield '    _buildbook_those() { while IFS= read -r one; do COMPREPLY+=("$one"); done; }'
    yield "    _buildbook_places() { compopt -o filenames 2>/dev/null; _buildbook_those; }"
    yield '    if [ "$COMP_CWORD" -eq 1 ]; then'
    yield f"        _buildbook_those < <(compgen -W '{names} {' '.join(of_all)}' -- \"$word\")"
    yield "        return"
    yield "    fi"
    yield '    case "$command $before" in'
    for command in commands:
        for one in command.given:
            pattern = "|".join(f"'{command.name} {name}'" for name in one.options)
            yield f"        {pattern}) {_bash_completes(one)}; return ;;"
    yield "    esac"
    yield '    case "$command" in'
    for command in commands:
        options = f"_buildbook_those < <(compgen -W '{' '.join(command.options)}' -- \"$word\")"
        rest = "; ".join(map(_bash_completes, command.placed)) or ":"
        yield f'        {command.name}) if [[ "$word" == -* ]]; then {options}; else {rest}; fi ;;'
    yield "    esac"
    yield "}"
    yield "complete -F _buildbook buildbook"


def _bash_completes(one: Argument) -> str:
    if one.choices:
        return f"_buildbook_those < <(compgen -W '{' '.join(one.choices)}' -- \"$word\")"
    return f"_buildbook_places < <({_BASH_COMPLETES[one.takes]})" if one.takes in _BASH_COMPLETES else ":"


# -- zsh -----------------------------------------------------------------------------------------

_ZSH_COMPLETES = {"folder": "_files -/", "file": "_files", "word": ""}


def _zsh(commands: list[Command], of_all: list[str]) -> Iterator[str]:
    yield "#compdef buildbook"
    yield "# buildbook: completion for zsh. Made from what the program takes: buildbook completion zsh"
    yield "_buildbook() {"
    yield "    local -a commands"
    yield "    commands=("
    yield from (f"        {_quoted(f'{one.name}:{one.about}')}" for one in commands)
    yield "    )"
    yield "    if (( CURRENT == 2 )); then"
    yield "        _describe command commands"
    yield f"        compadd -- {' '.join(of_all)}"
    yield "        return"
    yield "    fi"
    yield "    local command=$words[2]"
    yield "    shift words"
    yield "    (( CURRENT-- ))"
    yield "    case $command in"
    for command in commands:
        specs = " ".join(spec for one in command.arguments for spec in _zsh_specs(one))
        yield f"        {command.name}) _arguments {specs} ;;"
    yield "    esac"
    yield "}"
    yield 'if [ "$funcstack[1]" = _buildbook ]; then _buildbook "$@"; else compdef _buildbook buildbook; fi'


def _zsh_specs(one: Argument) -> Iterator[str]:
    does = f"({' '.join(one.choices)})" if one.choices else _ZSH_COMPLETES[one.takes or "word"]
    about = one.about.translate(_ZSH_SAFE)
    if not one.options:
        yield _quoted(f"*:{about}:{does}")
    for name in one.options:
        yield _quoted(f"{name}[{about}]" + (f":{about}:{does}" if one.takes else ""))


_ZSH_SAFE = {ord(sign): f"\\{sign}" for sign in ":[]\\"}


# -- fish ----------------------------------------------------------------------------------------

_FISH_COMPLETES = {"folder": " -xa '(__fish_complete_directories)'", "file": " -F", "word": " -x"}

_FISH_AT = (
    "function __buildbook_at",
    "    set -l typed (commandline -opc)",
    '    test "$typed[2]" = "$argv[1]"',
    "end",
)
"""Whether a command was typed, or none yet: by its place, for a folder may be called `bench` or `find`."""


def _fish(commands: list[Command], of_all: list[str]) -> Iterator[str]:
    yield "# buildbook: completion for fish. Made from what the program takes: buildbook completion fish"
    yield from _FISH_AT
    yield "complete -c buildbook -f"
    for name in of_all:
        yield f"complete -c buildbook -n __buildbook_at {_fish_option(name)}"
    for command in commands:
        typed = f"complete -c buildbook -n '__buildbook_at {command.name}'"
        yield f"complete -c buildbook -n __buildbook_at -a {command.name} -d {_quoted(command.about)}"
        for one in command.arguments:
            does = f" -xa '{' '.join(one.choices)}'" if one.choices else _FISH_COMPLETES.get(one.takes, "")
            if one.options:
                words = " ".join(map(_fish_option, one.options))
                yield f"{typed} {words}{does} -d {_quoted(one.about)}"
            elif one.choices or one.takes != "word":
                yield f"{typed}{does if one.takes == 'file' else does.replace(' -xa', ' -f -a')}"


def _fish_option(name: str) -> str:
    return f"-l {name[2:]}" if name.startswith("--") else f"-s {name[1:]}"


def _quoted(text: str) -> str:
    """Words for a shell, between single quotes; a quotation mark of the words becomes a typographic one."""
    return "'" + text.replace("'", "’") + "'"
