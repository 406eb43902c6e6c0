"""What differs between the EU and the US is said to a shop by its country."""

import pytest

from buildbook.job.model import Job, Part
from buildbook.job.shop_model import Shop
from buildbook.quantity import Length
from buildbook.summary import summarise


@pytest.mark.parametrize(
    ("country", "said", "not_said"),
    [
        ("DE", "0.062", "TSCA"),
        ("AT", "6 August 2026", "ppm"),
        ("US", "TSCA Title VI", "0.062"),
        ("GB", "EN 13986", "TSCA"),
        ("", "", "formaldehyde"),
    ],
)
def test_the_log_says_the_rule_of_the_shops_country(country, said, not_said):
    size = {
        name: Length(m, f"{m * 1000:g} mm")
        for name, m in (("length", 0.6), ("width", 0.3), ("thickness", 0.018))
    }
    board = Part(2, "Side", 2, "panel", "MDF", key="mdf", **size)
    job = Job(folder="a-job", shop=Shop(country_code=country), parts=(board,))
    (use,) = summarise(job).panels.sheets
    notes = " ".join(use.assumed)
    assert said in notes
    assert not_said not in notes
