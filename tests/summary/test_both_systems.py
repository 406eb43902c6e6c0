"""Whether the other system stands beside the shop's own: as it says, else by its country, else by its language."""

import re

import pytest

from buildbook.care.care import choose
from buildbook.job import read_job
from buildbook.job.model import Job
from buildbook.job.shop_model import Shop
from buildbook.quantity.show import in_metric_alone
from buildbook.summary import summarise
from buildbook.summary.style import style_of
from buildbook.words import Words, languages


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


def test_no_care_names_inches_where_the_shop_has_one_system(tmp_path):
    (tmp_path / "job.toml").write_text('title = "Bench"\nnear = ["radiator", "stove"]\npiece = "bench"\n')
    (tmp_path / "shop.toml").write_text('language = "en"\nboth_systems = false\n')
    (tmp_path / "parts.csv").write_text("part,material,length,width,thickness\nSeat,oak,900,300,30\n")
    job = read_job(tmp_path)
    said = " ".join(
        " ".join((item.text, item.short, item.why)) for item in choose(job, summarise(job), Words("en"))
    )
    assert "1 m" in said
    assert not re.search(r"\(\d+[^)]*(in|ft|lb|°F)\)", said)


@pytest.mark.parametrize("language", languages())
def test_every_second_system_in_the_words_is_one_that_is_taken_out(language):
    """Whatever stands in brackets after a metric figure of ours, the style knows."""

    def texts(words):
        for value in words.values():
            yield from texts(value) if isinstance(value, dict) else [str(value)]

    for text in texts(Words(language).section("care")):
        assert not re.search(r"\([^()]*\d[^()]*\b(in|ft|lb|inches|feet|pounds)\)", in_metric_alone(text)), (
            text
        )
