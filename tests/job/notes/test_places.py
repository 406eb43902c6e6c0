"""Where what a note says stands: the search and the page go by the same ids."""

import re
from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from buildbook.job.notes.places import blocks_of, day_ids
from buildbook.render.html.prose import prose

NOTE = """Carcase joints, all day.
Setting: 14 mm cutter.
Fix: a strip.

- planed
- Joint: tenon 34 x 8
  - shoulders pared

> Setting: quoted, so no mark

| Coat | Hours |
|------|-------|
| 1 | 14 |
| 2 | 10 |

    cut here

### Evening

![A picture alone](photos/a.jpg)

1. swept

   and locked
"""
LINES = st.lists(
    st.sampled_from(
        [
            "Setting: 3",
            "- Fix: b",
            "  - c",
            "> d",
            "# e",
            "| f | g |",
            "|---|---|",
            "| 1 | 2 |",
            "",
            "```",
            "    h",
            "i",
            "1. j",
        ]
    ),
    max_size=14,
)


def shown(markdown):
    """The words at each id of the page, in its order."""
    page = str(prose(markdown, {}, str, ids="day"))
    found = re.findall(r'<(\w+)[^>]* id="day-([\w-]+)"[^>]*>(.*?)</\1>', page, re.S)
    return {place: " ".join(re.sub(r"<[^>]+>", " ", inside).split()) for _, place, inside in found}


def test_each_stretch_has_its_own_place():
    blocks = list(blocks_of(NOTE))
    assert {block.place: block.text.strip() for block in blocks} == {
        "p1": "Carcase joints, all day.",
        "setting-1": "Setting: 14 mm cutter.",
        "fix-1": "Fix: a strip.",
        "p2": "planed",
        "joint-1": "Joint: tenon 34 x 8",
        "p3": "shoulders pared",
        "p4": "Setting: quoted, so no mark",
        "p6": "Coat: 1 · Hours: 14",
        "p7": "Coat: 2 · Hours: 10",
        "p8": "cut here",
        "p9": "Evening",
        "p10": "swept",
        "p11": "and locked",
    }
    assert [block.mark for block in blocks if block.mark] == ["setting", "fix", "joint"]
    assert next(block.body for block in blocks if block.mark == "joint") == "tenon 34 x 8"


def test_the_page_has_each_place_with_its_words():
    page = shown(NOTE)
    assert page["joint-1"] == "Joint: tenon 34 x 8"
    assert page["p7"] == "2 10"
    assert page["p10"] == "swept"
    assert "a.jpg" not in str(page)


@given(LINES)
def test_what_is_found_stands_on_the_page_whatever_a_note_holds(lines):
    markdown = "\n".join(lines)
    page = str(prose(markdown, {}, str, ids="day"))
    ids = re.findall(r' id="([^"]+)"', page)
    assert len(set(ids)) == len(ids)
    assert {f"day-{block.place}" for block in blocks_of(markdown)} <= set(ids)


def test_a_day_more_moves_no_other():
    def ids(*days):
        return dict(zip(days, day_ids(day for day, _ in days), strict=True))

    march, april = (date(2026, 3, 2), "a"), (date(2026, 4, 2), "b")
    second = (date(2026, 4, 2), "c")
    assert ids(march, april, second) == {**ids(march), **ids(april, second)}
