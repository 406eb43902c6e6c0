"""Chooses the instructions that a piece calls for, and says why this piece gets each.

In: `Job`, `Summary`, `Words`. Out: `CareItem`s in the order in which a reader should meet them. Pure.
What calls for what is data/rules.toml; what is said is words/<language>.toml.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from buildbook.care.facts import Facts, facts_of
from buildbook.care.figures import MOST_NAMED, figures, finish_figures
from buildbook.care.rules import (
    ABOUT_FINISHES,
    ORDINARY,
    SEVERITIES,
    WEARS,
    Audience,
    Manner,
    Rule,
    Season,
    Severity,
    When,
    called_for,
    rules,
)
from buildbook.job.model import Job
from buildbook.problems import listed
from buildbook.summary.model import Summary
from buildbook.words import Words


@dataclass(frozen=True)
class CareItem:
    """One instruction for one piece, in whole sentences.

    key       its name in the rules; `source` and `basis` say what it rests on.
    text      what to do; where it is for some of the finishes only, it begins with theirs.
    why       what on this piece calls for it.
    short     one sentence for the top of the page, empty unless `day_one`.
    audience  client, maker or both; only what is for the client names nothing that the client may not read.
    season    when it matters: one of `rules.SEASONS`.
    manner    of what is done every day or in its turn: do, never, or with; None of all else.
    times     when the calendar calls for it: of `rules.WHENS`.
    renews    whether it says how a finish is renewed; finishes: those it is about, by what they are called.
    order     its place among the instructions of this piece, from 0.
    """

    key: str
    title: str
    text: str
    why: str
    short: str
    audience: Audience
    severity: Severity
    season: Season
    day_one: bool
    source: str
    basis: str
    order: int
    manner: Manner | None = None
    times: tuple[When, ...] = ()
    renews: bool = False
    finishes: tuple[str, ...] = ()

    @property
    def for_client(self) -> bool:
        return self.audience != "maker"


def choose(job: Job, summary: Summary, words: Words, facts: Facts | None = None) -> tuple[CareItem, ...]:
    """The instructions that the piece calls for and no others: by severity, then in the order of the
    rules. facts: those of the job, where they have been found before.
    """
    facts = facts or facts_of(job, summary, words)
    called = called_for(rules(), facts.held)
    given = sorted(
        (told for rule in called if (told := _told_to(rule, facts))),
        key=lambda rule: (SEVERITIES.index(rule.severity), rule.order),
    )
    of_piece = figures(job, summary, words)
    items: list[CareItem] = []
    for rule in given:
        meant = finishes_meant(rule, facts)
        if rule.of_worn and not meant:
            continue
        values = {**of_piece, **finish_figures(job, summary, words, meant), **_names(rule, facts, words)}
        item = _item(rule, len(items), values, words, _where(rule, meant, facts, words))
        items.append(replace(item, finishes=meant))
    return tuple(items)


def _told_to(rule: Rule, facts: Facts) -> Rule | None:
    """A rule for those whom it may be told: what only a part kept off the client's page calls for is the maker's to
    read, unless it is there to keep someone from harm.
    """
    any_held = [fact for fact in rule.any if facts.holds(fact)]
    may_be_told = all(map(facts.may_be_told, rule.all)) and (
        not any_held or any(map(facts.may_be_told, any_held))
    )
    if may_be_told or rule.severity != ORDINARY or rule.audience == "maker":
        return rule
    return replace(rule, audience="maker") if rule.audience == "both" else None


def finishes_meant(rule: Rule, facts: Facts) -> tuple[str, ...]:
    """The finishes of the piece that a rule is about, by what they are called: of a rule that renews them, those that
    wear.
    """
    about = (fact for fact in (*rule.all, *rule.any) if fact.startswith(ABOUT_FINISHES))
    meant = dict.fromkeys(name for fact in about for name in facts.named(fact, public=True))
    wearing = facts.named(WEARS, public=True)
    return tuple(name for name in meant if not rule.of_worn or name in wearing)


def _where(rule: Rule, meant: tuple[str, ...], facts: Facts, words: Words) -> str:
    """The finishes that an instruction is for, empty where it is for all of them that are not only inside."""
    every = {*facts.named("finish.any", public=True), *facts.named("family.unfinished", public=True)}
    if not rule.per_finish or set(meant) == every:
        return ""
    return listed((words.text("facts.the", name=name) for name in meant), words.text("facts.and"))


def _names(rule: Rule, facts: Facts, words: Words) -> dict[str, str]:
    """What called for a rule: `named` for all of it, at least the first few, and each fact that it demands by
    its own name.

    The client's instructions name only what the client may read.
    """
    public = rule.audience != "maker"
    called = {
        fact: _called(fact, facts, words, public=public)
        for fact in (*rule.all, *rule.any)
        if facts.holds(fact)
    }
    last = words.text("facts.and")
    together = tuple(dict.fromkeys(name for names in called.values() for name in names))
    named = {_as_name(fact): listed(names, last) for fact, names in called.items()}
    return {**named, "named": listed(together[:MOST_NAMED], last)}


def _called(fact: str, facts: Facts, words: Words, *, public: bool) -> tuple[str, ...]:
    """What a fact is true of, as `the oak`; a general word where there is none, or too many, to be read."""
    names = facts.named(fact, public=public)
    if 0 < len(names) <= MOST_NAMED:
        return tuple(words.text("facts.the", name=name) for name in names)
    for key in (fact.replace(".", "-"), fact.split(".")[0]):
        if words.has(f"facts.generic.{key}"):
            return (words.text("facts.the", name=words.text(f"facts.generic.{key}")),)
    return ()


def _as_name(fact: str) -> str:
    """`wood.tannin` as `wood_tannin`."""
    return fact.replace(".", "_").replace("-", "_")


def _item(rule: Rule, order: int, values: dict[str, str], words: Words, where: str) -> CareItem:
    def said(part: str) -> str:
        return words.text(f"care.{rule.key}.{part}", **values).strip()

    text = said("text")
    return CareItem(
        key=rule.key,
        title=said("title"),
        text=words.text("facts.on-finish", finishes=where, text=text) if where else text,
        why=said("why"),
        short=said("short") if rule.day_one else "",
        audience=rule.audience,
        severity=rule.severity,
        season=rule.season,
        day_one=rule.day_one,
        source=rule.source,
        basis=rule.basis,
        order=order,
        manner=rule.manner,
        times=rule.times,
        renews=rule.renews,
    )
