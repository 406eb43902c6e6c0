"""Care of several finishes on one surface: the top one is cared for, every one is known to whoever mends."""

import pytest

from tests.care.cases import layered
from tests.care.pieces import coated, finished, piece, wood

CARE_OF_TOP = {"clean", "renew", "year", "water", "heat"}


def ordinary(made):
    return {key for key in made.keys if key.split("-")[0] in CARE_OF_TOP}


@pytest.mark.parametrize("beneath", ["dye-stain", "oil-stain", "shellac", "oil-polyurethane", "milk-paint"])
@pytest.mark.parametrize("top", ["hardwax-oil", "paste-wax", "water-polyurethane", "soap"])
def test_care_is_that_of_the_top_one_alone(top, beneath):
    assert ordinary(layered(top, beneath)) == ordinary(finished(top))


def test_no_instruction_for_use_names_what_lies_beneath():
    for item in layered("paste-wax", "oil-polyurethane").care:
        if item.season in ("now", "week", "month", "year") and item.for_client:
            assert "varnish" not in item.text


def test_spirit_goes_through_wax_and_not_through_a_film():
    assert "alcohol-shellac" in layered("paste-wax", "shellac").keys
    assert "alcohol-shellac" not in layered("oil-polyurethane", "shellac").keys
    assert "alcohol-shellac" not in layered("paste-wax", "soap").keys


def test_whoever_mends_is_told_of_colour_two_layers_down():
    stained = piece(
        wood(finish="top"),
        finishes=[
            coated("paste-wax", "top", over="seal"),
            coated("shellac", "seal", over="colour"),
            coated("spirit-dye", "colour"),
        ],
    )
    assert {"mend-under-colour", "mend-under-polish"} <= stained.keys
    assert stained.item("mend-under-colour").why == "The colour lies under the paste wax."
    assert "finish-colour-only" not in stained.keys


def test_rags_of_what_lies_beneath_are_the_shops_to_mind():
    made = layered("paste-wax", "oil-stain")
    assert "oily-rags" not in made.keys
    assert made.item("oily-rags-shop").why.endswith("the oil stain.")


def test_a_finish_that_lies_beneath_here_and_on_top_there_is_cared_for_there():
    made = piece(
        wood(name="top", finish="wax"),
        wood(name="leg", finish="varnish"),
        finishes=[coated("paste-wax", "wax", over="varnish"), coated("oil-polyurethane", "varnish")],
    )
    assert {"clean-wax", "clean-varnish", "mend-under-film"} <= made.keys
