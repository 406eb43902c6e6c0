"""Prints: the only module that does. What comes out is free of control characters, wherever it came from.

Names of files, titles and values are the maker's, or of someone whose folder or archive was opened: an escape sequence
in one would move the cursor, hide a line or write into the terminal's title; a line break would forge a line of ours.
"""

from __future__ import annotations

import argparse
import re
import sys
from typing import IO, Any, NoReturn

SHOWN_INSTEAD = "\N{REPLACEMENT CHARACTER}"

_BLANK = re.compile(r"[\t\n\r]+")
_UNSAFE = re.compile(
    "["
    "\x00-\x1f\x7f-\x9f"  # controls, escape among them
    "\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069"  # what turns the direction of text
    "\u2028\u2029"  # line and paragraph separators
    "\u180e\u200b\u2060-\u2065\u206a-\u206f\ufeff\ufff9-\ufffb\U0001bca0-\U0001bca3\U0001d173-\U0001d17a"  # not seen
    "\U000e0000-\U000e007f"  # tags: a text that is not seen
    "\ud800-\udfff"  # halves, which stand for bytes that are no character
    "]"
)


def plain_text(text: object) -> str:
    """One line of text as it may be printed: a line break or a tab becomes a blank, any other control character �."""
    return _UNSAFE.sub(SHOWN_INSTEAD, _BLANK.sub(" ", str(text)))


def out(*lines: object) -> None:
    """Print lines to standard output; what is passed as one line stays one."""
    _write(sys.stdout, lines)


def err(*lines: object) -> None:
    """Print lines to standard error."""
    _write(sys.stderr, lines)


def _write(stream: IO[str], lines: tuple[object, ...]) -> None:
    stream.write("".join(f"{plain_text(line)}\n" for line in lines))
    stream.flush()


def print_json(facts: object) -> None:
    """Facts as JSON; control characters in its texts are escaped, so that they read back as they were."""
    import json  # only where it is asked for

    text = json.dumps(facts, ensure_ascii=False, indent=1)
    lines = (
        _UNSAFE.sub(_escaped, line) for line in text.split("\n")
    )  # in texts of JSON there are no line breaks
    sys.stdout.write("\n".join(lines) + "\n")


def _escaped(match: re.Match[str]) -> str:
    import json

    return json.dumps(match[0])[1:-1] if match[0] != "\x7f" else "\\u007f"


class Parser(argparse.ArgumentParser):
    """argparse, printing as we do: what was typed may be a file's name that the shell put in."""

    def _print_message(self, message: str, file: Any = None) -> None:
        _write(file or sys.stderr, tuple(message.removesuffix("\n").split("\n")))

    def error(self, message: str) -> NoReturn:
        super().error(plain_text(message))
