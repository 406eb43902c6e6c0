"""Prints: the only module that does. What comes out is free of control characters, wherever it came from.

Names of files, titles and values are the maker's, or of someone whose folder or archive was opened: an escape sequence
in one would move the cursor, hide a line or write into the terminal's title; a line break would forge a line of ours.
"""

from __future__ import annotations

import sys


def plain_text(text: object) -> str:
    """One line of text as it may be printed: a line break or a tab becomes a blank, any other control character �."""
    line = str(text)
    if line.isprintable():  # so it holds none of them
        return line
    from buildbook.cli.controls import BLANK, SHOWN_INSTEAD, UNSAFE

    return UNSAFE.sub(SHOWN_INSTEAD, BLANK.sub(" ", line))


def out(*lines: object) -> None:
    """Print lines to standard output; what is passed as one line stays one."""
    sys.stdout.write(_joined(lines))
    sys.stdout.flush()


def err(*lines: object) -> None:
    """Print lines to standard error."""
    sys.stderr.write(_joined(lines))
    sys.stderr.flush()


def ask(question: str) -> str:
    """Show a question on standard output and wait for a line. EOFError where nobody will write one."""
    sys.stdout.write(plain_text(question).rstrip() + " ")
    sys.stdout.flush()
    if not (line := sys.stdin.readline()):
        raise EOFError
    return line.rstrip("\n")


def is_conversation() -> bool:
    """Whether a person sits at both ends."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))


def _joined(lines: tuple[object, ...]) -> str:
    return "".join(f"{plain_text(line)}\n" for line in lines)


def print_json(facts: object) -> None:
    """Facts as JSON; control characters in its texts are escaped, so that they read back as they were."""
    import json  # only where it is asked for

    from buildbook.cli.controls import UNSAFE

    text = json.dumps(facts, ensure_ascii=False, indent=1)
    lines = (
        UNSAFE.sub(lambda match: _escaped(match[0]), line) for line in text.split("\n")
    )  # in texts of JSON there are no line breaks
    sys.stdout.write("\n".join(lines) + "\n")


def _escaped(sign: str) -> str:
    import json

    return json.dumps(sign)[1:-1] if sign != "\x7f" else "\\u007f"
