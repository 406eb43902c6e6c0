"""What `--help` says, kept as a text, so that no parser need be loaded and made for it.

`python -m buildbook.cli.parser` writes it again.
"""

import os
import sys

from buildbook.cli.terminal import out

PAGE = os.path.join(os.path.dirname(__file__), "help.txt")
COLUMNS = 80
"""Of the text, and the most of any help: longer lines are hard to read."""

ASKS_FOR_HELP = (["--help"], ["-h"])


def said_at_once() -> bool:
    """Whether the text fits the window and was printed; if not, the parser has the word."""
    if _width() < COLUMNS:
        return False
    try:
        with open(PAGE, encoding="utf-8") as file:
            lines = file.read().splitlines()
    except OSError:
        return False
    out(*lines)
    return True


def _width() -> int:
    """Of the window, as `shutil.get_terminal_size` tells it, which takes longer to load than the text to say."""
    told = os.environ.get("COLUMNS", "")
    if told.isdecimal() and int(told):
        return int(told)
    try:
        return os.get_terminal_size(sys.__stdout__.fileno()).columns or COLUMNS if sys.__stdout__ else COLUMNS
    except (OSError, ValueError):  # no terminal
        return COLUMNS
