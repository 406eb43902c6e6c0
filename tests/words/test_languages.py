"""Languages: how they stand on one another, and their plurals held against the Unicode CLDR."""

import re
from datetime import date
from decimal import Decimal

import pytest
from babel import Locale
from babel.core import UnknownLocaleError, localedata
from babel.numbers import format_currency

from buildbook.summary.style import style_in
from buildbook.words import Words, chain, known_language, languages, problem_sentences
from buildbook.words.plural import ALL, form_of, read_rules

SHORTER = {"FK", "HK", "MO", "PS"}
"""Countries for which the CLDR has a shorter or a fuller name beside the usual one, which is ours."""

COUNTS = (*range(0, 205), 1_000, 1_001, 1_000_000, 1_000_002)


@pytest.mark.parametrize("tag", localedata.locale_identifiers())
def test_a_rule_of_the_cldr_gives_the_form_that_the_cldr_gives(tag):
    try:
        plural = Locale.parse(tag).plural_form
    except (UnknownLocaleError, ValueError):  # a script or a place that babel has no locale for
        plural = None
    if plural is None:
        return
    rules = read_rules({form: _as_written(rule) for form, rule in plural.rules.items()})
    named = {**{form: form for form in plural.rules}, "other": ALL}
    assert [form_of(count, rules) for count in COUNTS] == [named[plural(count)] for count in COUNTS]


def _as_written(rule):
    """A rule as the CLDR writes it; babel tells it in an older way."""
    return rule.replace(" not in ", " != ").replace(" in ", " = ").replace(" mod ", " % ")


def test_a_condition_of_another_shape_is_a_fault():
    with pytest.raises(ValueError, match="no condition of a plural"):
        read_rules({"one": "n is 1"})


@pytest.mark.parametrize("language", languages())
def test_our_languages_have_the_plurals_of_the_cldr(language):
    plural = Locale.parse(language, sep="-").plural_form
    assert Words(language).forms == (*plural.rules, ALL)


@pytest.mark.parametrize("language", languages())
def test_months_are_those_of_the_cldr(language):
    months = Locale.parse(language, sep="-").months["format"]["wide"]
    words = Words(language)
    assert [words.text(f"dates.months.m{n}") for n in range(1, 13)] == [months[n] for n in range(1, 13)]


@pytest.mark.parametrize("language", [name for name in languages() if Words(name).has("country_name")])
def test_countries_are_named_as_in_the_cldr(language):
    ours = Words(language).section("country_name")
    theirs = Locale.parse(language, sep="-").territories
    differ = {code: (name, theirs.get(code)) for code, name in ours.items() if name != theirs.get(code)}
    assert set(differ) <= SHORTER


@pytest.mark.parametrize(
    ("tag", "language"),
    [
        ("de", "de"), ("DE", "de"), ("de-AT", "de-AT"), ("de-at", "de-AT"), ("de-LI", "de"), ("de-CH-1996", "de-CH"),
        ("en-GB", "en"), ("en-US", "en-US"), ("en-Latn-GB", "en"), ("xx", None),
    ],
)  # fmt: skip
def test_a_language_that_is_asked_for_is_the_nearest_that_there_is(tag, language):
    assert known_language(tag) == language


def test_a_language_of_a_country_stands_on_its_language():
    assert chain("de-CH") == ("de-CH", "de")
    swiss, german = Words("de-CH"), Words("de")
    assert [*swiss.every_key()] == [*german.every_key()]
    assert "ß" in "".join(
        german.text(key, **dict.fromkeys(german.names(key), "")) for key in german.every_key()
    )
    assert "ß" not in "".join(
        swiss.text(key, **dict.fromkeys(swiss.names(key), "")) for key in swiss.every_key()
    )


@pytest.mark.parametrize("language", languages())
def test_a_file_of_what_differs_says_nothing_twice(language):
    from buildbook import words

    if len(chain(language)) == 1:
        return
    below = Words(chain(language)[1])
    own = words._texts({k: v for k, v in words._read(language).items() if k != words.ABOUT}, "")
    assert [key for key in own if below.has(key) and _plain(Words(language), key) == _plain(below, key)] == []


def _plain(words, key):
    return words.text(key, **dict.fromkeys(words.names(key), "…"))


@pytest.mark.parametrize(
    ("language", "long", "month", "short"),
    [
        ("en", "16\u00a0September 2026", "September\u00a02026", "2026-09-16"),
        ("en-US", "September\u00a016, 2026", "September\u00a02026", "09/16/2026"),
        ("de", "16.\u00a0September 2026", "September\u00a02026", "16.09.2026"),
        ("de-AT", "16.\u00a0September 2026", "September\u00a02026", "16.09.2026"),
    ],
)
def test_days_are_written_as_the_language_writes_them(language, long, month, short):
    words, day = Words(language), date(2026, 9, 16)
    assert (words.date(day), words.month(day), words.short_date(day)) == (long, month, short)


def test_january_in_austria():
    assert Words("de-AT").date(date(2026, 1, 3)) == "3.\u00a0Jänner 2026"


def test_american_spelling_keeps_capitals_and_names():
    american = Words("en-US")
    said = "\n".join(
        american.text(key, **{n: f"{{{n}}}" for n in american.names(key)}) for key in american.every_key()
    )
    assert not re.search(
        r"\b\w*(?:colour|grey|mould|vapour|labour|litre|metre\b|enquir)\w*(?![}\w])",
        re.sub(r"\{\w+\}", "", said),
    )
    assert "Color" in said
    assert "{surface_colour}" in said


def test_money_and_numbers_are_as_the_cldr_has_them():
    for language, currency, amount in (
        ("de-CH", "CHF", "4950"),
        ("de-CH", "EUR", "14950.25"),
        ("de-AT", "EUR", "4950.5"),
        ("de-AT", "USD", "14950.5"),
        ("en-US", "USD", "4950"),
        ("en", "GBP", "14950.5"),
        ("de", "EUR", "4950.5"),
    ):
        style = style_in(Words(language), "mm", currency, both=False)
        theirs = format_currency(Decimal(amount), currency, locale=language.replace("-", "_"))
        assert re.sub(r"\s", " ", style.money(Decimal(amount))) == re.sub(r"\s", " ", theirs).replace(
            "'", "’"
        )


def test_swiss_figures_in_sentences_have_a_point():
    """`0,062 mg` of the German text is `0.062 mg` in Switzerland, on pages and in what the reader is told."""
    german, swiss = Words("de"), Words("de-CH")
    key = "care.formaldehyde-eu.text"
    assert "0,062" in german.text(key)
    assert "0.062" in swiss.text(key)
    assert not [said for said in problem_sentences("de-CH").values() if re.search(r"\d,\d", said)]
    assert [said for said in problem_sentences("de").values() if re.search(r"\d,\d", said)]


def test_a_day_in_figures():
    assert Words("de").short_day("2026-02-03") == "03.02.2026"
    assert Words("en-US").short_day("2026-02-03") == "02/03/2026"
    assert Words("de").short_day("job.toml") == "job.toml"
