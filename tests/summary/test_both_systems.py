"""Whether the other system stands beside the shop's own: as it says, else by its country, else by its language."""

import pytest

from buildbook.job.model import Job
from buildbook.job.shop_model import Shop
from buildbook.summary.style import style_of
from buildbook.words import Words


@pytest.mark.parametrize(
    ("shop", "units", "both"),
    [
        ({"language": "en"}, "mm", True),
        ({"language": "de"}, "mm", False),
        ({"language": "de"}, "in", True),
        ({"language": "en", "country_code": "GB"}, "mm", True),
        ({"language": "en", "country_code": "DE"}, "mm", False),  # the country decides
        ({"language": "de", "country_code": "US"}, "mm", True),
        ({"language": "en", "country_code": "AU"}, "mm", False),
        ({"language": "en", "country_code": "US"}, "in", True),
        ({"language": "de", "both_systems": True}, "mm", True),
        ({"language": "en", "country_code": "US", "both_systems": False}, "in", False),
    ],
    ids=str,
)
def test_who_decides(shop, units, both):
    assert style_of(Job("a-job", units=units, shop=Shop(**shop)), Words(shop["language"])).both is both
