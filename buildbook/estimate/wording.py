"""What an estimate says in words: its sentences, and why a past job is like the enquiry and where it differs.

In: records of `model`, `Words`. Out: text. Pure.
"""

from __future__ import annotations

from buildbook.estimate.model import Compared, Like, Said
from buildbook.words import Words

SAME, NEAR = 0.95, 0.5
"""From where two pieces have the same of a trait, and from where nearly."""

LONG = 28
"""Signs from which what the enquiry has is not told again."""

MOST = 3
"""Reasons told of each kind: more is not read."""


def sentence(said: Said, words: Words) -> str:
    """A sentence of an estimate."""
    return words.text(f"estimate.said.{said.key}", **dict(said.values))


def reasons(like: Like, words: Words) -> tuple[str, ...]:
    """Why a past job is like this one: the traits that make most of its likeness, the strongest first."""
    alike = [item for item in like.compared if item.alike >= NEAR]
    alike.sort(key=lambda item: -item.alike * item.weight)
    return tuple(_trait(item, "same" if item.alike >= SAME else "near", words) for item in alike[:MOST])


def differences(like: Like, words: Words) -> tuple[str, ...]:
    """Where it differs: the traits that cost most of the likeness, the strongest first."""
    unlike = [item for item in like.compared if item.alike < SAME]
    unlike.sort(key=lambda item: -(1 - item.alike) * item.weight)
    return tuple(_trait(item, "differs", words) for item in unlike[:MOST])


def _trait(item: Compared, how: str, words: Words) -> str:
    name = words.text(f"estimate.trait.{item.trait}")
    nothing = words.text("estimate.reason.none")
    here, there = item.here or nothing, item.there or nothing
    if how == "same" and here == there:
        return words.text("estimate.reason.same", trait=name, there=there)
    way = "near" if how != "differs" else "differs"
    if (
        len(here) > LONG
    ):  # a list of the enquiry's own is known to its reader, and would be told with every job
        return words.text(f"estimate.reason.{way}_long", trait=name, there=there)
    return words.text(f"estimate.reason.{way}", trait=name, here=here, there=there)
