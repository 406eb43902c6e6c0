"""One TOML file of a maker, and its tables: values by their keys, unknown keys with the nearest known one.

In: bytes. Out: `TomlTable`s; problems with file, line (where it is certain) and key. Never raises for what is
in a file.
"""

from __future__ import annotations

import decimal
import re
import tomllib
from decimal import Decimal
from typing import Any

from buildbook import limits
from buildbook.job.days import SHAPES, STROKES
from buildbook.job.text import decode, shown
from buildbook.job.toml.key import Key, Table
from buildbook.job.toml.lines import KeyPath, lines_of, load_of
from buildbook.job.toml.natural import grouped_money, quoted, stands_alone
from buildbook.job.toml.said import told
from buildbook.job.toml.values import read_value
from buildbook.problems import Problems, did_you_mean
from buildbook.quantity import QuantityError

_PLACE = re.compile(
    r"^(?P<what>.*?) \(at (?:line (?P<line>\d+), column (?P<column>\d+)|end of document)\)$", re.DOTALL
)


def read_toml(data: bytes, name: str, problems: Problems) -> TomlFile | None:
    """The file's values, or None with a problem when it is not TOML."""
    text = decode(data, name, problems)
    if text is None:
        return None
    text = text.replace("\r\n", "\n")
    if not _is_within(text, name, problems):
        return None
    read = _values(text, name, problems)
    return TomlFile(name, read[0], lines_of(read[1]), problems) if read else None


def _values(text: str, name: str, problems: Problems) -> tuple[dict[str, Any], str] | None:
    """The values of a text, and the text that they were read from: figures without their quotes are put in quotes, a
    line after the other. Each line that cannot be read is told, and no more than `limits.TOML_FAULTS` of them.
    """
    lines = grouped_money(text).split("\n")
    faults: list[str] = []
    mended: set[int] = set()
    while len(faults) < limits.TOML_FAULTS:
        try:
            values = tomllib.loads(
                "\n".join(lines) + "\n", parse_float=_decimal
            )  # so that a fault has a line
        except tomllib.TOMLDecodeError as fault:
            line = _line_of(str(fault))
            if line is not None and line not in mended and (said := quoted(lines[line])):
                mended.add(line)
                lines[line] = said
                continue
            faults.append(str(fault))
            _tell_syntax(str(fault), text, name, problems)
            if line is None or not stands_alone(lines[line]):
                return None
            lines[line] = ""  # told; what follows is looked at too
        except ValueError:  # a whole number of thousands of digits
            problems.error(name, "A number in this file is too long.", "Write it with fewer digits.")
            return None
        else:
            return None if faults else (values, "\n".join(lines))
    return None


def _line_of(fault: str) -> int | None:
    """The line that a fault names, counted from 0."""
    match = _PLACE.match(fault)
    return int(match["line"]) - 1 if match and match["line"] else None


def _is_within(text: str, name: str, problems: Problems) -> bool:
    """Whether keys are as many and as deep as can be read; told where they are not."""
    load = load_of(text)
    if load.depth > limits.TOML_DEPTH:
        what = f"Keys or lists stand {load.depth:,} deep inside one another here; {limits.TOML_DEPTH} can be read."
        problems.error(name, what, "Write it more simply.", line=load.deepest)
    if load.values > limits.TOML_VALUES:
        what = f"There are {load.values:,} values in this file; {limits.TOML_VALUES:,} can be read."
        problems.error(name, what, "Keep what belongs to this piece; long words go into the notes.")
    return load.is_bearable


def _decimal(text: str) -> Decimal:
    try:
        return Decimal(text)
    except decimal.InvalidOperation:  # an exponent beyond all bounds
        return Decimal("Infinity")


_FAULTS: tuple[tuple[str, str, str], ...] = (
    ("Invalid date", "There is no such day or time", "Write a day as 2026-03-02."),
    ("Invalid value", "What follows the = cannot be read", 'Put words in quotes: key = "words".'),
    ("Illegal character '\\n'", "A quotation mark is not closed", "Close it at the end of the words."),
    ("Unterminated string", "A quotation mark is not closed", "Close it at the end of the words."),
    ("Expected \"'''\"", "Three quotation marks are not closed", "Close them with three more."),
    ("Unescaped", "There is a \\ in the words", "Write / in its place."),
    ("Invalid hex value", "There is a \\ in the words", "Write / in its place."),
    ("Cannot overwrite a value", "A key stands twice", "Keep one of them."),
    ("Duplicate inline table key", "A key stands twice", "Keep one of them."),
    ("Cannot declare", "A table stands twice", "Join the two; of several finishes each is a [[finish]]."),
    ("Cannot mutate", "A table stands twice", "Join the two."),
    ("Unclosed array", "A [ is not closed", "Close the list with ]."),
    ("Unclosed inline table", "A { is not closed", "Close it with }."),
    ("Expected '=' after a key", "There is no = after the key", 'Write key = "words", or # before a remark.'),
    ("Invalid statement", "This line cannot be read", 'Write key = "words", or # before a remark.'),
    ("Expected newline", "Something follows the value", 'Put the whole value in quotes: key = "7 ft 3 in".'),
)
"""Faults as `tomllib` begins to name them, and what a maker reads instead."""

_UNQUOTED = re.compile(r"=\s*\d[\d.,/ ]*(?:[\"'%°]|(?:mm|cm|m|in|ft|kg|g|lbs?|oz|st|h|hrs?|C|F)\b)")
_IN_QUOTES = 'Put the whole value in quotes: key = "7 ft 3 in".'
_HINT = 'A line is written key = "words", key = 12 or key = 2026-03-02.'


def _tell_syntax(fault: str, text: str, name: str, problems: Problems) -> None:
    """A syntax error, with its line and the line's own words."""
    match = _PLACE.match(fault)
    line = int(match["line"]) if match and match["line"] else None
    words = text.split("\n")[line - 1].strip() if line else ""
    here = f": {shown(words)}" if words else ""
    value = words.partition("=")[2].partition("#")[0].strip()
    is_day = not fault.startswith("Invalid date")
    if is_day and value and (STROKES.fullmatch(value) or any(shape.fullmatch(value) for shape in SHAPES)):
        problems.error(name, f"This day cannot be read{here}.", "Write a day as 2026-03-02.", line=line)
        return
    if _UNQUOTED.search(words):
        problems.error(name, f"A figure with its unit is not in quotes{here}.", _IN_QUOTES, line=line)
        return
    for begins, message, hint in _FAULTS:
        if fault.startswith(begins):
            problems.error(name, f"{message}{here}.", hint, line=line)
            return
    what = match["what"] if match else fault
    problems.error(name, f"This is not TOML, {what[:1].lower()}{what[1:]}{here}.", _HINT, line=line)


def named(path: KeyPath) -> str:
    """A key as a problem names it, tables numbered from 1: `finish[2].coats`."""
    name = ""
    for part in path:
        name += f"[{part + 1}]" if isinstance(part, int) else f".{part}" if name else part
    return name


class TomlFile:
    """A TOML file that could be read."""

    def __init__(
        self, name: str, values: dict[str, Any], lines: dict[KeyPath, int], problems: Problems
    ) -> None:
        self.name = name
        self.values = values
        self.lines = lines
        self.problems = problems
        self.decimal_comma = False

    def top(self, spec: Table, units: str) -> TomlTable:
        return TomlTable(self, self.values, (), spec, units)


class TomlTable:
    """A table of a file, with what it may hold."""

    def __init__(
        self, file: TomlFile, values: dict[str, Any], path: KeyPath, spec: Table, units: str
    ) -> None:
        self.file = file
        self.values = values
        self.path = path
        self.spec = spec
        self.units = units

    # -- telling ---------------------------------------------------------------------------------

    def _where(self, *keys: str | int) -> dict[str, Any]:
        path = (*self.path, *keys)
        return {"line": self.file.lines.get(path), "field": named(path)}

    def error(self, message: str, hint: str = "", *keys: str | int) -> None:
        """A problem of this table, or of a key of it."""
        self.file.problems.error(self.file.name, message, hint, **self._where(*keys))

    def warn(self, message: str, hint: str = "", *keys: str | int) -> None:
        self.file.problems.warn(self.file.name, message, hint, **self._where(*keys))

    # -- reading ---------------------------------------------------------------------------------

    def read(self) -> dict[str, Any]:
        """The values by their names in the model. What is missing or wrong is left out, and told."""
        self._tell_unknown()
        found: dict[str, Any] = {}
        for key in self.spec.keys:
            if key.name not in self.values:
                if key.needed:
                    self.error(f"There is no “{key.name}”.", f"Write {key.name} = {key.example}.")
            elif key.reads not in ("table", "tables"):
                self._read_one(key, found)
        return found

    def _read_one(self, key: Key, found: dict[str, Any]) -> None:
        value = self.values[key.name]
        try:
            found[key.target] = read_value(value, key, self.units, decimal_comma=self.file.decimal_comma)
        except QuantityError as wrong:
            self.error(wrong.message, wrong.hint, key.name)
        else:
            if key.needed and found[key.target] == "":
                self.error(f"“{key.name}” is empty.", f"Write {key.name} = {key.example}.", key.name)

    def _tell_unknown(self) -> None:
        where = self.spec.heading or self.file.name
        before = self.file.problems.errors
        for name in self.values:
            if self.file.problems.errors - before >= limits.ERRORS_TOLD:
                self.error(
                    "There are more keys like these; they were not looked at.", "Put those right first."
                )
                return
            if self.spec.key(name) is None:
                hint = did_you_mean(name, self.spec.names)
                self.error(f"{shown(name)} is not a key of {where}.", hint or "See the list of keys.", name)

    def table(self, name: str, spec: Table) -> TomlTable | None:
        """A table inside this one; None when there is none, or another thing, which is told."""
        if name not in self.values:
            return None
        value = self.values[name]
        if not isinstance(value, dict):
            self.error(f"{told(value)}, not a table.", f"Write {name} = {self._example(name)}.", name)
            return None
        return TomlTable(self.file, value, (*self.path, name), spec, self.units)

    def tables(self, name: str, spec: Table) -> list[TomlTable]:
        """The tables of an array; a single table is told, and taken as one."""
        value = self.values.get(name, [])
        if isinstance(value, dict):
            self.error(f"[{name}] is a single table.", f"Write [[{name}]], one for each.", name)
            return []
        if not isinstance(value, list) or not all(isinstance(item, dict) for item in value):
            self.error(f"“{name}” is not a row of tables.", f"Write [[{name}]], one for each.", name)
            return []
        if len(value) > (most := limits.TABLES_OF_A_KIND[name]):
            self.error(f"There are {len(value):,} [[{name}]]; {most} can be read.", "Leave some out.", name)
            return []
        return [
            TomlTable(self.file, item, (*self.path, name, number), spec, self.units)
            for number, item in enumerate(value)
        ]

    def _example(self, name: str) -> str:
        key = self.spec.key(name)
        return key.example if key else "{ … }"
