"""Hours that stand as a sentence of their own in prose: `Stickered it all. 4 1/2 hrs.`

In: a line. Out: the hours that it books, the line without them, and what else in it may be hours, a sentence each,
which is for the maker to say: `3 hours with the drive`, `half a day`.
"""

from __future__ import annotations

import re

from buildbook.job.notes.hours import TIME_IN_HOURS, is_waiting, may_be_hours

_SENTENCE_END = re.compile(r"(?<=[.!?;)])\s+(?=[^\W_]|[.,¼½¾])")
_BARE = re.compile(rf"{TIME_IN_HOURS}\s*\.?\s*", re.IGNORECASE)
_BEHIND_COMMA = re.compile(
    rf"(?P<before>[^\d][^.]*[^\d\s]),\s+(?P<amount>{TIME_IN_HOURS})\s*\.?\s*", re.IGNORECASE
)
_DAYS = re.compile(
    r"(?:.*,\s*)?(?:about |ca\.? |etwa )?"
    r"(?:half a|an?|one|two|three|\d[\d.,]*|[½¼¾]|ein(?:en)?|zwei|drei|(?:ein(?:en)? )?halbe[nr]?)\s+"
    r"(?:full |whole |ganze[nr]? )?(?:days?|tage?)\W*",
    re.IGNORECASE,
)
_AT_ITS_END = re.compile(rf"(?:[^\s,;:]+ ){{1,4}}{TIME_IN_HOURS}\s*\.?", re.IGNORECASE)
_LONGEST = 2000  # signs of a line that is looked at
_FEW = 3  # words of a sentence that may say what was waited for


def booked_in(line: str) -> tuple[tuple[str, ...], str]:
    """The hours that a line says in sentences of their own, each as written, and the line without them."""
    if len(line) > _LONGEST:
        return (), line
    sentences = _SENTENCE_END.split(line)
    amounts: list[str] = []
    left: list[str] = []
    for number, sentence in enumerate(sentences, start=1):
        before = left[-1] if left else ""
        waited = is_waiting(before) and len(before.split()) <= _FEW
        if before and not waited and _BARE.fullmatch(sentence):
            amounts.append(sentence.strip(" ."))
        elif (
            number == len(sentences)
            and (found := _BEHIND_COMMA.fullmatch(sentence))
            and not is_waiting(sentence)
        ):
            amounts.append(found["amount"])
            left.append(f"{found['before']}.")
        else:
            left.append(sentence)
    return (tuple(amounts), " ".join(left)) if amounts else ((), line)


def perhaps_hours(line: str, stages: tuple[str, ...]) -> str:
    """The first sentence of a line that may be hours of work; empty where there is none. A line that may be as a whole
    is told as a whole.
    """
    if may_be_hours(line, stages):
        return line
    if len(line) > _LONGEST:
        return ""
    for sentence in _SENTENCE_END.split(line):
        if is_waiting(sentence):
            continue
        if (
            _DAYS.fullmatch(sentence)
            or _AT_ITS_END.fullmatch(sentence)
            or (
                re.search(TIME_IN_HOURS, sentence)
                and any(may_be_hours(said, stages) for said in (sentence, *sentence.split(", ")))
            )
        ):
            return sentence
    return ""
