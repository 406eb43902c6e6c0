"""Every number, day and sum of money on the pages of a job is written as the CLDR has it for its locale: by babel, which
had no part in writing them.
"""

import re
from decimal import Decimal

import pytest
from babel.numbers import format_currency, get_decimal_symbol, get_group_symbol, parse_decimal

from buildbook.book.bind import bind

_JOB = """\
title = "{title}"
piece = "{piece}"
client = "A. B."
begun = 2026-01-12
delivered = 2026-02-23
price = 12480
contents = "40 kg"
[overall]
width = 1250
depth = 520
height = 885
[[finish]]
key = "a"
family = "hardwax-oil"
coats = [2026-02-10, 2026-02-12]
"""
_PARTS = "part,qty,material,length,width,thickness,price,per\nTop,1,European oak,1250,520,27,2450,m3\nLeg,4,European oak,840,60,60,,\n"
_NOTES = "## 2026-01-12 A\n\nHours: {stage} 3.5\n"
_LOCALES = {
    "de": ("DE", "EUR", "Zuschnitt", "Tisch", r"\d{2}\.\d{2}\.\d{4}"),
    "de-AT": ("AT", "EUR", "Zuschnitt", "Tisch", r"\d{2}\.\d{2}\.\d{4}"),
    "de-CH": ("CH", "CHF", "Zuschnitt", "Tisch", r"\d{2}\.\d{2}\.\d{4}"),
    "en": ("GB", "GBP", "milling", "Table", r"\d{4}-\d{2}-\d{2}"),
    "en-US": ("US", "USD", "milling", "Table", r"\d{2}/\d{2}/\d{4}"),
}
_DAY = re.compile(r"\b\d{4}-\d\d-\d\d\b|\b\d{1,2}[./]\d{1,2}[./]\d{4}\b")
_NUMBER = re.compile(r"(?<![\w./:-])\d[\d.,'’\u202f\u00a0]*\d")
_SPACES = str.maketrans("", "", "\u202f\u00a0")


def text_of(page):
    bare = re.sub(r"<(script|style)\b.*?</\1>", " ", page.read_text("utf-8"), flags=re.S)
    return re.sub(r"<[^>]+>", " ", bare)


@pytest.fixture(scope="module", params=_LOCALES)
def pages(request, tmp_path_factory):
    language = request.param
    country, currency, stage, title, _ = _LOCALES[language]
    place = tmp_path_factory.mktemp(language)
    job = place / "shelf" / "2026-001-a"
    job.mkdir(parents=True)
    (job / "job.toml").write_text(_JOB.format(title=title, piece=title))
    (job / "parts.csv").write_text(_PARTS)
    (job / "notes.md").write_text(_NOTES.format(stage=stage))
    (place / "shelf" / "shop.toml").write_text(
        f'language = "{language}"\ncountry = "{country}"\ncurrency = "{currency}"\nhour_rate = 62\n'
    )
    assert bind(place / "shelf", place / "book").ok
    found = [text_of(page) for page in sorted((place / "book").rglob("*.html"))]
    assert len(found) > 5
    return language, currency, found


def test_every_number_is_one_of_the_locale(pages):
    language, _, texts = pages
    locale = language.replace("-", "_")
    decimal, group = get_decimal_symbol(locale), get_group_symbol(locale)
    wrong = []
    for text in texts:
        for found in _NUMBER.findall(_DAY.sub(" ", text)):
            plain = found.translate(_SPACES).replace("’", "'" if language == "de-CH" else "’")
            if not re.fullmatch(
                rf"\d+|\d+{re.escape(decimal)}\d+|\d{{1,3}}([.,'’]\d{{3}})+({re.escape(decimal)}\d+)?", plain
            ):
                wrong.append(found)
            elif re.fullmatch(rf"[\d{re.escape(decimal + group)}]+", plain):
                parse_decimal(plain, locale=locale)
    assert wrong == []


def test_every_day_in_figures_is_one_of_the_locale(pages):
    language, _, texts = pages
    form = _LOCALES[language][-1]
    days = [day for text in texts for day in _DAY.findall(text)]
    assert days
    assert [day for day in days if not re.fullmatch(form, day)] == []


def test_the_price_is_as_the_cldr_has_it(pages):
    language, currency, texts = pages
    theirs = format_currency(Decimal(12480), currency, locale=language.replace("-", "_"))
    bare = re.sub(r"\s", "", theirs).replace("'", "’")
    assert any(bare in re.sub(r"\s", "", text) for text in texts)
