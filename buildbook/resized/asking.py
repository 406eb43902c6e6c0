"""Asks on a terminal for the sizes that do not follow by themselves, one after the other, until nothing is open.

In: a past `Job`, the sizes that are asked for. Out: `Resized`. What is asked next hangs on the answers: a sum that
is met tells more sizes.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from buildbook.folding import folded
from buildbook.job.adds_model import PartSize
from buildbook.job.begin.wishes import BeginError, known_answer
from buildbook.job.model import Job
from buildbook.quantity import QuantityError, read_length
from buildbook.resized.again import resize
from buildbook.resized.dims import dims_of
from buildbook.resized.model import Likely, Resized, Shared, SizeOf
from buildbook.resized.telling import Telling
from buildbook.words import Words

Ask = Callable[[str], str]
"""Shows a question, gives the answer. Raises EOFError where nobody answers any more."""

Tell = Callable[[str], None]


def asked(job: Job, wanted: Mapping[PartSize, float], words: Words, ask: Ask, tell: Tell) -> Resized:
    """The piece with an answer for each size that was open; of a sum, what is left open stays so."""
    answers: dict[SizeOf, float] = {}
    left: set[str] = set()
    first = True
    while True:
        resized = resize(job, wanted, answers)
        questions = [one for one in resized.untold if not (isinstance(one, Shared) and one.sum in left)]
        if not questions:
            return resized
        telling = Telling(resized, words)
        if first:
            tell(telling.t("ask.intro"))
            first = False
        question = questions[0]
        if isinstance(question, Likely):
            answers[question.size] = _length(question, job, telling, ask, tell)
        elif found := _option(question, job, telling, ask, tell):
            answers |= found
        else:
            left.add(question.sum)


def _length(question: Likely, job: Job, telling: Telling, ask: Ask, tell: Tell) -> float:
    """How long it shall be: what Enter takes, what it was, or what was typed."""
    said = telling.t("ask.likely", question=telling.question(question))
    while text := ask(f"{said} [{telling.figure(question.likely_m)}]").strip():
        try:
            return question.likely_m if known_answer(text) else question.old_m
        except BeginError:  # no word
            pass
        try:
            m = read_length(text, job.units, decimal_comma="," in text).m
        except QuantityError as wrong:
            tell(f"{wrong.message} {wrong.hint}")
            continue
        if m > 0:
            return m
        tell(telling.t("ask.unknown", answer=text))
    return question.likely_m


def _option(question: Shared, job: Job, telling: Telling, ask: Ask, tell: Tell) -> dict[SizeOf, float] | None:
    """What meets the sum; the sizes that do not, stay. None where it shall be left."""
    dims = dims_of(job)
    tell(telling.t("ask.out", sum=question.sum, out=telling.length(abs(question.out_by_m))))
    for number, option in enumerate(question.options, start=1):
        tell(f"  {number}  {telling.option(option.sizes, option.by_m)}")
    said = telling.t("ask.which")
    every = {size for option in question.options for size in option.sizes}
    while text := ask(f"{said} [{telling.t('ask.enter')}]").strip():
        named = [
            option
            for number, option in enumerate(question.options, start=1)
            if text == str(number) or folded(text) in _names(option.sizes, len(every), telling)
        ]
        if named:
            return {size: dims[size].m + (named[0].by_m if size in named[0].sizes else 0.0) for size in every}
        if folded(text) == folded(telling.t("ask.enter")):
            return None
        tell(telling.t("ask.unknown", answer=text))
    return None


def _names(sizes: tuple[SizeOf, ...], every: int, telling: Telling) -> set[str]:
    """What an option may be called: its part, or all of them."""
    if len(sizes) == 1:
        return {folded(sizes[0].part), folded(telling.size(sizes[0]))}
    return (
        {folded(telling.t("ask.all")), folded(telling.t("ask.all").split()[0])}
        if len(sizes) == every
        else set()
    )
