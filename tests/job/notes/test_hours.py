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


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("Bohlen aufgetrennt, 3,5 Std. Zuschnitt", True),
        ("1 h Montage. An der Wand befestigt.", True),
        ("Two hours lost to the bandsaw, then 2.5 h milling and home.", True),
        ("The rest went quickly: joinery 4 hrs, and no splits.", True),
        ("Glue 3 h in bars before any joinery.", False),
        ("The assembly stays 24 hours in the bars until dry.", False),
        ("Milling was slow; the planer wanted 2 new knives.", False),
        ("Joinery: through dovetails, 12 of them, each 8 wide.", False),
        ("Delivered at 14:30, the fitting went well.", False),
    ],
)
def test_hours_of_a_stage_in_a_sentence_are_pointed_at(make_job, line, told):
    """Written before the rule, from how makers write; booked is only what stands by itself."""
    folder = make_job(**{"job.toml": 'title = "A"\n', "notes.md": f"## 2026-03-02\n\n{line}\n"})
    job = read_job(folder)
    assert bool([p for p in job.problems if "may be hours of work" in p.message]) == told
