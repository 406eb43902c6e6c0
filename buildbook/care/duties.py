"""What the maker has to do before a piece is sold, for `proof`: the rules of care that say `before_sale`, as warnings.

In: a job. Out: problems, in the order of the rules. Pure. They are said in the language of the shop, as the log
says them. Which law holds is said, and never that it is met.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.care.care import choose
from buildbook.care.rules import Rule, rules
from buildbook.job.model import Job
from buildbook.problems import Problem
from buildbook.summary import summarise
from buildbook.words import Words

_OF_PARTS = ("wood.", "upholstery.", "glass.", "electric.")
"""What the name of a fact begins with that rows of the parts file give away."""


def before_sale(job: Job) -> list[Problem]:
    """A warning for each duty that the piece calls for."""
    return list(_duties(job))


def _duties(job: Job) -> Iterator[Problem]:
    asked = {rule.key: rule for rule in rules() if rule.before_sale}
    for item in choose(job, summarise(job), Words(job.shop.language)):
        if rule := asked.get(item.key):
            file, field = _place(rule)
            yield Problem("warning", file, f"{item.title}. {item.why}", item.text, field=field)


def _place(rule: Rule) -> tuple[str, str]:
    """The file that calls for a rule, and the key in it."""
    if rule.per_finish:
        return "job.toml", "finish"
    by_parts = any(fact.startswith(_OF_PARTS) for fact in (*rule.all, *rule.any))
    return ("parts.csv", "") if by_parts else ("job.toml", "piece")
