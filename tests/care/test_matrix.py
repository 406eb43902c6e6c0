"""Everything that is told of some 1,200 pieces, judged by the trade: see `tests.care.matrix`."""

from itertools import product

import pytest

from buildbook.care import rules
from buildbook.trade.kinds import kinds as kinds_of_trade
from tests.care.matrix import judge, pieces
from tests.care.matrix.covering import cover
from tests.care.matrix.known import as_rows, known
from tests.care.matrix.pieces import axes, cases, possible, told


@pytest.fixture(scope="module")
def all_told(tmp_path_factory):
    folder = tmp_path_factory.mktemp("matrix") / "piece"
    folder.mkdir()
    return [told(case, folder) for case in cases()]


def test_what_is_told_is_true_of_the_piece(all_told):
    """Nothing is wrong that is not known to be, and what is known is still there."""
    found = {fault for one in all_told for fault in judge.faults(one)} | set(judge.no_rules())
    assert as_rows(found - known()) == "", "new faults: `python -m tests.care.matrix WORDS` shows the pieces"
    assert as_rows(known() - found) == "", "mended: `python -m tests.care.matrix --mended` takes them out"


def test_every_instruction_has_its_line():
    assert {rule.key for rule in rules()} <= set(judge.instructions())


def test_every_kind_of_the_trade_is_tried():
    assert set(pieces.kinds()) == set(kinds_of_trade())


def test_a_clause_names_nothing_that_no_piece_can_be(all_told):
    can_be = frozenset().union(*(one.is_ for one in all_told), pieces.kinds())
    assert judge.named() <= can_be


def test_whatever_must_be_told_is_asked_of_some_piece(all_told):
    """A clause of `must` that no piece meets would prove nothing."""
    lines = [*judge.instructions().values(), *judge.sayings().values()]
    idle = [
        (line.name, number)
        for line in lines
        for number, clause in enumerate(line.must)
        if not any(clause.holds(one.is_) and line.verdict(one.is_) == "must" for one in all_told)
    ]
    assert idle == []


def test_every_two_things_meet_in_some_piece():
    tried = cases()
    names = list(axes())
    for place, one in enumerate(names):
        for other in names[place + 1 :]:
            met = {(case[one], case[other]) for case in tried}
            for levels in product(axes()[one], axes()[other]):
                pair = dict(zip((one, other), levels, strict=True))
                spared = "finish" in pair and "lesser" in pieces.kinds().get(pair.get("kind", ""), ())
                assert levels in met or spared or not possible(pair), levels


def test_every_name_of_a_kind_is_tried():
    called = {(case["kind"], case["name"]) for case in cases()}
    assert called == {(kind, name) for kind in pieces.kinds() for name in pieces.names_of(kind)}


def test_a_cover_holds_what_is_wanted_and_nothing_impossible():
    shape = {"a": ["1", "2", "3"], "b": ["1", "2", "3"], "c": ["1", "2"]}

    def no_equals(case):
        return case.get("a", "x") != case.get("b", "y")

    wanted = [frozenset({("a", x), ("b", y)}) for x, y in product(shape["a"], shape["b"])]
    wanted.append(frozenset({("a", "1"), ("b", "2"), ("c", "2")}))
    found = list(cover(shape, wanted, no_equals))
    assert all(map(no_equals, found))
    assert {(case["a"], case["b"]) for case in found} == {(x, y) for x, y in product("123", "123") if x != y}
    assert {"a": "1", "b": "2", "c": "2"} in found
    assert len(found) <= 7
