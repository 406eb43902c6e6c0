"""Every rule is called for by some piece and not by another, and has its words; a faulty rule is named."""

import pytest

from buildbook.care import rules
from buildbook.care.figures import figures, finish_figures
from buildbook.care.rules import EVERYDAY, RuleError, called_for, read_rules
from tests.care.cases import CASES, VARNISHED
from tests.care.pieces import BARE, WORDS

RULES = {rule.key: rule for rule in rules()}
WORD_KEYS = set(WORDS.section("care"))
CAUTIONS = {
    "oily-rags", "sanding-dust-fire", "solvent-vapour", "cure-before-use", "isocyanate",
    "epoxy-sensitisation", "epoxy-heat", "wood-dust", "sensitising-species", "dust-limits",
    "safety-glazing", "glass-shelf-load", "glass-spontaneous", "tip-over", "csu-rule",
    "wall-hanging-fixings", "loaded-weight", "heavy-lift", "magnets-children", "magnets-implants",
    "magnets-cards", "sharp-display", "cribs-out-of-scope", "finger-pinch", "heavy-lid", "chest-air",
    "direct-sun", "heat-sources", "rh-band", "acclimatise", "outdoor-use", "water-rings", "candle-heat",
    "ammonia-silicone", "alcohol-shellac", "plasticiser-marks", "iron-tannin", "stone-marble",
    "stone-weight", "leather", "brass-unlacquered", "brass-lacquered", "insects", "ispm15", "cites",
    "lacey", "eudr", "formaldehyde-panels", "formaldehyde-records", "lead-paint", "salvage-metal",
    "treated-wood", "electrical", "led-heat", "food-contact", "aromatic-cedar", "feet-floor",
    "salvage-claims",
}  # fmt: skip
"""What a piece of furniture may have to warn of or to instruct in; rules.toml has the source of each."""

GOOD = {
    "key": "a-rule",
    "all": ["wood.any"],
    "audience": "client",
    "severity": "note",
    "season": "week",
    "manner": "do",
    "source": "common practice",
    "basis": "common practice",
}


@pytest.mark.parametrize("key", CASES)
def test_a_piece_that_calls_for_it_gets_it(key):
    assert key in CASES[key][0].keys


@pytest.mark.parametrize("key", CASES)
def test_a_piece_that_does_not_call_for_it_goes_without(key):
    assert key not in CASES[key][1].keys


def test_every_rule_has_a_case_and_words_and_nothing_else_has():
    assert set(CASES) == set(RULES) == WORD_KEYS


def test_every_published_caution_is_a_rule_or_within_one():
    assert len(CAUTIONS) == 58
    assert set(RULES) | {key for rule in RULES.values() for key in rule.covers} >= CAUTIONS


def test_a_rule_stands_back_only_for_one_that_is_itself_given():
    def rule(key, fact, *stronger):
        return {**GOOD, "key": key, "all": [fact], "stands_back_for": list(stronger)}

    chain = read_rules(
        {
            "facts": dict.fromkeys("abc", ""),
            "rule": [rule("weak", "a", "middle"), rule("middle", "b", "strong"), rule("strong", "c")],
        }
    )

    def given(held):
        return [one.key for one in called_for(chain, held)]

    assert given("a") == ["weak"]
    assert given("ab") == ["middle"]
    assert given("abc") == ["weak", "strong"]
    assert given("ac") == ["weak", "strong"]


@pytest.mark.parametrize(
    ("key", "stronger"), [(rule.key, other) for rule in RULES.values() for other in rule.stands_back_for]
)
def test_nobody_reads_a_rule_beside_the_one_it_stands_back_for(key, stronger):
    both = CASES[key][0].but(parts=(*CASES[key][0].job.parts, *CASES[stronger][0].job.parts))
    other = CASES[stronger][0]
    told = {
        name: getattr(other.job, name)
        for name in ("near", "drawers", "doors", "crosses_border", "piece", "marks", "may_drill")
    }
    both = both.but(**told).figured(mass=other.summary.mass)
    if other.job.finishes:
        both = both.figured(finish=other.summary.finish)
    assert stronger in both.keys
    assert key not in both.keys


def test_a_piece_of_no_known_kind_gets_only_what_any_wood_gets():
    assert BARE.keys == {
        "clean-bare", "ammonia-silicone", "tannin-wood", "renew-bare", "wood-dust", "irritant-dust", "hurt",
        "another", "maker-gone", "hand-on", "keep-invoice", "genuine-unmarked", "end",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"audience": "children"}, "a-rule: audience is 'children', not one of client, maker, both"),
        ({"severity": "grave"}, "a-rule: severity is 'grave'"),
        ({"season": "spring"}, "a-rule: season is 'spring'"),
        ({"manner": "perhaps"}, "a-rule: manner is 'perhaps', not one of do, never, with"),
        ({"manner": None}, "a-rule: manner is None, not one of do, never, with"),
        ({"season": "moving"}, "a-rule: a rule of the season moving has no manner"),
        ({"due": ["at noon"]}, "a-rule: due is 'at noon', not one of delivery, settled, month, half-year"),
        ({"renews": True}, "a-rule: what renews a finish is per_finish"),
        ({"basis": "hearsay"}, "a-rule: basis is 'hearsay'"),
        ({"source": ""}, "a-rule: a rule needs a source"),
        ({"all": []}, "a-rule: a rule needs a source, and facts"),
        ({"all": ["wood.any", "wood.odd"]}, "a-rule: no such fact: wood.odd"),
        ({"when": "always"}, "a-rule: unknown: when"),
        ({"per_finish": True}, "a-rule: per_finish needs facts about finishes"),
        (
            {"per_finish": True, "all": ["finish.film", "finish.any"]},
            "a-rule: per_finish needs facts about finishes",
        ),
        ({"covers": ["b-rule"]}, "a-rule: covers what has a rule of its own: b-rule"),
        ({"stands_back_for": ["c-rule"]}, "a-rule: stands back for c-rule, and there is no such rule"),
        ({"stands_back_for": ["m-rule"]}, "a-rule: stands back for m-rule, which not all of its readers get"),
        (
            {"audience": "both", "stands_back_for": ["b-rule"]},
            "a-rule: stands back for b-rule, which not all",
        ),
        ({"stands_back_for": ["b-rule"]}, "rules stand back for each other: a-rule, b-rule"),
        ({"stands_back_for": ["a-rule"]}, "rules stand back for each other: a-rule"),
    ],
    ids=lambda value: next(iter(value)) if isinstance(value, dict) else "",
)
def test_a_faulty_rule_is_named(change, said):
    table = {
        "facts": dict.fromkeys(("wood.any", "finish.any", "finish.film"), ""),
        "rule": [
            {**GOOD, **change},
            {**GOOD, "key": "b-rule", "stands_back_for": ["a-rule"]},
            {**GOOD, "key": "m-rule", "audience": "maker"},
        ],
    }
    with pytest.raises(RuleError) as fault:
        read_rules(table)
    assert said in str(fault.value)


def test_what_is_done_in_its_turn_says_how_and_nothing_else_does():
    for rule in rules():
        assert (rule.manner is not None) is (rule.season in EVERYDAY)
    assert {rule.manner for rule in rules()} == {"do", "never", "with", None}
    assert VARNISHED.item("clean-varnish").manner == "with"
    assert VARNISHED.item("ammonia-silicone").manner == "never"


def test_a_rule_that_stands_twice_is_named():
    with pytest.raises(RuleError, match="the rule a-rule stands twice"):
        read_rules({"facts": {"wood.any": ""}, "rule": [GOOD, GOOD]})


@pytest.mark.parametrize("key", RULES)
def test_a_text_names_only_what_every_piece_that_gets_it_has(key):
    rule = RULES[key]
    demanded = {fact.replace(".", "_").replace("-", "_") for fact in rule.all}
    phrases = {
        *figures(BARE.job, BARE.summary, WORDS),
        *finish_figures(BARE.job, BARE.summary, WORDS, ()),
        "named",
    }
    for part in WORDS.section(f"care.{key}"):
        assert WORDS.names(f"care.{key}.{part}") <= demanded | phrases
