"""Where each key of a TOML text stands. `tomllib` gives values without their lines; this gives the lines.

In: text that `tomllib` has read without an error, so its grammar need not be checked again. Out: path of a
key -> line. A path that stands twice has no line: none is better than a wrong one.
"""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from buildbook import limits

KeyPath = tuple[str | int, ...]

_TOKEN = re.compile(
    r"""
    (?P<space>[ \t\r]+|\#[^\n]*)
    | (?P<newline>\n)
    | (?P<string>\"{3}(?:\\.|[^\\])*?\"{3,5}|'{3}.*?'{3,5}|"(?:\\.|[^"\\\n])*"|'[^'\n]*')
    | (?P<sign>[][{}=,.])
    | (?P<bare>[^\s"'\[\]{}=,.\#]+)
    """,
    re.VERBOSE | re.DOTALL,
)


@dataclass(frozen=True)
class Load:
    """How much a text asks of its reader: how deep its keys and brackets go, at which line the deepest, how many values
    it has at most.
    """

    depth: int
    deepest: int
    values: int

    @property
    def is_bearable(self) -> bool:
        return self.depth <= limits.TOML_DEPTH and self.values <= limits.TOML_VALUES


def load_of(text: str) -> Load:
    """The load of a text, TOML or not, before it is read: a reader's time grows with the square of the depth."""
    line, depth, deepest, values = 1, 0, 1, 0
    brackets = dots = 0
    for match in _TOKEN.finditer(text):
        token = match[0]
        line += token.count("\n")
        values += token in ("=", ",")
        if token in ("[", "{"):
            brackets += 1
        elif token in ("]", "}"):
            brackets = max(0, brackets - 1)
        dots = dots + 1 if token == "." else 0 if token in ("=", ",", "\n", "[", "{") else dots
        if brackets + dots > depth:
            depth, deepest = brackets + dots, line
    return Load(depth, deepest, values)


def lines_of(text: str) -> dict[KeyPath, int]:
    """The line of each key, by its path; tables of an array are numbered from 0."""
    return _Walk(text).lines()


class _Walk:
    """One pass over the tokens, in the order of the grammar: headings, keys, values."""

    def __init__(self, text: str) -> None:
        self._tokens = list(self._split(text))
        self._at = 0
        self._line = 1
        self._found: dict[KeyPath, int] = {}
        self._twice: set[KeyPath] = set()
        self._tables: Counter[KeyPath] = Counter()

    @staticmethod
    def _split(text: str) -> Iterator[tuple[str, str]]:
        for match in _TOKEN.finditer(text):
            if match.lastgroup != "space":
                yield str(match.lastgroup), match[0]

    def lines(self) -> dict[KeyPath, int]:
        inside: KeyPath = ()
        while self._peek():
            if self._peek() == "\n":
                self._take()
            elif self._peek() == "[":
                inside = self._heading()
            else:
                self._pair(inside)
        return {path: line for path, line in self._found.items() if path not in self._twice}

    def _peek(self) -> str:
        return self._tokens[self._at][1] if self._at < len(self._tokens) else ""

    def _take(self) -> str:
        _, token = self._tokens[self._at]
        self._at += 1
        self._line += token.count("\n")
        return token

    def _skip_lines(self) -> None:
        while self._peek() == "\n":
            self._take()

    def _name(self, path: KeyPath, line: int) -> None:
        if self._found.setdefault(path, line) != line:
            self._twice.add(path)

    def _keys(self, end: str) -> list[str]:
        """The parts of a dotted key, up to the sign that ends it."""
        parts = []
        while (token := self._peek()) and token != end:
            self._take()
            if token[0] in "\"'":
                parts.append(str(tomllib.loads(f"k = {token}")["k"]))
            elif token != ".":
                parts.append(token)
        return parts

    def _heading(self) -> KeyPath:
        line = self._line
        self._take()
        many = self._peek() == "["
        if many:
            self._take()
        path = self._numbered(self._keys("]"))
        self._take()
        if many:
            self._take()
            self._tables[path] += 1
            path = (*path, self._tables[path] - 1)
        self._name(path, line)
        return path

    def _numbered(self, parts: list[str]) -> KeyPath:
        """A heading's path; a part that is an array of tables means the last of them."""
        path: KeyPath = ()
        for number, part in enumerate(parts, 1):
            path = (*path, part)
            if number < len(parts) and self._tables[path]:
                path = (*path, self._tables[path] - 1)
        return path

    def _pair(self, inside: KeyPath) -> None:
        line = self._line
        path = (*inside, *self._keys("="))
        self._take()
        self._name(path, line)
        self._value(path)

    def _value(self, path: KeyPath) -> None:
        opening = self._peek()
        if opening not in ("[", "{"):
            while self._peek() and self._peek() not in ("\n", ",", "]", "}"):
                self._take()
            return
        self._take()
        closing = "]" if opening == "[" else "}"
        number = 0
        while True:
            self._skip_lines()
            if self._peek() in (closing, ""):
                break
            if self._peek() == ",":
                self._take()
            elif opening == "{":
                self._pair(path)
            else:
                self._name((*path, number), self._line)
                self._value((*path, number))
                number += 1
        if self._peek():
            self._take()
