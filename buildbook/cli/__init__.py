"""The command line: arguments, exit codes, and what is printed.

Exit codes: 0 all well, 1 something in the input is wrong (said on standard error), 2 the command line is wrong.
Nothing is imported here but what is loaded already: how long `--help` takes is how long the program takes to start.
"""

from __future__ import annotations

import gc
import os
import sys
from importlib import import_module

from buildbook.cli.help_page import ASKS_FOR_HELP, said_at_once

TYPE_CHECKING = False
if TYPE_CHECKING:  # typing is more than `--help` needs
    from argparse import Namespace
    from types import SimpleNamespace


_OBJECTS_BETWEEN = 50_000
"""New objects between two searches for cycles: a question makes fewer, and looking at them takes a tenth of it."""


def main(arguments: list[str] | None = None) -> int:
    """Run one command; returns the exit code."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(
                encoding="utf-8", errors="replace"
            )  # the words hold ×, ¾ and “ whatever the locale
    typed = sys.argv[1:] if arguments is None else arguments
    try:
        if typed in ASKS_FOR_HELP and said_at_once():
            return 0
        if not typed:
            from buildbook.cli.next_here import tell_what_is_next

            return tell_what_is_next()
        options = _options(typed)
        command = import_module(f"{__name__}.commands.{options.command}")
        return int(command.run(options))
    except BrokenPipeError:  # whoever read it has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except KeyboardInterrupt:
        return 0 if typed[:1] == ["bench"] else 130


def _options(typed: list[str]) -> Namespace | SimpleNamespace:
    if typed[:1] == ["find"]:
        gc.set_threshold(_OBJECTS_BETWEEN)
        from buildbook.cli.plain import plainly_asked

        if options := plainly_asked(typed):
            return options
    from buildbook.cli.parser import parser

    return parser().parse_args(typed)
