"""A question -> the jobs that answer it, in order. `render/data/find.js` does the very same.

Every word must be found: itself, by another name, as the beginning or a part of a word, or, where it stands nowhere and
is no name, with a slip of spelling. A compound that stands nowhere is asked for by its parts. Where no job has every
word of a longer question, those that have most of them are found.
Words in quotes must follow each other. A length (`1200 mm`, `4 ft`) also finds overall sizes near it.
All points are integers.
"""

from __future__ import annotations

import re
import unicodedata
from bisect import bisect_left
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from buildbook.find.excerpt import Excerpt
from buildbook.find.index import Index
from buildbook.find.lexicon import compound_parts, continues, has_part, names, same
from buildbook.find.settings import settings
from buildbook.find.tokens import Token, idle, tokens

_QUOTED = re.compile('(^|[^0-9¼½¾⅛⅜⅝⅞⅓⅔])["“„”]([^"“„”]+)["“”]')


class Query(NamedTuple):
    """A question taken apart: single words, and phrases whose words follow each other."""

    words: tuple[Token, ...]
    phrases: tuple[tuple[str, ...], ...] = ()

    @property
    def empty(self) -> bool:
        return not self.words and not self.phrases


class Asked(NamedTuple):
    """One word of a question in an index: the points of each job that has it, by which terms; and the word's own."""

    points: dict[int, int]
    terms: frozenset[str]
    tenths: int = 0
    own: str = ""


class Hit(NamedTuple):
    """A job that was found: its place in the index and its points."""

    place: int
    score: int


def parse(text: str) -> Query:
    """Take a question apart. Never raises. Words that say nothing are left out: alone they ask for everything."""
    text = unicodedata.normalize("NFC", text)
    phrases = [tuple(token.term for token in tokens(match[2])) for match in _QUOTED.finditer(text)]
    words = tokens(_QUOTED.sub(r"\1 ", text))
    telling = {word.typed: word for word in words if word.term not in idle()}
    return Query(tuple(telling.values()), tuple(dict.fromkeys(phrase for phrase in phrases if phrase)))


# -- words ---------------------------------------------------------------------------------------


def ask_word(index: Index, word: Token) -> Asked:
    """The jobs that have a word, in one of the ways in which it may stand there."""
    rule = settings().ranking
    factors = _meant(index, word)
    is_name = word.term in names()
    if not factors and not is_name and not word.tenths and (apart := compound_parts(word.term)):
        together = _asked_together(index, [_asked(index, _meant(index, part), 0) for part in apart])
        if together.points:
            return together._replace(own=word.term)
    stands = max(factors.values(), default=0) == rule.exact
    if (
        not is_name
        and not stands
        and len({job for place in factors for job, _ in index.postings[place]}) < rule.few
    ):
        for place in _slips(index.terms, word):
            factors.setdefault(place, rule.typo)
    return _asked(index, factors, word.tenths)._replace(own=word.term)


def _meant(index: Index, word: Token) -> dict[int, int]:
    """Terms that a word means, with how much each counts: itself, one that begins with it or has it as a part, one that
    says the same.
    """
    rule = settings().ranking
    terms = index.terms
    factors: dict[int, int] = {}
    for other in same().get(word.term, ()):
        factors |= dict.fromkeys(_within(index, other), rule.typo)
        if len(other) >= rule.one_slip_from:
            factors |= dict.fromkeys(_beginning(terms, other), rule.typo)
    for other in same().get(word.term, ()):
        if (place := _place(terms, other)) is not None:
            factors[place] = rule.same
    is_name = word.term in names()
    for place in _beginning(terms, word.typed):
        goes_on = not is_name or continues(terms[place], word.typed)
        factors[place] = max(factors.get(place, 0), rule.prefix if goes_on else rule.typo)
    for place in _within(index, word.term):
        factors[place] = rule.kind if terms[place].endswith(word.term) else rule.prefix
    if (exact := _place(terms, word.term)) is not None:
        factors[exact] = rule.exact
    return factors


def _within(index: Index, word: str) -> Iterator[int]:
    """Compounds that have a word as a part after their beginning."""
    if not word.isalpha():
        return
    lines = index.lines
    place = seen = 0
    at = lines.find(word)
    while at >= 0:
        place += lines.count("\n", seen, at)
        if has_part(index.terms[place], word):
            yield place
        seen = lines.find("\n", at)  # on with the next term
        at = lines.find(word, seen) if seen >= 0 else -1


def _asked_together(index: Index, every: Sequence[Asked]) -> Asked:
    """The jobs that have all parts of a compound, by the least that one of them gives."""
    jobs = set(every[0].points).intersection(*(each.points for each in every[1:]))
    points = {job: min(each.points[job] for each in every) for job in jobs}
    return Asked(points, frozenset().union(*(each.terms for each in every)))


def ask_exactly(index: Index, term: str) -> Asked:
    """The jobs that have a term as it is."""
    place = _place(index.terms, term)
    return _asked(index, {} if place is None else {place: settings().ranking.exact}, 0)


def _asked(index: Index, factors: dict[int, int], tenths: int) -> Asked:
    """A word counts as rare only as its most frequent term does, else rare longer words would come before it."""
    rarity = min((index.rarity[place] for place in factors), default=0)
    points: dict[int, int] = {}
    for place, factor in factors.items():
        for job, step in index.postings[place]:
            points[job] = max(points.get(job, 0), rarity * step * factor)
    if tenths:
        for job, sides in enumerate(index.sides):
            if close := max((near(side, tenths) for side in sides), default=0):
                points[job] = max(points.get(job, 0), close)
    return Asked(points, frozenset(index.terms[place] for place in factors), tenths)


def near(side: int, wanted: int) -> int:
    """Points of an overall size for one that is asked for: 0 when it is too far away, or when there is none."""
    if not side or not wanted:
        return 0
    rule = settings().ranking
    left = wanted * rule.size_within_pct - abs(side - wanted) * 100
    return 0 if left < 0 else 1 + rule.size_points * left // (wanted * rule.size_within_pct)


def _place(terms: Sequence[str], term: str) -> int | None:
    place = bisect_left(terms, term)
    return place if place < len(terms) and terms[place] == term else None


def _beginning(terms: Sequence[str], typed: str) -> Iterable[int]:
    place = bisect_left(terms, typed)
    while place < len(terms) and terms[place].startswith(typed):
        yield place
        place += 1


def _slips(terms: Sequence[str], word: Token) -> list[int]:
    """Terms that a word may be a slip of, as the index has it and as typed: the s of `chets` is none of several."""
    return [place for way in dict.fromkeys((word.term, word.typed)) for place in _slips_of(terms, way)]


def _slips_of(terms: Sequence[str], way: str) -> list[int]:
    """Terms that differ by a slip or two: a letter wrong, missing, too many, or two turned round.

    For a short word, which has too many neighbours, only the last.
    """
    rule = settings().ranking
    if len(way) < rule.turned_from or re.search("[0-9]", way):
        return []
    if len(way) < rule.one_slip_from:
        places = [_place(terms, other) for other in turned(way)]
        return [place for place in places if place is not None]
    most = 1 if len(way) < rule.two_slips_from else 2
    return [place for place, term in enumerate(terms) if within_slips(way, term, most)]


def turned(word: str) -> list[str]:
    """A word with two neighbouring letters turned round, in every way that makes it another."""
    ways = (word[:i] + word[i + 1] + word[i] + word[i + 2 :] for i in range(len(word) - 1))
    return [way for way in dict.fromkeys(ways) if way != word]


def within_slips(one: str, other: str, most: int) -> bool:
    """Whether two words are at most so many slips apart (optimal string alignment distance)."""
    if abs(len(one) - len(other)) > most:
        return False
    before: list[int] = []
    last = list(range(len(other) + 1))
    for i, letter in enumerate(one, 1):
        row = [i]
        for j, against in enumerate(other, 1):
            cost = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (letter != against))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == against:
                cost = min(cost, before[j - 2] + 1)
            row.append(cost)
        if min(row) > most and (not before or min(last) > most):
            return False
        before, last = last, row
    return last[-1] <= most


# -- the whole question --------------------------------------------------------------------------


def ask(index: Index, query: Query) -> list[Asked]:
    """Each word of a question, those of its phrases too, which are asked for exactly."""
    single = [ask_word(index, word) for word in query.words]
    in_phrases = dict.fromkeys(term for phrase in query.phrases for term in phrase if term not in idle())
    return single + [ask_exactly(index, term) for term in in_phrases]


def rank(index: Index, query: Query, asked: Sequence[Asked]) -> list[Hit]:
    """The jobs that have every word, most points first, then as they stand in the index; where none has, those that
    have the most words of a longer question. Phrases are yet to be seen.
    """
    if query.empty or not asked:
        return [Hit(place, 0) for place in range(len(index.keys))]
    jobs = set(asked[0].points).intersection(*(each.points for each in asked[1:]))
    if not jobs and not query.phrases:
        jobs = _with_most(asked)
    hits = [Hit(job, sum(each.points.get(job, 0) for each in asked)) for job in jobs]
    return sorted(hits, key=lambda hit: (-hit.score, hit.place))


def _with_most(asked: Sequence[Asked]) -> set[int]:
    """The jobs that have as many words as any has, if that is most of them."""
    rule = settings().ranking
    if len(asked) < rule.most_of:
        return set()
    counts = Counter(job for each in asked for job in each.points)
    most = max(counts.values(), default=0)
    enough = most * 100 >= len(asked) * rule.most_pct
    return {job for job, count in counts.items() if count == most} if enough else set()


def lacking(query: Query, asked: Sequence[Asked], job: int) -> tuple[str, ...]:
    """The words of a question that a job does not have, as they were typed."""
    return tuple(word.typed for word, each in zip(query.words, asked, strict=False) if job not in each.points)


def find(index: Index, text: str, passages: Callable[[str], Sequence[Excerpt]]) -> list[Hit]:
    """The jobs that answer a question, in order. `passages` gives the words of a job by its key, for phrases."""
    query = parse(text)
    return answers(index, query, ask(index, query), passages)


def answers(
    index: Index, query: Query, asked: Sequence[Asked], passages: Callable[[str], Sequence[Excerpt]]
) -> list[Hit]:
    """The same of a question that was taken apart and asked."""
    hits = rank(index, query, asked)
    if not query.phrases:
        return hits
    return [hit for hit in hits if has_phrases(passages(index.keys[hit.place]), query.phrases)]


def has_phrases(passages: Sequence[Excerpt], phrases: Iterable[Sequence[str]]) -> bool:
    """Whether each phrase stands whole in one of the passages."""
    texts = [[token.term for token in tokens(passage.text)] for passage in passages]
    return all(any(phrase_places(terms, phrase) for terms in texts) for phrase in phrases)


def phrase_places(terms: Sequence[str], phrase: Sequence[str]) -> list[int]:
    """Where in a text a phrase begins."""
    length = len(phrase)
    return [at for at in range(len(terms) - length + 1) if list(terms[at : at + length]) == list(phrase)]
