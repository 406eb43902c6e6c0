"""Why a job was found: the passages that hold the words of a question, cut to what can be read at a glance.

In: the passages of a job and the question as asked. Out: `Shown`s with the places of the words that matched.
`render/data/find.js` does the very same.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from buildbook.find.excerpt import Excerpt
from buildbook.find.lexicon import terms_called
from buildbook.find.query import Asked, Query, near, phrase_places
from buildbook.find.settings import settings
from buildbook.find.tokens import Token, Traces, joined, tokens, traced

CUT = "…"
CUT_FIELD = "cut"
"""The field of what cuts a joint."""
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
    may = _May(query, single)
    found = {place: answers for place, one in enumerate(passages) if (answers := may.answer(one))}
    order = {place: _order(passages[place].field) for place in found}
    cuts: dict[int, _Window] = {}
    left = set[int]().union(*found.values())
    shown: list[Shown] = []
    while left and len(shown) < settings().passage.most and found:
        best, most = -1, (0, 0, 0)
        for place, answers in found.items():
            count = strength = 0
            for number in answers:
                if number in left:
                    count += 1
                    strength += answers[number]
            if (weight := (count, strength, order[place])) > most and count:
                best, most = place, weight
        if best < 0:
            break
        if best in cuts:
            shown.append(_shown(cuts[best]))
            left -= cuts[best].answers.keys()
        elif cut := _cut_of(passages[best], query, single):
            cuts[best] = cut
            found[best] = cut.answers
        else:
            del found[best]
    return shown


def _order(field: str) -> int:
    known = settings().fields.get(field)
    return known.order if known else 0


class _May:
    """Which words and phrases of a question a passage may answer, and maybe more, as strongly as can be."""

    def __init__(self, query: Query, single: Sequence[Asked]) -> None:
        self._single = single
        self._rule = settings().passage
        self._words = [(Traces(each.terms), Traces([each.own])) for each in single]
        self._phrases = [[Traces([term]) for term in phrase] for phrase in query.phrases]
        self._lengths = [number for number, each in enumerate(single) if each.tenths]

    def answer(self, passage: Excerpt) -> Answers:
        text, rule = traced(passage.text), self._rule
        answers = _by_names(passage, self._single) if passage.called else {}
        for number, (any_of, own) in enumerate(self._words):
            if any_of.may_be_in(text):
                strength = rule.itself if own.may_be_in(text) else rule.other
                answers[number] = max(answers.get(number, 0), strength)
        for number, every in enumerate(self._phrases, len(self._words)):
            if all(one.may_be_in(text) for one in every):
                answers[number] = rule.itself
        if passage.field == "size":
            answers |= dict.fromkeys(self._lengths, rule.itself)
        return answers


def _by_names(passage: Excerpt, single: Sequence[Asked]) -> Answers:
    """The words of a question that a passage answers by what it is called: one that cuts a joint as if they stood in
    it, lest a day that merely shares a word comes first.
    """
    names, rule = terms_called(passage.called), settings().passage
    strength = rule.itself if passage.field == CUT_FIELD else rule.called
    return {number: strength for number, each in enumerate(single) if not names.isdisjoint(each.terms)}


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
