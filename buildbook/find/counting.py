"""How often each word stands in each field of a job.

A book keeps it with the words of the job, so that its index is added up without reading every note again.
"""

from __future__ import annotations

import json
from collections import Counter, defaultdict
from collections.abc import Iterable
from functools import cache

from buildbook.find.tokens import idle, language, pattern, terms

Counts = dict[str, dict[str, int]]
"""Field -> word as the index keeps it -> how often."""

_RECIPE = "1"  # change it when a text would be read otherwise though its pattern and tables are the same


def counts_of(passages: Iterable[tuple[str, str, str]]) -> Counts:
    """The counts of passages (field, where, text), without words that say nothing; what a hyphen joins also as one."""
    fields: dict[str, Counter[str]] = defaultdict(Counter)
    for field, _, text in passages:
        fields[field].update(terms(text))
    return {
        field: {term: count for term, count in counted.items() if term not in idle()}
        for field, counted in fields.items()
    }


@cache
def edition() -> str:
    """What counts rest on, as a few signs: counts of another edition are to be made anew."""
    import hashlib  # takes longer to load than a question to answer

    facts = json.dumps([_RECIPE, pattern(), language()], sort_keys=True)
    return hashlib.sha256(facts.encode()).hexdigest()[:12]
