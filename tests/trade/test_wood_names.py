"""A name means what it means where it was written; one that may mean several woods there is never taken as said."""

from __future__ import annotations

import pytest

from buildbook.trade import movement, tables, woods
from buildbook.trade.tables import ANYWHERE, Place
from buildbook.trade.wood_names import meaning_of, meanings

GB, US, AU, DE = Place("GB", "en"), Place("US", "en"), Place("AU", "en"), Place("DE", "de")


@pytest.mark.parametrize(
    ("name", "place", "key"),
    [
        ("sycamore", US, "american-sycamore"),
        ("Sycamore", GB, "sycamore-maple"),
        ("sycamore", Place("US", "en-US"), "american-sycamore"),
        ("redwood", GB, "scots-pine"),
        ("redwood", US, "redwood-young-growth"),
        ("walnut", US, "black-walnut"),
        ("poplar", US, "yellow-poplar"),
        ("lime", GB, "european-lime"),
        ("beech", GB, "european-beech"),
        ("blackwood", AU, "tasmanian-blackwood"),
        ("mountain ash", AU, "victorian-ash"),
        ("cypress", US, "baldcypress"),
        ("Eiche", DE, "european-oak"),
        ("Eiche", Place("", "de"), "european-oak"),
        ("Lärche", Place("AT", "de"), "european-larch"),
        ("Espe", DE, "european-aspen"),
        ("Roteiche", DE, "northern-red-oak"),
        ("European alder", US, "european-alder"),
        ("Alnus glutinosa", ANYWHERE, "european-alder"),
    ],
)
def test_a_name_that_means_one_wood_there_states_it(name: str, place: Place, key: str) -> None:
    found = tables.species().find(name, place)
    assert (found.record.key, found.stated) == (key, True)


@pytest.mark.parametrize(
    ("name", "place", "first", "among"),
    [
        ("sycamore", ANYWHERE, "sycamore-maple", "american-sycamore"),
        ("sycamore", Place("FR", "fr"), "sycamore-maple", "american-sycamore"),
        ("cedar", US, "western-redcedar", "eastern-redcedar"),
        ("cedar", GB, "western-redcedar", "cedar-of-lebanon"),
        ("mahogany", US, "honduras-mahogany", "african-mahogany"),
        ("mahogany", GB, "honduras-mahogany", "sapele"),
        ("tulipwood", GB, "yellow-poplar", "brazilian-tulipwood"),
        ("rosewood", US, "indian-rosewood", "brazilian-rosewood"),
        ("ironwood", US, "ipe", "lignum-vitae"),
        ("walnut", GB, "european-walnut", "black-walnut"),
        ("oak", US, "white-oak", "northern-red-oak"),
        ("oak", GB, "european-oak", "white-oak"),
        ("Erle", DE, "european-alder", "red-alder"),
        ("Roterle", DE, "european-alder", "red-alder"),
        ("Linde", DE, "european-lime", "basswood"),
        ("Ulme", DE, "european-elm", "american-elm"),
        ("Kastanie", DE, "sweet-chestnut", "horse-chestnut"),
        ("Pappel", DE, "european-poplar", "european-aspen"),
        ("Akazie", DE, "black-locust", "mangium"),
        ("Mahagoni", DE, "honduras-mahogany", "african-mahogany"),
        ("Zeder", DE, "western-redcedar", "cedar-of-lebanon"),
        ("Nussbaum", DE, "european-walnut", "black-walnut"),
    ],
)
def test_a_name_that_may_mean_several_states_none(name: str, place: Place, first: str, among: str) -> None:
    found = tables.species().find(name, place)
    assert (found.record.key, found.stated) == (first, False)
    assert name in found.assumed
    assert among in {wood.key for wood in tables.species().meant(name, place)}


def test_every_name_means_something_where_nothing_is_known_of_the_place() -> None:
    lost = [name for meaning in meanings() for name in meaning.names if meaning_of(name) is None]
    assert lost == []


def test_no_name_of_one_wood_is_also_one_that_is_asked_about() -> None:
    asked = {name.casefold() for meaning in meanings() if meaning.asked for name in meaning.names}
    own = {name.casefold() for wood in tables.species() for name in (*wood.aliases, wood.name)}
    assert asked & own == set()


def test_a_german_shop_gets_no_american_wood_for_a_tree_of_its_own() -> None:
    """The names that once printed `Alnus rubra`, `Ulmus americana`, `Tilia americana` on an Austrian page."""
    for name in (
        "Erle",
        "Ulme",
        "Rüster",
        "Linde",
        "Kastanie",
        "Edelkastanie",
        "Esskastanie",
        "Pappel",
        "Espe",
    ):
        assert "americ" not in tables.species().find(name, DE).record.full_name.casefold(), name


# -- the same wood in another state ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "key", "of"),
    [
        ("fumed oak", "fumed-oak", "european-oak"),
        ("Räuchereiche", "fumed-oak", "european-oak"),
        ("Eiche geräuchert", "fumed-oak", "european-oak"),
        ("Mooreiche", "bog-oak", "european-oak"),
        ("brown oak", "brown-oak", "european-oak"),
        ("steamed beech", "steamed-beech", "european-beech"),
        ("Kernbuche", "heart-beech", "european-beech"),
        ("Kernesche", "olive-ash", "european-ash"),
        ("Thermoesche", "thermo-ash", "european-ash"),
        ("Thermo-Kiefer", "thermo-pine", "scots-pine"),
        ("thermally modified ash", "thermo-ash", "european-ash"),
    ],
)
def test_a_treated_wood_is_its_own_material_of_the_same_species(name: str, key: str, of: str) -> None:
    found = tables.species().find(name)
    assert (found.record.key, found.record.of, found.stated) == (key, of, True)
    assert found.record.botanical == tables.species()[of].botanical
    assert found.record.fresh_hex != tables.species()[of].fresh_hex


@pytest.mark.parametrize(
    ("key", "share"), [("thermo-ash", 0.6), ("bog-oak", 1.5), ("fumed-oak", 1), ("steamed-beech", 1)]
)
def test_a_treated_wood_moves_by_its_share(key: str, share: float) -> None:
    wood = tables.species()[key]
    of = tables.species()[wood.of]
    mine, its = (movement.rates(one, "flat") for one in (wood, of))
    assert mine.coefficient_per_pct == pytest.approx(its.coefficient_per_pct * share)
    assert any("times as much" in said for said in mine.assumed) == (share != 1)
    assert woods.coefficient(wood, "tangential").basis == ("read" if share == 1 else "derived")


def test_the_botanical_name_means_the_plain_wood() -> None:
    found = tables.species().find("Quercus robur / Q. petraea")
    assert (found.record.key, found.assumed) == ("european-oak", "")
