"""Problems in the language of a shop: their English sentences, which stand in the code, put into another language.

In: a `Problem`, a language. Out: the same with its sentences in that language, as far as it has them: the words file
holds them under `[language.problems]` by their English, with `{1}`, `{2}` for what is filled in; `{1.day}` shows a day
as the language writes it, `{1.figure}` a number, `{1.written}` what is filled in as it stands, `{1.names}` rows in
quotation marks by their names. What is filled in may be words of the code itself (`a wood`, `between 1 mm and 20 m`):
they have lines of their own, and names of rows of the tables are asked of `Names`. A sentence that is not there stays
English; `tests/words/test_told.py` sees that each that the code says is there, and none that it no longer says.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cache, lru_cache

from buildbook.problems import Problem, spans
from buildbook.words import Words, fill, problem_sentences

_HOLE = re.compile(r"\\\{(\d)\\\}")
_BALANCED = r"(?:[^()]|\([^()]*\))+?"
_PLAIN_HOLE = re.compile(r"\{\d\}")
_SHORT = 20  # letters of a sentence beside what is filled in
_DEEP = 3  # sentences within sentences
_ITEM = 4  # words of one thing in a list
_NAME = 2  # words of one thing in a list after a few words of ours
_KEPT = 1 << 11
_IN_QUOTES = re.compile(r"“[^”]*”|\"[^\"]*\"|\[[^\]]*\]|\{[^}]*\}")
_ASIDE = re.compile(_IN_QUOTES.pattern + r"|\([^)]*\)")
_SENTENCE = re.compile(r"[a-z]{2,},? [a-z]{2,}|\b(?:or|and|where|if|with)\b")
_ONLY_QUOTED = re.compile(r"(?:“[^”]*”|\"[^\"]*\"|, | or )+")
_NUMBERED = re.compile(r"\{(\d)(\.day|\.figure|\.written|\.names)?\}")
_LIST = re.compile(r"(“[^”]*”|\"[^\"]*\"|\([^)]*\)|\[[^\]]*\])|(, | and | or )")
_GROUPED = re.compile(r"\d{1,3}(?:,\d{3})+")
_DAY = re.compile(r"\d{4}-\d\d-\d\d")
_ENGLISH = "en"
_QUOTES = "“”"


@dataclass(frozen=True)
class _Sentence:
    """A sentence with holes: its shape, the longest of its words that are fixed, what the language says for it."""

    shape: re.Pattern[str]
    fixed: str
    said: str


Names = Callable[[str, str], str | None]
"""What a language calls something by its English name; None where it has no name for it."""


def _no_names(english: str, language: str) -> None:
    return None


def told(problem: Problem, language: str, names: Names = _no_names) -> Problem:
    """A problem in a language."""
    if language == _ENGLISH or not problem_sentences(language):
        return problem
    return replace(
        problem,
        message=sentence(problem.message, language, names),
        hint=sentence(problem.hint, language, names),
    )


def sentence(english: str, language: str, names: Names = _no_names) -> str:
    """A sentence of a problem in a language; as it is where the language has none for it."""
    return english if language == _ENGLISH else _sentence(english, language, names, _DEEP)


def line(problem: Problem, language: str) -> str:
    """A problem as one line, its place first: `Zeile 7` for `row 7`."""
    here = told(problem, language)
    if language == _ENGLISH:
        return str(here)
    place = ", ".join(part for part in (here.file, *rows_and_lines(here, language), here.field) if part)
    return f"{place}: {here.message}" + (f" {here.hint}" if here.hint else "")


def rows_and_lines(problem: Problem, language: str) -> tuple[str, ...]:
    """In which rows of a table or lines of a text a problem is: `Zeile 7`, `Zeilen 3, 5 und 7–9`."""
    words = Words(language)
    found = (("row", problem.row), ("line", problem.line))
    return tuple(_numbered(words, what, (first, *problem.also)) for what, first in found if first is not None)


def _numbered(words: Words, what: str, numbers: tuple[int, ...]) -> str:
    if len(numbers) == 1:
        return words.text(f"problem.{what}", number=numbers[0])
    between = f" {words.text('figures.and')} "
    several = between.join(spans(numbers).replace("-", "–").rsplit(", ", 1))
    return words.text(f"problem.{what}s", numbers=several)


@lru_cache(maxsize=_KEPT)
def _sentence(english: str, language: str, names: Names, deep: int) -> str:
    whole, shapes = _sentences(language)
    if english in whole:
        return fill(whole[english], {})
    for one in shapes:
        if one.fixed in english and (match := one.shape.fullmatch(english)):
            found = match.groupdict()
            values = {name: _filled(value, language, names, deep) for name, value in found.items()}
            if not _more_is_said(match, values):
                days = {f"{name}.day": _day(value, language) for name, value in found.items()}
                figures = {f"{name}.figure": _figure(value, language) for name, value in found.items()}
                written = {f"{name}.written": value for name, value in found.items()}
                named = {
                    f"{name}.names": _filled(_named(value, language, names), language, names, deep)
                    for name, value in found.items()
                }
                return fill(one.said, values | days | figures | written | named)
    return english


def _more_is_said(match: re.Match[str], values: Mapping[str, str]) -> bool:
    """Whether a short sentence such as `Write {1}.` took in words of a longer one, which would be left in English."""
    fixed = len(match[0]) - sum(map(len, match.groups()))
    return fixed < _SHORT and any(
        _SENTENCE.search(_IN_QUOTES.sub("", value))
        for name, value in match.groupdict().items()
        if not _ONLY_QUOTED.fullmatch(value)
        and _has_words(value)
        and _unsaid(value, values[name])
        and not _names(value)
    )


def _names(value: str) -> bool:
    """Whether it is a list of names: `in, mm`."""
    things = _parts(value)[::2]
    return len(things) > 1 and all(len(thing.split()) <= _NAME for thing in things)


def _unsaid(value: str, said: str) -> bool:
    return value.translate(_NO_QUOTES) == said.translate(_NO_QUOTES)


_NO_QUOTES = dict.fromkeys(map(ord, "“”„«»‚‘"))


def _has_words(value: str) -> bool:
    return re.search(r"[A-Za-z]{2}", _IN_QUOTES.sub("", value)) is not None


@cache
def _sentences(language: str) -> tuple[Mapping[str, str], tuple[_Sentence, ...]]:
    """The sentences of a language: those without a hole by their English, the others with what says most first."""
    sentences: Mapping[str, str] = problem_sentences(language)
    holed = [english for english in sentences if _PLAIN_HOLE.search(english)]
    longest = sorted(holed, key=lambda english: -len(_PLAIN_HOLE.sub("", english)))
    return (
        {english: said for english, said in sentences.items() if not _PLAIN_HOLE.search(english)},
        tuple(_shaped(english, sentences[english]) for english in longest),
    )


def _shaped(english: str, said: str) -> _Sentence:
    return _Sentence(
        re.compile(_HOLE.sub(_hole, re.escape(english)), re.DOTALL),
        max(_PLAIN_HOLE.split(english), key=len),
        _NUMBERED.sub(r"{n\1\2}", said),
    )


def _hole(match: re.Match[str]) -> str:
    """What may be filled in: of a place in brackets nothing that ends them, so that `a (b) (c)` is told apart."""
    in_brackets = match.string[: match.start()].endswith("(") and match.string[match.end() :].startswith(
        "\\)"
    )
    return rf"(?P<n{match[1]}>{_BALANCED if in_brackets else '.+?'})"


def _filled(value: str, language: str, names: Names, deep: int) -> str:
    """What is filled in: words of the code in the language, things in a list one by one, all else as it is but for
    the quotation marks and what parts thousands.
    """
    if (name := names(value, language)) is not None:
        return name
    if deep and _has_words(value):
        said = _sentence(value, language, names, deep - 1)
        if said != value:
            return said
        if (listed := _listed(value, language, names, deep)) is not None:
            return listed
    words = Words(language)
    if _GROUPED.fullmatch(value):
        return value.replace(",", words.text("figures.group"))
    return value.translate(str.maketrans(_QUOTES, words.text("figures.quotes")[:2]))


def _listed(value: str, language: str, names: Names, deep: int) -> str | None:
    """The things of a list such as `“floor” or “wall”`; None for what is none."""
    words, parts = Words(language), _parts(value)
    things = parts[::2]
    if len(things) < 2 or any(len(_ASIDE.sub("", thing).split()) > _ITEM for thing in things):
        return None
    between = {
        ", ": ", ",
        " and ": f" {words.text('figures.and')} ",
        " or ": f" {words.text('figures.or')} ",
    }
    said = [_filled(thing, language, names, deep - 1) for thing in things]
    return said[0] + "".join(between[by] + thing for by, thing in zip(parts[1::2], said[1:], strict=True))


def _parts(value: str) -> list[str]:
    """A list as its things and what stands between them."""
    parts: list[str] = [""]
    for piece in _LIST.split(value):
        if piece in (", ", " and ", " or "):
            parts += [piece, ""]
        else:
            parts[-1] += piece or ""
    return parts


def _named(value: str, language: str, names: Names) -> str:
    """What stands in quotation marks by its name in the language: it is ours there, and not the maker's."""
    return re.sub("“([^”]*)”", lambda quoted: f"“{names(quoted[1], language) or quoted[1]}”", value)


def _day(value: str, language: str) -> str:
    """A day as the language writes it."""
    return Words(language).short_date(date.fromisoformat(value)) if _DAY.fullmatch(value) else value


def _figure(value: str, language: str) -> str:
    """A number as the language writes it."""
    words = Words(language)
    marks = {",": words.text("figures.group"), ".": words.text("figures.decimal")}
    return re.sub(r"(?<=\d)[.,](?=\d)", lambda mark: marks[mark[0]], value)
