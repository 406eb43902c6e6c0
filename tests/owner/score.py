"""Where a question is answered on a page, how fully, and what a careful reader would give it: 0, 1 or 2.

2  all that the answer needs stands there, in at most two places, and can be found: a word that an owner would type stands
   in the contents, or where the answer stands and that within ten screens; or all within two, which anyone looks through.
1  the heart of it stands there, or more than half of what it needs.
0  less than that, or something that must not stand there: wrong is worse than silent.
"""

from __future__ import annotations

from dataclasses import dataclass

from tests.owner.page import PHONE, Page, Passage
from tests.owner.questions import Piece, Question, Said

MOST_PLACES = 2
SCREENS_LOOKED_THROUGH = 2
SCREENS_SEARCHED = 10
FULL, PART, NONE = "full", "part", "none"
HERE, ELSEWHERE, NOWHERE = "here", "elsewhere", "nowhere"


@dataclass(frozen=True)
class Answer:
    """What a page answers to a question.

    heading  that under which the most of the answer stands.
    px       how far from the top the heart of it stands on a phone.
    content  full, part, none; `missing` says what is not there.
    places   how many passages it takes to read all of it that is there.
    times    in how many passages the heart of it stands.
    word     whether a word that an owner would type stands here, elsewhere on the page, or nowhere.
    listed   whether such a word stands in the contents.
    wrong    what must not stand there and does.
    """

    score: int
    heading: str = ""
    px: float | None = None
    content: str = NONE
    missing: tuple[str, ...] = ()
    places: int = 0
    times: int = 0
    word: str = NOWHERE
    listed: bool = False
    wrong: tuple[str, ...] = ()

    @property
    def screens(self) -> float | None:
        return None if self.px is None else self.px / PHONE[1]


def answered(question: Question, piece: Piece, page: Page, language: str) -> Answer:
    """What the page of a piece, on a phone and in a language, answers."""
    needs = question.needed_of(piece.traits)
    wrong = tuple(
        said.says
        for said in question.never
        if said.asked.fits(piece.traits) and any(said.found(p.text, language) for p in page.passages)
    )
    saying = [
        (passage, met) for passage in page.passages if (met := _met(question, needs, passage, language))
    ]
    typed = [word.casefold() for word in question.typed[language]]
    if not saying:
        word = ELSEWHERE if _holds(page.text, typed) else NOWHERE
        return Answer(0, missing=tuple(need.says for need in needs), word=word, wrong=wrong)
    best, met = max(saying, key=lambda pair: (0 in pair[1], len(pair[1])))
    heart = min(met)
    together = set().union(*(found for _, found in saying))
    content = FULL if len(together) == len(needs) else PART
    word = (
        HERE
        if _holds("\n".join((*best.above[1:], best.text)), typed)
        else ELSEWHERE
        if _holds(page.text, typed)
        else NOWHERE
    )
    listed = _holds("\n".join(page.contents), typed)
    px = best.top_at(met[heart])
    places = _places([set(found) for _, found in saying])
    screens = px / PHONE[1]
    found_easily = (
        listed or screens <= SCREENS_LOOKED_THROUGH or (word == HERE and screens <= SCREENS_SEARCHED)
    )
    if wrong:
        score = 0
    elif content == FULL and places <= MOST_PLACES and found_easily:
        score = 2
    else:
        score = 1 if 0 in together or 2 * len(together) > len(needs) else 0
    return Answer(
        score=score,
        heading=best.heading,
        px=px,
        content=content,
        missing=tuple(need.says for n, need in enumerate(needs) if n not in together),
        places=places,
        times=sum(heart in found for _, found in saying),
        word=word,
        listed=listed,
        wrong=wrong,
    )


def _met(question: Question, needs: tuple[Said, ...], passage: Passage, language: str) -> dict[int, int]:
    """What a passage says of what is needed, by its number, and where in its text."""
    if question.about and not question.about.found(passage.named, language):
        return {}
    hits = ((n, need.found(passage.text, language)) for n, need in enumerate(needs))
    return {n: hit.start() for n, hit in hits if hit}


def _places(found: list[set[int]]) -> int:
    """How many passages it takes to read all that any of them says, the fullest first."""
    left = set().union(*found)
    count = 0
    while left:
        left -= max(found, key=lambda met: len(met & left))
        count += 1
    return count


def _holds(text: str, words: list[str]) -> bool:
    """Whether a browser would find one of these words in a text."""
    folded = text.casefold()
    return any(word in folded for word in words)
