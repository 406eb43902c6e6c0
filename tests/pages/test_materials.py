"""What a piece is made of, for its owner, and its timber statement."""

from dataclasses import replace

import pytest

from buildbook.pages.materials import materials, timber_statement, wood_colours
from buildbook.pages.phrases import Phrases
from buildbook.summary import summarise
from buildbook.trade import tables
from tests.pages.made import HINGES, LEGS, LIPPING, RAILS, SHOP, SLATE, TOP, plain, table


def made_of(*parts, language="en"):
    job = table(parts=parts, shop=replace(SHOP, language=language))
    return materials(job, Phrases.of(job))


def statement(*parts):
    job = table(parts=parts)
    return timber_statement(job, summarise(job), Phrases.of(job))


def test_a_material_is_one_row_woods_first_in_the_order_of_the_parts_file():
    rows = made_of(SLATE, LIPPING, TOP, HINGES, LEGS, RAILS)
    assert [row.name for row in rows] == ["Black walnut", "White oak", "Welsh slate"]  # a hinge is a fitting
    assert [row.botanical for row in rows] == ["Juglans nigra", "Quercus alba", ""]
    assert rows[1].used_for == "Top, legs and rails"


def test_places_and_countries_are_joined_once():
    (oak,) = made_of(TOP, LEGS, RAILS)
    assert oak.origin == "Windfall, 2019; Sawmill by the weir"
    assert oak.grew_in == "France, Germany"
    (deutsch,) = made_of(TOP, LEGS, RAILS, language="de")
    assert deutsch.grew_in == "Frankreich, Deutschland"
    assert made_of(replace(TOP, country="Ruritania", country_code=""))[0].grew_in == "Ruritania"


def test_the_same_material_however_it_is_written_is_one():
    oaks = made_of(TOP, replace(LEGS, material="Weiße Eiche"))
    slates = made_of(SLATE, replace(SLATE, row=9, name="Sill", material="Welsh  SLATE"))
    assert (len(oaks), len(slates)) == (1, 1)
    assert slates[0].used_for == "Inlay and sill"


def test_a_row_kept_from_the_client_is_in_no_row():
    hidden = replace(LEGS, for_client=False)
    assert made_of(hidden) == ()
    (oak,) = made_of(hidden, RAILS)
    assert (oak.used_for, oak.origin, oak.grew_in) == ("Rails", "Windfall, 2019", "France")


def test_the_statement_sums_net_volume_by_wood():
    # oak 0.0144 + 0.0070 + 0.0032, walnut 0.0002, which is less than a litre
    oak, walnut = statement(SLATE, TOP, LEGS, RAILS, LIPPING)
    assert (oak.botanical, oak.grew_in, plain(oak.volume)) == ("Quercus alba", "France, Germany", "0.0246 m³")
    assert (walnut.botanical, plain(walnut.volume)) == ("Juglans nigra", "200 cm³")
    assert walnut.grew_in == "not recorded"
    assert oak.net_m3 == pytest.approx(0.0246)


def test_the_statement_counts_a_hidden_row_of_a_wood_that_shows_and_lists_none_that_does_not():
    hidden = replace(LEGS, for_client=False)
    (oak,) = statement(TOP, hidden, replace(LIPPING, for_client=False))
    assert plain(oak.volume) == "0.0214 m³"
    assert oak.grew_in == "France"


def test_the_colour_is_that_of_the_wood_there_is_most_of_that_a_client_may_see():
    def colour(*parts):
        job = table(parts=parts)
        return wood_colours(job, summarise(job))

    oak, walnut = tables.species()["white-oak"], tables.species()["black-walnut"]
    assert colour(LIPPING, TOP) == (oak.fresh_hex, oak.aged_hex)
    assert colour(LIPPING, replace(TOP, for_client=False)) == (walnut.fresh_hex, walnut.aged_hex)
