"""What may be typed: commands, their options, and what each is for. Loaded where the text of `help.txt` will not do."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from buildbook import __version__
from buildbook.cli.examples import EXAMPLES, MEANT
from buildbook.cli.help_page import COLUMNS, PAGE
from buildbook.cli.terminal import err, out, plain_text

if TYPE_CHECKING:
    from datetime import date

DEFAULT_BOOK = "book"
DEFAULT_ESTIMATE = "estimate"
DEFAULT_PORT = 8571
SHELLS = ("bash", "zsh", "fish")


class _Lines(argparse.HelpFormatter):
    """Keeps examples on the lines that they were written on, whatever the window: they are there to be copied."""

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        return text if "\n" in text else super()._fill_text(text, width, indent)


def _lines_of(columns: int) -> Any:
    return partial(_Lines, width=columns - 2)


class Parser(argparse.ArgumentParser):
    """argparse, printing as we do: what was typed may be a file's name that the shell put in."""

    def __init__(self, **how: Any) -> None:
        super().__init__(**({"formatter_class": _lines_of(COLUMNS)} | how))
        self.color = False  # from Python 3.14 on there would be some, which `terminal` does not let through
        self._typed: list[str] = []

    def format_help(self) -> str:
        self._fit()
        return super().format_help()

    def format_usage(self) -> str:
        self._fit()
        return super().format_usage()

    def _fit(self) -> None:
        """Lines of no more than `COLUMNS`, however wide the window is."""
        from shutil import get_terminal_size  # only where there is something to say

        self.formatter_class = _lines_of(min(get_terminal_size().columns, COLUMNS))

    def _print_message(self, message: str, file: Any = None) -> None:
        (out if file is sys.stdout else err)(*message.removesuffix("\n").split("\n"))

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> Any:
        """As argparse does, but what a command cannot read is told by that command, which knows its options."""
        self._typed = list(args if args is not None else sys.argv[1:])
        read, left = super().parse_known_args(args, namespace)
        if left and not self.commands:
            self.error(f"unrecognized arguments: {' '.join(left)}")
        return read, left

    @property
    def commands(self) -> dict[str, Parser]:
        """The commands that may be typed next, by name; none of a command itself."""
        every = (one for one in self._actions if isinstance(one, argparse._SubParsersAction))
        return {name: sub for one in every for name, sub in one.choices.items()}

    @property
    def summaries(self) -> dict[str, str]:
        """What each command is for, as the list of them says."""
        every = (one for one in self._actions if isinstance(one, argparse._SubParsersAction))
        return {said.dest: said.help or "" for one in every for said in one._choices_actions}

    @property
    def arguments(self) -> list[argparse.Action]:
        """What may be typed after it beside commands, as argparse holds it."""
        return [one for one in self._actions if not isinstance(one, argparse._SubParsersAction)]

    def _check_value(self, action: argparse.Action, value: Any) -> None:
        if isinstance(action, argparse._SubParsersAction) and value not in self.commands:
            raise argparse.ArgumentError(None, _no_command(value, self.commands))
        super()._check_value(action, value)

    def error(self, message: str) -> NoReturn:
        super().error(plain_text(". ".join((message, *self._meant()))))

    def _meant(self) -> Iterable[str]:
        """For each option that was mistyped, the nearest that there is."""
        for typed in self._typed:
            if typed == "--" or not (typed.startswith("-") or self.commands == {}):
                return  # what follows is of a command, or no option
            option = typed.partition("=")[0]
            known = [name for one in self._actions for name in one.option_strings if name.startswith("--")]
            if option.startswith("--") and not any(name.startswith(option) for name in known):
                yield from _near(option, known)


def _no_command(typed: str, commands: Iterable[str]) -> str:
    """What is said of a word that is no command: the nearest one, or what may be done with the folder that it names."""
    if os.path.isdir(typed):
        from shlex import quote

        return f"{typed!r} is a folder: say first what to do with it, as in: buildbook proof {quote(typed)}"
    said = f"there is no command {typed!r}."
    word = typed.casefold()
    near = word if word in set(commands) else MEANT.get(word)
    hint = [f"Did you mean {near}?"] if near else list(_near(typed, commands))
    return " ".join((said, *(hint or [f"There are {', '.join(commands)}."])))


def _near(typed: str, known: Iterable[str]) -> Iterable[str]:
    from buildbook.problems import listed, nearest  # only where something was mistyped

    if near := nearest(typed, known, how_many=2):
        yield f"Did you mean {listed(near, 'or')}?"


def parser() -> Parser:
    """All that may be typed."""
    top = Parser(
        prog="buildbook",
        description="Turns a furniture maker's job folder into a client's care-and-provenance page and a build log.",
        epilog="Without a command it says what can be done next in the folder that you are in.",
    )
    top.add_argument("--version", action="version", version=f"buildbook {__version__}")
    every = top.add_subparsers(dest="command", required=True, metavar="COMMAND", prog="buildbook")

    def bare(name: str, words: str, more: str) -> Parser:
        shown = "\n".join(("examples:", *(f"  {line}" for line in EXAMPLES[name])))
        return every.add_parser(name, help=words, description=more, epilog=shown)

    def command(name: str, words: str, folder: str, called: str = "FOLDER") -> Parser:
        sub = bare(name, words, words)
        sub.add_argument("folder", type=Path, metavar=called, help=folder)
        return sub

    def to_book(sub: Parser) -> None:
        sub.add_argument(
            "--to", type=Path, default=Path(DEFAULT_BOOK), metavar="BOOK", help="the book (default: ./book)"
        )

    sub = command("begin", "lay out a new job folder", "the folder to make; it must not exist yet")
    sub.add_argument(
        "--like",
        metavar="JOB",
        help="a past job to begin like: its folder, or its number or name on this shelf",
    )
    sub.add_argument(
        "--size",
        dest="sizes",
        action="append",
        metavar="SIZE",
        help='with --like, another size: "width 1800", "width 72in, depth 450"; of a part too: "Shelf length 800"',
    )
    sub.add_argument("--piece", metavar="WORDS", help="what it is: table, chair, cabinet, shelf …")
    sub.add_argument("--units", metavar="UNIT", help="what a bare number means: mm or in")
    sub.add_argument(
        "--wood",
        dest="woods",
        action="append",
        metavar="WOOD",
        help="of what wood; once for each, the main first",
    )
    sub.add_argument("--finish", metavar="FINISH", help="its finish: hardwax oil, shellac, none …")
    either = argparse.BooleanOptionalAction
    sub.add_argument("--hangs", action=either, default=None, help="whether it hangs on a wall")
    sub.add_argument("--glass", action=either, default=None, help="whether there is glass in it")
    sub.add_argument("--client", metavar="NAME", help="for whom; it stays private")
    sub.add_argument(
        "--language", metavar="LANGUAGE", help="of what is laid out: en or de (default: the shop's)"
    )
    sub.add_argument("--json", action="store_true", help="ask nothing, print what was laid out as JSON")
    sub = command(
        "proof",
        "read everything, say what is wrong or missing, write nothing",
        "a job folder or a shelf of them",
    )
    sub.add_argument("--json", action="store_true", help="print the problems as JSON")
    sub = command(
        "bind",
        "compile a job, or every job of a shelf, into a book",
        "a job folder or a shelf of them",
    )
    to_book(sub)
    sub.add_argument("--again", action="store_true", help="bind every job from nothing, changed or not")
    sub.add_argument("--why", action="store_true", help="say of each job why it was bound again")
    sub.add_argument("--quiet", action="store_true", help="say only what is wrong, and show no progress")
    sub.add_argument("--json", action="store_true", help="print what was bound and the problems as JSON")
    sub = bare(
        "estimate",
        "quote an enquiry from past jobs",
        "Writes a private worksheet, a letter for the client, and estimate.json, from the jobs of a shelf.",
    )
    sub.add_argument(
        "folder", type=Path, metavar="ENQUIRY", help="a job folder with the sizes that are wished for"
    )
    sub.add_argument(
        "--from", dest="shelf", type=Path, required=True, metavar="SHELF", help="the shelf of past jobs"
    )
    sub.add_argument(
        "--to",
        type=Path,
        default=Path(DEFAULT_ESTIMATE),
        metavar="FOLDER",
        help="where to put it (default: ./estimate)",
    )
    sub.add_argument(
        "--on", type=_day, default=None, metavar="DATE", help="the day of the estimate (default: today)"
    )
    sub.add_argument("--json", action="store_true", help="print estimate.json")
    sub = command(
        "handover",
        "pack what the client gets: an archive, and one page to mail",
        "a job folder",
    )
    sub.add_argument(
        "--to", type=Path, default=Path(), metavar="FOLDER", help="where to put them (default: here)"
    )
    sub.add_argument("--json", action="store_true", help="print what was packed as JSON")
    sub = command(
        "verify",
        "check a handover against its seal",
        "a handover: its folder, or the packed archive",
        "HANDOVER",
    )
    sub.add_argument(
        "--fingerprint",
        metavar="TEXT",
        help="what it must fit, as read out: the record's, off the printed card, or the whole one of its maker",
    )
    sub.add_argument("--json", action="store_true", help="print what was found as JSON")
    sub = bare(
        "find",
        "search past work",
        "Lists the jobs that have all of the words, the likeliest first.",
    )
    sub.add_argument(
        "words", nargs="+", metavar="WORDS", help="words, '\"words in quotes\"', or a size: 1200 mm, 4 ft"
    )
    sub.add_argument(
        "--in",
        dest="place",
        type=Path,
        default=Path(),
        metavar="SHELF",
        help="a shelf or a book (default: here)",
    )
    sub.add_argument("--json", action="store_true", help="print every job that was found as JSON")
    sub = command(
        "bench",
        "bind again on every save and show the book while you work",
        "a job folder or a shelf of them",
    )
    to_book(sub)
    sub.add_argument(
        "--port",
        type=int,
        default=DEFAULT_PORT,
        metavar="N",
        help=f"on this machine only (default: {DEFAULT_PORT})",
    )
    sub = bare(
        "keys",
        "what may be written in the files of a job",
        "Explains a key, column, working, wood, sheet, metal or finish; without a word it lists all.",
    )
    sub.add_argument("word", nargs="*", metavar="WORD", help="its name, in English or German")
    sub.add_argument("--json", action="store_true", help="print it as JSON")
    sub = bare(
        "completion",
        "let the shell complete commands, options and folders",
        "Prints a script for a shell: what may be typed, as it is now.",
    )
    sub.add_argument("shell", choices=SHELLS, help="for which shell")
    return top


def help_page() -> str:
    """The text of `help.txt`, whatever the window."""
    os.environ["COLUMNS"] = str(COLUMNS)
    return parser().format_help()


def _day(text: str) -> date:
    """A day of the command line: as ISO 8601 writes it, or as people do where that says which is the month."""
    from buildbook.job.days import read_day  # only where one is given
    from buildbook.quantity import QuantityError

    try:
        day = read_day(text)
    except QuantityError as error:
        raise argparse.ArgumentTypeError(f"{error.message} {error.hint}") from None
    from buildbook.job.believable import believable  # only where a day is given: it reads a table

    known = believable("day of a shop")
    if not known.holds(day):
        raise argparse.ArgumentTypeError(f"{text!r} is not {known.between()}")
    return day


if __name__ == "__main__":
    Path(PAGE).write_text(help_page(), "utf-8")
