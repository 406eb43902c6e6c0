"""Hours of a note: a stage in another language than the shop's is the shop's."""

import pytest

from buildbook.job.folder import read_job
from buildbook.job.notes.hours import _words_file, stages_by_name
from buildbook.job.toml.shop_toml import usual_stages
from buildbook.words import Words, languages


@pytest.mark.parametrize("language", languages())
def test_the_stages_of_every_language_are_known_in_every_other(language):
    known = stages_by_name(usual_stages(language))
    for other in languages():
        for key, name in Words(other).section("stages").items():
            assert known[name.casefold()] == Words(language).section("stages")[key]


def test_no_name_means_two_stages():
    names = [name for one in _words_file()["stages"] for name in one]
    assert len(names) == len(set(names))


def test_a_stage_that_the_shop_has_by_that_name_stays_its_own():
    known = stages_by_name(("Material", "joinery", "Schliff"))
    assert known["material"] == known["stock"] == "Material"
    assert known["verbindungen"] == "joinery"
    assert "design" not in known


def test_a_german_shop_books_an_english_line(make_job):
    folder = make_job(
        **{
            "job.toml": 'title = "Tisch"\n',
            "shop.toml": 'name = "Werkstatt"\nlanguage = "de"\n',
            "notes.md": "## 2026-03-02\n\nJoinery 7 hrs\n",
        }
    )
    job = read_job(folder)
    assert [(booked.stage, booked.hours) for booked in job.entries[0].hours] == [("Verbindungen", 7)]
    assert not [problem for problem in job.problems if "stage" in problem.message]
