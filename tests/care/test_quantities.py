"""Figures that instructions name: said in the system of the shop, and written into no text."""

import re

import pytest

from buildbook.care import choose, rules
from buildbook.care.quantities import check, quantities, read_quantities, said_quantities
from buildbook.care.rules import RuleError
from buildbook.job import read_job
from buildbook.quantity import Style
from buildbook.summary import summarise
from buildbook.words import Words, languages

_INCH = r"\d[\u202f\u00a0 ](?:in|ft|lb|US gal|gallons?)\b|[½¼¾⅜][\u202f ]in\b|\binch|\bpounds?\b|°F|\bfoot\b(?= tall)"
_METRIC = r"\d[\u202f\u00a0 ](?:mm|cm|m|kg|l)\b|(?<!small )(?<!its )\b(?:centi|milli)?met(?:re|er)s?\b|\blit(?:re|er)s?\b|°C"
_PIECES = {
    "bench": (
        'title = "Bench"\nnear = ["radiator", "stove"]\npiece = "bench"\n',
        "Seat,oak,{long},{wide},{thick}\n",
    ),
    "stand": ('title = "Tank"\npiece = "aquarium stand"\n', "Top,oak,{long},{wide},{thick}\n"),
    "chest": (
        'title = "Chest"\npiece = "chest of drawers"\nchildren = true\nweight = "{mass}"\n',
        "Top,oak,{long},{wide},{thick}\nCatch,magnet,,,\n",
    ),
    "cot": ('title = "Cot"\npiece = "cot"\n', "Rail,beech,{long},{wide},{thick}\n"),
    "frame": ('title = "Frame"\npiece = "climbing frame"\n', "Rung,ash,{long},{wide},{thick}\n"),
    "table": (
        'title = "Table"\npiece = "garden table"\nplace = "outdoors"\n',
        "Top,oak,{long},{wide},{thick}\nPane,glass,{long},{wide},{thick}\n",
    ),
}
_SIZES = {
    "mm": {"long": "900", "wide": "300", "thick": "30", "mass": "60 kg"},
    "in": {"long": "36", "wide": "12", "thick": "1 1/4", "mass": "130 lb"},
}


def _said(folder, piece, language, units, both):
    job, parts = _PIECES[piece]
    folder.mkdir()
    size = _SIZES[units]
    (folder / "job.toml").write_text(job.format(**size) + f'units = "{units}"\n')
    (folder / "shop.toml").write_text(f'language = "{language}"\nboth_systems = {str(both).lower()}\n')
    (folder / "parts.csv").write_text("part,material,length,width,thickness\n" + parts.format(**size))
    found = read_job(folder)
    items = choose(found, summarise(found), Words(language))
    return " ".join(line for item in items for line in (item.title, item.text, item.short, item.why))


@pytest.mark.parametrize("language", ["en", "en-US", "de", "de-CH"])
@pytest.mark.parametrize(("units", "other"), [("mm", _INCH), ("in", _METRIC)])
def test_a_shop_with_one_system_reads_of_no_other(tmp_path, language, units, other):
    said = {piece: _said(tmp_path / piece, piece, language, units, False) for piece in _PIECES}
    assert {piece: found for piece, text in said.items() if (found := re.findall(other, text))} == {}
    own = "1\u202fm" if units == "mm" else "40\u202fin"
    assert own in said["bench"]


@pytest.mark.parametrize(
    ("language", "units", "expected"),
    [
        ("en", "mm", "at least 50\u202fcm (20\u202fin)"),
        ("en-US", "in", "at least 20\u202fin (50\u202fcm)"),
        ("de", "in", "mindestens 20\u202fin (50\u202fcm)"),
    ],
)
def test_a_shop_with_both_reads_its_own_first(tmp_path, language, units, expected):
    assert expected in _said(tmp_path / "bench", "bench", language, units, True)


@pytest.mark.parametrize("quantity", quantities(), ids=lambda one: one.key)
def test_both_systems_say_the_same(quantity):
    check(quantity)


@pytest.mark.parametrize("inch", [[30, "in"], [20, "ft"], [20, "m"]])
def test_a_table_that_does_not_agree_is_refused(inch):
    row = {"metric": [50, "cm"], "inch": inch, "source": "a test", "basis": "memory"}
    with pytest.raises(RuleError):
        check(*read_quantities({"heat_gap": row}))


@pytest.mark.parametrize("language", languages())
def test_no_text_writes_out_a_figure_with_its_unit(language):
    """What is no figure of the piece, and what no tape measures, aside: limits of a law to a cubic metre."""
    words = Words(language)

    def texts(section):
        return [
            line
            for value in section.values()
            for line in (texts(value) if hasattr(value, "items") else [value])
        ]

    lines = [*texts(words.section("care")), *texts(words.section("letter"))]
    written = re.compile(rf"{_INCH}|{_METRIC}|\d\\?u202f(?:mm|cm|m|kg|l)\b")
    assert [line for line in lines if written.search(line) and "mg" not in line and "waste" not in line] == []


def test_each_quantity_has_a_place_in_a_text():
    words = Words("en")
    of_rules = (f"care.{rule.key}.{part}" for rule in rules() for part in ("title", "text", "why", "short"))
    named = {name for key in of_rules if words.has(key) for name in words.names(key)}
    assert {one.key for one in quantities()} <= named
    assert named & set(said_quantities(Style())) <= set(said_quantities(Style("in")))
