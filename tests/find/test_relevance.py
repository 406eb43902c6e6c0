"""Whether what a maker means comes first: sixty written questions, against the plain ranking of a full-text database.

Run as `python -m tests.find.test_relevance` for the figures and the questions that still fail.
"""

import sqlite3
import tomllib
from pathlib import Path

import pytest

from buildbook.find.index import build
from buildbook.find.query import find
from buildbook.find.tokens import tokens
from buildbook.job import find_jobs, read_job
from tests.make_shelf import job_of, made_jobs, searched

QUESTIONS = tomllib.loads(Path(__file__).with_name("queries.toml").read_text("utf-8"))
ASKED, BY_HAND = QUESTIONS["asked"], QUESTIONS["by_hand"]
SHELF = Path(__file__).parents[1] / "shelf"
LEAST = 0.92
"""Mean reciprocal rank that the ranking must keep."""


def wanted_keys(asked, jobs):
    """The jobs of which all that is wanted is true."""
    return {
        job.key
        for job in jobs
        if all(any(value in one for one in job.facts[name]) for name, value in asked["wanted"].items())
    }


def reciprocal_rank(ranked, wanted):
    """1 for a wanted job in the first place, 1/2 in the second …; 0 when none is found (Voorhees, TREC-8, 1999)."""
    return next((1 / place for place, key in enumerate(ranked, 1) if key in wanted), 0.0)


def ours(found):
    index = build(one.record for one in found)
    passages = {one.key: one.passages for one in found}
    return lambda text: [index.keys[hit.place] for hit in find(index, text, passages.__getitem__)]


def database(found, match):
    """SQLite's FTS5 over the same words, one column, its own bm25 and tokenizer; every word must match."""
    store = sqlite3.connect(":memory:")
    store.execute("create virtual table shelf using fts5(key unindexed, words, prefix='2 3')")
    rows = [(one.key, "\n".join(passage.text for passage in one.passages)) for one in found]
    store.executemany("insert into shelf values (?, ?)", rows)
    ask = "select key from shelf where shelf match ? order by rank, key"
    return lambda text: [key for (key,) in store.execute(ask, (match(text),))]


def plain(text):
    return " ".join(f'"{text[token.start : token.end]}"' for token in tokens(text))


def begun(text):
    """The same with every word as a beginning: more than plain, for a harder comparison."""
    return " ".join(f'"{text[token.start : token.end]}"*' for token in tokens(text))


def mean(ask, jobs):
    return sum(reciprocal_rank(ask(asked["text"]), wanted_keys(asked, jobs)) for asked in ASKED) / len(ASKED)


def hand_written():
    """What is searched of the ten jobs written by hand."""
    return [searched(read_job(path)) for path in find_jobs(SHELF)]


def mean_by_hand(ask):
    return sum(reciprocal_rank(ask(text), {key}) for text, key in BY_HAND.items()) / len(BY_HAND)


def test_there_are_sixty_questions_and_each_has_an_answer(jobs):
    assert len(ASKED) == 60
    assert len({asked["text"] for asked in ASKED}) == 60
    assert [asked["text"] for asked in ASKED if not wanted_keys(asked, jobs)] == []
    assert [asked["text"] for asked in ASKED if len(wanted_keys(asked, jobs)) > len(jobs) // 4] == []


def test_what_is_meant_comes_first(jobs, found):
    assert mean(ours(found), jobs) >= LEAST


@pytest.mark.parametrize("match", [plain, begun])
def test_it_beats_the_plain_ranking_of_a_database(jobs, found, match):
    assert mean(ours(found), jobs) > mean(database(found, match), jobs)


def test_the_job_that_is_meant_comes_first_among_those_written_by_hand():
    some = hand_written()
    assert mean_by_hand(ours(some)) >= LEAST
    assert mean_by_hand(ours(some)) > max(mean_by_hand(database(some, match)) for match in (plain, begun))


if __name__ == "__main__":
    made = list(made_jobs(300, seed=7))
    all_found = [searched(job_of(job)) for job in made]
    ask = ours(all_found)
    print(f"ours {mean(ask, made):.3f}")
    for match in (plain, begun):
        print(f"FTS5 bm25, {match.__name__} {mean(database(all_found, match), made):.3f}")
    written = hand_written()
    print(f"by hand: ours {mean_by_hand(ours(written)):.3f}")
    for match in (plain, begun):
        print(f"by hand: FTS5 bm25, {match.__name__} {mean_by_hand(database(written, match)):.3f}")
    for text, key in BY_HAND.items():
        if (rank := reciprocal_rank(ours(written)(text), {key})) < 1:
            print(f"{rank:.2f}  {text}  {ours(written)(text)}")
    for asked in ASKED:
        wanted = wanted_keys(asked, made)
        if (rank := reciprocal_rank(ask(asked["text"]), wanted)) < 1:
            print(f"{rank:.2f}  {asked['text']}  ({len(wanted)} wanted, {len(ask(asked['text']))} found)")
