"""Why a job was found: the passages that hold the words of a question, cut to what can be read at a glance.

In: the passages of a job and the question as asked. Out: `Shown`s with the places of the words that matched.
`render/data/find.js` does the very same.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from buildbook.find.model import Excerpt
from buildbook.find.query import Asked, Query, near, phrase_places
from buildbook.find.settings import settings
from buildbook.find.tokens import Token, Traces, joined, tokens, traced

CUT = "…"
Mark = tuple[int, int]


class Shown(NamedTuple):
    """A passage, cut, and where in `text` words matched: pairs of begin and end."""

    field: str
    where: str
    text: str
    marks: tuple[Mark, ...]


class _Window(NamedTuple):
    """The stretch of a passage that would be shown, and what of the question it answers there."""

    passage: Excerpt
    begin: int
    end: int
    matches: tuple[tuple[int, Token], ...]

    @property
    def answers(self) -> set[int]:
        return {number for number, _ in self.matches}


def why(passages: Sequence[Excerpt], query: Query, asked: Sequence[Asked]) -> list[Shown]:
    """The passages that together show as many words of the question as can be, the one with the most first.

    Which words a passage may answer at most is quickly told; where they stand is only looked for in one that is the
    best by that, until the best is one that was looked at.
    """
    single = asked[: len(query.words)]
    traces = [[Traces(each.terms)] for each in single]
    traces += [[Traces([term]) for term in phrase] for phrase in query.phrases]
    at_most = [_may_answer(passage, single, traces) for passage in passages]
    order = [_order(passage.field) for passage in passages]
    cuts: dict[int, _Window | None] = {}
    left = set[int]().union(*at_most)
    shown: list[Shown] = []
    while left and len(shown) < settings().passage.most:
        weights = [(len(answers & left), own) for answers, own in zip(at_most, order, strict=True)]
        best = max(weights)
        place = weights.index(best)
        if not best[0]:
            break
        if place not in cuts:
            cut = cuts[place] = _cut_of(passages[place], query, single)
            at_most[place] = cut.answers if cut else set()
        elif cut := cuts[place]:
            shown.append(_shown(cut))
            left -= cut.answers
    return shown


def _order(field: str) -> int:
    known = settings().fields.get(field)
    return known.order if known else 0


def _may_answer(passage: Excerpt, single: Sequence[Asked], traces: Sequence[Sequence[Traces]]) -> set[int]:
    """The words and phrases of a question that a passage may answer, and maybe more."""
    text = traced(passage.text)
    answers = {number for number, every in enumerate(traces) if all(one.may_be_in(text) for one in every)}
    if passage.field == "size":
        answers |= {number for number, each in enumerate(single) if each.tenths}
    return answers


def _cut_of(passage: Excerpt, query: Query, single: Sequence[Asked]) -> _Window | None:
    """What would be shown of a passage; None where it answers nothing."""
    found = tokens(passage.text)
    matches = _matches(passage, found, query, single)
    return _cut(passage, found, matches) if matches else None


def _matches(
    passage: Excerpt, found: list[Token], query: Query, single: Sequence[Asked]
) -> list[tuple[int, Token]]:
    """Which word of the question each word of a passage answers, in the order of the text. Phrases only as a whole."""
    matches = [
        (number, token)
        for token in (*found, *joined(passage.text, found))
        for number, each in enumerate(single)
        if token.term in each.terms or (passage.field == "size" and near(token.tenths, each.tenths))
    ]
    terms = [token.term for token in found] if query.phrases else []
    for number, phrase in enumerate(query.phrases, len(query.words)):
        for at in phrase_places(terms, phrase):
            matches += [(number, token) for token in found[at : at + len(phrase)]]
    return sorted(matches, key=lambda match: (match[1].start, match[1].end, match[0]))


def _cut(passage: Excerpt, found: list[Token], matches: Sequence[tuple[int, Token]]) -> _Window:
    """The stretch of a passage that holds the most different words asked for, with a few words before it."""
    rule = settings().passage
    first, last = 0, len(found) - 1
    if len(found) > rule.words:
        anchor = _densest(matches, [token.start for token in found], rule.words - rule.before)
        first = max(0, min(anchor - rule.before, len(found) - rule.words))
        last = first + rule.words - 1
    begin = 0 if first == 0 else found[first].start
    end = len(passage.text) if last == len(found) - 1 else found[last].end
    return _Window(passage, begin, end, tuple(m for m in matches if m[1].start >= begin and m[1].end <= end))


def _shown(cut: _Window) -> Shown:
    text = cut.passage.text
    ahead = CUT if cut.begin else ""
    shift = len(ahead) - cut.begin
    marks: list[Mark] = []
    for _, token in cut.matches:
        if not marks or token.start + shift >= marks[-1][1]:
            marks.append((token.start + shift, token.end + shift))
    shown = ahead + text[cut.begin : cut.end] + (CUT if cut.end < len(text) else "")
    return Shown(cut.passage.field, cut.passage.where, shown, tuple(marks))


def _densest(matches: Sequence[tuple[int, Token]], starts: Sequence[int], words: int) -> int:
    """The place, among the words of a text, of the match from which the most different ones lie within some words."""
    places = [(number, starts.index(token.start)) for number, token in matches]
    counts = [len({n for n, at in places if from_ <= at < from_ + words}) for _, from_ in places]
    return places[counts.index(max(counts))][1]
