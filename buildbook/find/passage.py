"""Why a job was found: the passages that hold the words of a question, cut to what can be read at a glance.

In: the passages of a job and the question as asked. Out: `Shown`s with the places of the words that matched.
`render/data/find.js` does the very same.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from buildbook.find.lexicon import terms_called
from buildbook.find.model import Excerpt
from buildbook.find.query import Asked, Query, near, phrase_places
from buildbook.find.settings import settings
from buildbook.find.tokens import Token, Traces, joined, tokens, traced

CUT = "…"
Mark = tuple[int, int]


class Shown(NamedTuple):
    """A passage, cut, and where in `text` words matched: pairs of begin and end. `at`: the id of where it stands."""

    field: str
    where: str
    text: str
    marks: tuple[Mark, ...]
    at: str


Answers = dict[int, int]
"""Which words of a question are answered, by their number, and how strongly."""


class _Window(NamedTuple):
    """The stretch of a passage that would be shown, and what of the question it answers there."""

    passage: Excerpt
    begin: int
    end: int
    matches: tuple[tuple[int, Token], ...]
    answers: Answers


def why(passages: Sequence[Excerpt], query: Query, asked: Sequence[Asked]) -> list[Shown]:
    """The passages that together show as many words of the question as can be, the one with the most first; of two with
    as many the one that answers them more strongly: where a word stands itself, not another for it, or only its name.

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
        weights = [
            (len(strengths := [answers[number] for number in answers if number in left]), sum(strengths), own)
            for answers, own in zip(at_most, order, strict=True)
        ]
        best = max(weights)
        place = weights.index(best)
        if not best[0]:
            break
        if place not in cuts:
            cut = cuts[place] = _cut_of(passages[place], query, single)
            at_most[place] = cut.answers if cut else {}
        elif cut := cuts[place]:
            shown.append(_shown(cut))
            left -= cut.answers.keys()
    return shown


def _order(field: str) -> int:
    known = settings().fields.get(field)
    return known.order if known else 0


def _may_answer(passage: Excerpt, single: Sequence[Asked], traces: Sequence[Sequence[Traces]]) -> Answers:
    """The words and phrases of a question that a passage may answer, and maybe more, as strongly as can be."""
    text, rule = traced(passage.text), settings().passage
    answers = _by_names(passage, single) if passage.called else {}
    for number, every in enumerate(traces):
        if all(one.may_be_in(text) for one in every):
            answers[number] = rule.itself
    if passage.field == "size":
        answers |= {number: rule.itself for number, each in enumerate(single) if each.tenths}
    return answers


def _by_names(passage: Excerpt, single: Sequence[Asked]) -> Answers:
    """The words of a question that a passage answers by what it is called."""
    names, called = terms_called(passage.called), settings().passage.called
    return {number: called for number, each in enumerate(single) if not names.isdisjoint(each.terms)}


def _cut_of(passage: Excerpt, query: Query, single: Sequence[Asked]) -> _Window | None:
    """What would be shown of a passage; None where it answers nothing."""
    found = tokens(passage.text)
    matches = _matches(passage, found, query, single)
    called = _by_names(passage, single) if passage.called else {}
    return _cut(passage, found, matches, single, called) if matches or called else None


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


def _cut(
    passage: Excerpt,
    found: list[Token],
    matches: Sequence[tuple[int, Token]],
    single: Sequence[Asked],
    called: Answers,
) -> _Window:
    """The stretch of a passage that holds the most different words asked for, with a few words before it."""
    rule = settings().passage
    first, last = 0, len(found) - 1
    if len(found) > rule.words:
        starts = [token.start for token in found]
        anchor = _densest(matches, starts, rule.words - rule.before) if matches else 0
        first = max(0, min(anchor - rule.before, len(found) - rule.words))
        last = first + rule.words - 1
    begin = 0 if first == 0 else found[first].start
    end = len(passage.text) if last == len(found) - 1 else found[last].end
    inside = tuple(match for match in matches if match[1].start >= begin and match[1].end <= end)
    answers = dict(called)
    for number, token in inside:
        itself = number >= len(single) or token.term == single[number].own
        answers[number] = max(answers.get(number, 0), rule.itself if itself else rule.other)
    return _Window(passage, begin, end, inside, answers)


def _shown(cut: _Window) -> Shown:
    text = cut.passage.text
    ahead = CUT if cut.begin else ""
    shift = len(ahead) - cut.begin
    marks: list[Mark] = []
    for _, token in cut.matches:
        if not marks or token.start + shift >= marks[-1][1]:
            marks.append((token.start + shift, token.end + shift))
    shown = ahead + text[cut.begin : cut.end] + (CUT if cut.end < len(text) else "")
    return Shown(cut.passage.field, cut.passage.where, shown, tuple(marks), cut.passage.at)


def _densest(matches: Sequence[tuple[int, Token]], starts: Sequence[int], words: int) -> int:
    """The place, among the words of a text, of the match from which the most different ones lie within some words."""
    places = [(number, starts.index(token.start)) for number, token in matches]
    counts = [len({n for n, at in places if from_ <= at < from_ + words}) for _, from_ in places]
    return places[counts.index(max(counts))][1]
