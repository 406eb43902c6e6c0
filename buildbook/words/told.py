"""Problems in the language of a shop: their English sentences, which stand in the code, put into another language.

In: a `Problem`, a language. Out: the same with its sentences in that language, as far as it has them: the words file
holds them under `[language.problems]` by their English, with `{1}`, `{2}` for what is quoted. A sentence that is not
there stays English; `tests/words/test_told.py` sees that none is there that the code no longer says.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache

from buildbook.problems import Problem
from buildbook.words import Words, fill, problem_sentences

_HOLE = re.compile(r"\\\{(\d)\\\}")
_SHORT = 20  # letters of a sentence beside what is filled in
_IN_QUOTES = re.compile(r"“[^”]*”|\"[^\"]*\"|\[[^\]]*\]|\{[^}]*\}")
_SENTENCE = re.compile(r"[a-z]{2,},? [a-z]{2,}|\b(?:or|and|where|if|with)\b")
_ONLY_QUOTED = re.compile(r"(?:“[^”]*”|\"[^\"]*\"|, | or )+")
_NUMBERED = re.compile(r"\{(\d)\}")
_ENGLISH = "en"
_QUOTES = "“”"


def told(problem: Problem, language: str) -> Problem:
    """A problem in a language."""
    if language == _ENGLISH or not _patterns(language):
        return problem
    return replace(
        problem, message=sentence(problem.message, language), hint=sentence(problem.hint, language)
    )


def sentence(english: str, language: str) -> str:
    """A sentence of a problem in a language; as it is where the language has none for it."""
    for shape, said in _patterns(language):
        if (match := shape.fullmatch(english)) and not _more_is_said(match):
            return fill(
                _NUMBERED.sub(r"{n\1}", said),
                {name: _quoted(value, language) for name, value in match.groupdict().items()},
            )
    return english


def _more_is_said(match: re.Match[str]) -> bool:
    """Whether a short sentence such as `Write {1}.` took in words of a longer one, which would be left in English."""
    fixed = len(match[0]) - sum(map(len, match.groups()))
    return fixed < _SHORT and any(
        _SENTENCE.search(_IN_QUOTES.sub("", value))
        for value in match.groups()
        if not _ONLY_QUOTED.fullmatch(value)
    )


@cache
def _patterns(language: str) -> tuple[tuple[re.Pattern[str], str], ...]:
    """The sentences of a language with the shape of their English, the ones that say most first."""
    sentences: Mapping[str, str] = problem_sentences(language)
    longest = sorted(sentences, key=lambda english: -len(re.sub(r"\{\d\}", "", english)))
    return tuple(
        (re.compile(_HOLE.sub(r"(?P<n\1>.+?)", re.escape(english)), re.DOTALL), sentences[english])
        for english in longest
    )


def _quoted(value: str, language: str) -> str:
    """What is filled in, in the quotation marks of the language; `or` between two of them is its own."""
    words = Words(language)
    outer = words.text("figures.quotes")[:2]
    value = re.sub(r"(?<=[”\"]) or (?=[“\"])", f" {words.text('figures.or')} ", value)
    return value.translate(str.maketrans(_QUOTES, outer))
