"""Typesetting: a template of the theme and plain data in, a PDF out.

A document is compiled in a temporary folder that holds the template, its data as JSON and the pictures that
were handed in, and nothing else: a template can reach nothing that may not leave. Text never becomes markup;
templates show it with `text()`. The same data give the same bytes: no fonts of the machine, and a date that
is handed in.

In: the theme's `.typ` file, data of JSON's kinds, files as bytes, a date. Out: `Typeset`. Raises
`TypesetError` when the template itself is at fault. The only module that imports the typesetter.
"""

from __future__ import annotations

import json
import re
import tempfile
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path
from typing import Any

from buildbook import limits
from buildbook.problems import Problem, listed
from buildbook.quantity.figures import figure
from buildbook.render.look import Look

STANDARDS: list[Any] = ["a-2a", "ua-1"]
"""What every document of ours is: PDF/A-2a (ISO 19005-2) to be kept, PDF/UA-1 (ISO 14289-1) to be heard."""

NO_DAY = date(1970, 1, 1)
"""The date of a document whose job names no day: the standards demand one, today's would change the bytes."""

UNSHOWN = "□"  # what stands for a sign that no font of the typesetter has
_AS_IS = frozenset(
    {"file", "to", "colour"}
)  # keys of data whose value, a single one, is no text for a reader
_SIGN = r"(?:[^\s\u200b]|[\u00a0\u2007\u202f])"  # a space that does not break joins like a letter
_LONG_WORD = re.compile(rf"{_SIGN}{{25,}}")
# A line never ends before a stroke or a closing mark, nor after an opening one, not even at a space between
# (UAX #14, LB13 to LB17): a list of such words is one long word to a typesetter.
_GLUED = re.compile(rf"(?<!{_SIGN}){_SIGN}++(?:(?: (?=[^\w\s])|(?<=[(\[{{“„‘«¿¡—]) ){_SIGN}+)+")
_AFTER = re.compile(r"(?<=[/._@?&=-])(?=\w)")  # where an address may go on in the next line
_RUN = re.compile(r"[^\u200b]{13,}")
_LONG_RUN = 25  # signs; a line of the card's largest type holds twice as many
_SOFT_HYPHEN, _SOFT_BREAK, _STEP = "\u00ad", "\u200b", 12
_LINE = re.compile(r"main\.typ:(\d+)")
_SIGNS_NAMED = 6
_BRINGS_IN = re.compile(r"(?<![\w-])(?:import|include|eval|std)(?![\w-])")
"""Words of the template language that load a file or a package, or run text as a template (`std` holds the latter)."""

_PANIC = "PanicException"  # what a fault inside the typesetter becomes; no subclass of Exception


class TypesetError(Exception):
    """A template that cannot be compiled: the message is the typesetter's, with the line."""


@dataclass(frozen=True)
class LeftOut:
    """A part of a document that could not be set: its place among the passages of the story, None for a picture of its
    own; and why, as an end of a sentence.
    """

    passage: int | None
    why: str


@dataclass(frozen=True)
class Printed:
    """A PDF, what could not be printed as it was written, and what had to be left out of it."""

    pdf: bytes
    problems: tuple[Problem, ...] = ()
    left_out: tuple[LeftOut, ...] = ()


@dataclass(frozen=True)
class Typeset:
    """A document, what its template reports under the label `<report>`, and the signs it could not show."""

    pdf: bytes
    report: Any
    unshown: tuple[str, ...]


def typeset(
    template: Path,
    data: Mapping[str, Any],
    files: Mapping[str, bytes],
    day: date | None,
    look: Look | None = None,
) -> Typeset:
    """Compile a template with `data.json` and the files beside it. Raises `TypesetError`.

    `look` is the theme's: its tokens are `look` in the data, its fonts come beside the typesetter's own.
    """
    import typst

    look = look or Look()
    _check_faces(look)
    source = _source(template)
    shown, unshown = printable(dict(data))
    shown["look"] = dict(look.tokens)
    when = day or NO_DAY
    shown["date"] = {"year": when.year, "month": when.month, "day": when.day}
    with tempfile.TemporaryDirectory(prefix="print-") as folder:
        root = Path(folder).resolve()
        (root / "main.typ").write_text(source, "utf-8")
        (root / "data.json").write_text(json.dumps(shown, ensure_ascii=False, sort_keys=True), "utf-8")
        for name, content in files.items():
            if Path(name).name != name:
                raise ValueError(f"{name}: files stand beside the template, not in folders")
            (root / name).write_bytes(content)
        try:
            compiler = typst.Compiler(
                str(root / "main.typ"),
                root=str(root),
                font_paths=[str(folder) for folder in look.fonts],
                ignore_system_fonts=True,
                package_path=str(root),
                package_cache_path=str(root),
            )
            pdf = compiler.compile(
                format="pdf",
                pdf_standards=STANDARDS,
                timestamp=datetime(when.year, when.month, when.day, tzinfo=UTC),
            )
            found = json.loads(compiler.query("<report>", field="value"))
        except typst.TypstError as error:
            raise TypesetError(_fault(template.name, error)) from error
        except BaseException as error:
            if type(error).__name__ != _PANIC:
                raise
            raise TypesetError(f"{template.name}: the typesetter gave up on it") from error
    if not isinstance(pdf, bytes):
        raise TypesetError(f"{template.name}: made no document")
    return Typeset(pdf, found[0] if found else None, unshown)


def _source(template: Path) -> str:
    """The text of a template. It is one file: what could bring in another, from the net too, is refused."""
    try:
        source = template.read_text("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise TypesetError(f"{template.name}: cannot be read ({error})") from error
    for number, line in enumerate(source.split("\n"), 1):
        if found := _BRINGS_IN.search(line):  # in comments too: what is one is not for us to say
            raise TypesetError(
                f"{template.name}, line {number}: “{found[0]}” is not for a print, which is one file"
            )
    return source


def _check_faces(look: Look) -> None:
    """A face that is not there would be set in another without a word."""
    there = _faces_there(look.fonts)
    for face in look.faces:
        if face.casefold() not in {name.casefold() for name in there}:
            raise TypesetError(f"theme.toml, [print]: there is no face “{face}”; there are {listed(there)}")


@cache
def _faces_there(folders: tuple[Path, ...]) -> tuple[str, ...]:
    import typst

    fonts = typst.Fonts(include_system_fonts=False, font_paths=[str(folder) for folder in folders])
    return tuple(fonts.families())


def forget_fonts() -> None:
    """Have the fonts of themes looked at again."""
    _faces_there.cache_clear()


def _fault(template: str, error: Any) -> str:
    """The first fault of a template with its line; the name of the temporary folder is no news."""
    line = _LINE.search(error.diagnostic or "")
    return f"{template}, line {line[1]}: {error.message}" if line else f"{template}: {error.message}"


# -- signs -------------------------------------------------------------------------------------------


def printable(data: dict[str, Any]) -> tuple[dict[str, Any], tuple[str, ...]]:
    """The same data with every sign that the fonts lack replaced, and those signs.

    A sign is first taken apart into ones that mean the same (`㎡` is `m2`); what is still lacking becomes
    a box. Words too long for a line are given places where they may break.
    """
    lacking: dict[str, str] = {}
    signs = sorted({sign for text in _texts(data) for sign in _clean(text)})
    asked = [sign for sign in signs if not sign.isascii()][: limits.SIGNS_ASKED]
    known = {sign for sign in signs if sign.isascii()} | set(asked)
    for sign in signs:
        if sign not in known or not has_sign(sign):
            same = unicodedata.normalize("NFKC", sign)
            lacking[sign] = same if same != sign and all(map(has_sign, same)) else UNSHOWN
    table = str.maketrans(lacking)
    shown = _mapped(data, table)
    return shown, tuple(sign for sign, instead in lacking.items() if instead == UNSHOWN)


def unshown_problem(file: str, signs: Iterable[str]) -> Iterator[Problem]:
    """One problem that names the signs, or none."""
    every = list(signs)
    if not every:
        return
    named = [f"“{sign}” ({_name_of(sign)})" for sign in every[:_SIGNS_NAMED]]
    more = f" and {len(every) - _SIGNS_NAMED} more" if len(every) > _SIGNS_NAMED else ""
    yield Problem(
        "warning",
        file,
        f"the print fonts lack {', '.join(named)}{more}; {UNSHOWN} stands in place of each.",
        "Write it in other signs if it matters on paper; the page shows it as it is.",
    )


def _name_of(sign: str) -> str:
    return unicodedata.name(sign, "").lower() or f"U+{ord(sign):04X}"


@cache
def has_sign(sign: str) -> bool:
    """Whether the typesetter's own fonts have a sign: asked of it, since it alone has the fonts open."""
    if sign.isascii() and (sign.isprintable() or sign == "\n"):
        return True
    if unicodedata.category(sign) in ("Cc", "Cs", "Co", "Cn"):
        return False  # controls, halves of pairs, private and unassigned: PDF/A admits none of them
    import typst

    head = '#set document(title: "probe", date: datetime(year: 1970, month: 1, day: 1))'
    probe = f'{head}\n#text("o\\u{{{ord(sign):x}}}")'
    try:
        typst.compile(probe.encode(), format="pdf", pdf_standards=STANDARDS, ignore_system_fonts=True)
    except typst.TypstError:
        return False
    return True


def _texts(data: object, key: str = "") -> Iterator[str]:
    if isinstance(data, str):
        if key not in _AS_IS:
            yield data
    elif isinstance(data, Mapping):
        for name, value in data.items():
            yield from _texts(value, name)
    elif isinstance(data, (list, tuple)):
        for value in data:
            yield from _texts(value)


def _mapped(data: Any, table: dict[int, str], key: str = "") -> Any:
    if isinstance(data, str):
        if key in _AS_IS:
            return data
        shown = _breakable(_clean(data).translate(table))
        return shown if shown.strip() or not data.strip() else UNSHOWN  # nothing but marks that show nothing
    if isinstance(data, Mapping):
        return {name: _mapped(value, table, name) for name, value in data.items()}
    if isinstance(data, (list, tuple)):
        return [_mapped(value, table) for value in data]
    return figure(data) if isinstance(data, float) else data


def _clean(text: str) -> str:
    """Composed letters, and none of the marks that show nothing and steer text (Unicode category Cf)."""
    composed = unicodedata.normalize("NFC", text)
    if composed.isprintable():  # as most is: none of those marks are
        return composed
    return "".join(sign for sign in composed if unicodedata.category(sign) != "Cf" or sign == _SOFT_HYPHEN)


def _breakable(text: str) -> str:
    """Places to break in words that no line could hold: after the marks of an address, else by dozens."""

    def broken(match: re.Match[str]) -> str:
        word = match[0]
        if word.isalpha():
            return _SOFT_HYPHEN.join(word[i : i + _STEP] for i in range(0, len(word), _STEP))
        return _RUN.sub(
            lambda run: _SOFT_BREAK.join(run[0][i : i + _STEP] for i in range(0, len(run[0]), _STEP)),
            _AFTER.sub(_SOFT_BREAK, word),
        )

    def loosened(match: re.Match[str]) -> str:
        run = match[0]
        return run.replace(" ", f" {_SOFT_BREAK}") if len(run) >= _LONG_RUN else run

    return _LONG_WORD.sub(broken, _GLUED.sub(loosened, text))
