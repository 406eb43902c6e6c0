"""How often each word stands in each field of a job.

A book keeps it with the words of the job, so that its index is added up without reading every note again.
"""

from __future__ import annotations

import json
from collections import Counter, defaultdict
from collections.abc import Iterable
from functools import cache

from buildbook.find.excerpt import Excerpt
from buildbook.find.lexicon import called, terms_called
from buildbook.find.tokens import idle, language, pattern, terms

Counts = dict[str, dict[str, int]]
"""Field -> word as the index keeps it -> how often."""

_RECIPE = "2"  # change it when a text would be read otherwise though its pattern and tables are the same


NAMES = "names"
"""The field of words by which a thing is asked for, beyond those that stand in a job."""


def counts_of(passages: Iterable[Excerpt]) -> Counts:
    """The counts of passages, without words that say nothing; what a hyphen joins also as one. What joints and marked
    lines are called by is counted once a job.
    """
    fields: dict[str, Counter[str]] = defaultdict(Counter)
    keys: dict[str, None] = {}
    for passage in passages:
        fields[passage.field].update(terms(passage.text))
        keys |= dict.fromkeys(passage.called.split())
    if keys:
        fields[NAMES].update(sorted(terms_called(" ".join(keys))))
    return {
        field: {term: count for term, count in counted.items() if term not in idle()}
        for field, counted in fields.items()
    }


@cache
def edition() -> str:
    """What counts rest on, as a few signs: counts of another edition are to be made anew."""
    import hashlib  # takes longer to load than a question to answer

    facts = json.dumps([_RECIPE, pattern(), language(), called()], sort_keys=True)
    return hashlib.sha256(facts.encode()).hexdigest()[:12]
