"""Countries by code and name, as ISO 3166-1 has them."""

import pytest

from buildbook.job.table.countries import countries, find_country


def test_there_are_as_many_as_the_standard_has():
    assert len(countries()) == 249  # officially assigned two-letter codes, 2024
    assert all(len(c.code) == 2 and c.code.isascii() and c.code.isupper() and c.name for c in countries())
    assert len({c.name for c in countries()}) == 249


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("US", "US"),
        ("usa", "US"),
        ("the United States", "US"),
        ("UK", "GB"),
        ("Scotland", "GB"),
        ("cote d’ivoire", "CI"),
        ("Ivory Coast", "CI"),
        ("Türkiye", "TR"),
        ("Turkey", "TR"),
        ("Guinea-Bissau", "GW"),
        ("guinea", "GN"),
        ("NA", "NA"),
    ],
)
def test_a_name_finds_its_country(name, code):
    assert find_country(name).country.code == code


@pytest.mark.parametrize("country", countries(), ids=lambda c: c.code)
def test_every_country_is_found_by_both(country):
    assert find_country(country.code).country == find_country(country.name.upper()).country == country


def test_a_strange_name_gets_the_nearest():
    assert find_country("Germny").hint == "Did you mean “Germany” or “Guernsey”?"
    assert find_country("?").hint == "Write its two letters, such as DE, or its English name."
