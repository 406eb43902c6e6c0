"""A title is the one line that an owner reads before unfolding the rest: whole, in an owner's words, unlike any other."""

import re
from collections import Counter

import pytest

from buildbook.care.rules import rules
from buildbook.words import Words

LANGUAGES = {language: Words(language) for language in ("en", "de")}
TO_READ = [rule for rule in rules() if rule.audience != "maker"]
TOLD_WHEN_IT_HAPPENS = {"mend-joint", "after-damage", "woodworm", "glass-broken"}
MENDING = TOLD_WHEN_IT_HAPPENS | {
    rule.key for rule in rules() if rule.key.startswith("mend-") and not rule.key.startswith("mend-under-")
}
"""Named by what has happened, not by what to do."""

LONGEST_TEXT = 42  # words; what a step must say of a finish is longer
MOST_WARNINGS = 45
MAKERS_WORDS = {
    "en": r"\b(stiles?|(?<!guard )rails?|carcases?|cames|films?|sheets?)\b",
    "de": r"\b(Fries\w*|Sprossen?|Korpus(se)?|Rahmenholz|Film)\b",
}
"""What a maker says among makers; a data sheet is an owner's word too."""

EXPLAINED = {"stand-level", "clean-other"}


def title(rule, language):
    return LANGUAGES[language].section(f"care.{rule.key}")["title"]


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_title_is_a_whole_short_line(language):
    lines = {rule.key: title(rule, language).split() for rule in TO_READ if rule.key not in MENDING}
    assert {key: len(line) for key, line in lines.items() if not 3 <= len(line) <= 9} == {}


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_two_titles_are_alike(language):
    times = Counter(title(rule, language).casefold() for rule in TO_READ if rule.key not in MENDING)
    assert [line for line, count in times.items() if count > 1] == []


def test_moving_house_is_said_of_moving_house_alone():
    said = {rule.key for rule in TO_READ if re.search(r"\b[Mm]oving\b", title(rule, "en"))}
    assert said == {rule.key for rule in TO_READ if rule.key.startswith("moving-")} - {
        "moving-glass",
        "moving-outdoors",
    }
    assert {rule.season for rule in TO_READ if rule.key in said} == {"moving"}


@pytest.mark.parametrize("language", LANGUAGES)
def test_an_owner_reads_an_owners_words(language):
    found = {}
    for rule in TO_READ:
        if rule.key in MENDING | EXPLAINED:
            continue
        for part, text in LANGUAGES[language].section(f"care.{rule.key}").items():
            if said := re.findall(MAKERS_WORDS[language], text.replace("data sheet", "")):
                found[f"{rule.key}.{part}"] = said
    assert found == {}


def test_a_text_is_read_at_a_glance():
    longer = {
        rule.key: count
        for rule in TO_READ
        if rule.key not in MENDING
        and not rule.renews
        and (count := len(LANGUAGES["en"].section(f"care.{rule.key}")["text"].split())) > LONGEST_TEXT
    }
    assert longer == {}


def test_warnings_are_few_and_only_of_what_hurts_badly():
    warnings = [rule.key for rule in TO_READ if rule.severity == "warning"]
    assert len(warnings) <= MOST_WARNINGS
    assert {"tip-over", "magnets-children", "oily-rags", "cot-bedding"} <= set(warnings)
    assert not {key for key in warnings if key.startswith(("clean-", "stone-", "metal-", "cites"))}


OWNERS_WORDS = {
    "storage": "cellar garage", "fix-wall": "rent hollow", "drill-case": "drill cable plug", "no-television": "television",
    "another": "match", "keep-invoice": "guarantee insurance value", "genuine": "genuine mark fingerprint", "genuine-unmarked": "no mark fingerprint",
    "hand-on": "next owner inherits", "end": "stove recycled", "sticking": "sticks", "rh-band": "gaps",
    "maker-gone": "restorer", "children-at-home": "baby", "baby": "baby harmless", "air-damp": "mould", "insects": "woodworm",
}  # fmt: skip


@pytest.mark.parametrize("key", OWNERS_WORDS)
def test_what_an_owner_types_stands_where_the_answer_is(key):
    said = " ".join(LANGUAGES["en"].section(f"care.{key}").values()).casefold()
    assert [word for word in OWNERS_WORDS[key].split() if word not in said] == []
