"""Marked lines: what opens one, where it ends, and that the page marks the same lines as the reader of notes."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.folding import folded
from buildbook.job.notes.markdown import parse
from buildbook.job.notes.marks import _table, find_marks, opens_mark
from buildbook.render.html.prose import prose

NOTE = """\
Cut the housings.
Setting: 12 mm cutter,
two passes of 4 mm
MISTAKE: jig crept
Fix - none
Hours: joinery 3

- Joint: tenon 34 x 8, Division > Bottom
- **At:** hinge 56 from ends
- *Nächstes Mal:* zwei Zwingen

> Setting: only quoted

```
Setting: in a fence
```

Glue: slow ![bars](photos/a.jpg)
<!--
Gap: hidden
-->
The setting: no mark. Glued: not one either?
"""


def _marks(text: str) -> list[tuple[str, str, int]]:
    note = parse(text)
    return [(mark.key, mark.text, mark.line) for mark in find_marks(note, 0, len(note.lines))]


def test_a_mark_ends_where_the_next_begins_or_the_paragraph_ends() -> None:
    assert _marks(NOTE) == [
        ("setting", "12 mm cutter, two passes of 4 mm", 2),
        ("mistake", "jig crept Fix - none", 4),
        ("joint", "tenon 34 x 8, Division > Bottom", 8),
        ("at", "hinge 56 from ends", 9),
        ("next-time", "zwei Zwingen", 10),
        ("glue", "slow", 18),
    ]


def test_a_line_of_hours_behind_a_mark_is_none_of_its_words() -> None:
    assert _marks("Mistake: slot 2 mm too deep\n5 hours\n") == [("mistake", "slot 2 mm too deep", 1)]


@pytest.mark.parametrize(
    ("key", "word"),
    [(key, word) for key, rows in _table().items() for words in rows.values() for word in words],
)
def test_every_word_opens_its_mark(key: str, word: str) -> None:
    for line in (
        f"{word}: x",
        f"  {word.upper()} : x",
        f"- {word.lower()}:x",
        f"**{word}:** x",
        f"2. *{word}*: x",
    ):
        opening = opens_mark(line)
        assert opening is not None
        assert (opening.key, line[opening.end :]) == (key, "x")
    assert opens_mark(f"{word} x: y") is None
    assert opens_mark(f"a {word}: x") is None


def test_no_word_opens_two_marks() -> None:
    words = [folded(word) for rows in _table().values() for words in rows.values() for word in words]
    assert len(words) == len(set(words))
    assert set(_table()) >= {
        "setting",
        "mistake",
        "fix",
        "next-time",
        "joint",
        "at",
        "gap",
        "taper",
        "edge",
    }
    assert set(_table()) >= {"glue", "board", "jig", "template", "changed"}


LINES = st.sampled_from([
    "Setting: 3 tpi", "- Mistake: wrong face", "**Fix:** again", "words", "", "> Joint: quoted", "```", "## Head", "  At: 56",
    "1. Gap: 1.5", "Glue:", "* *Edge:* R3", "    Board: 4", "<!--", "-->", "| Jig: | x |", "Hours: milling 2", "Jig: a\\", "---",
])  # fmt: skip


@given(st.lists(LINES, max_size=9).map("\n".join))
def test_the_page_marks_what_is_read(text: str) -> None:
    """Every mark that the reader finds stands marked on the page, in the same order and with the same number."""
    html = str(prose(text, {}, lambda picture: "", ids="day"))
    shown = re.findall(r'id="day-([a-z-]+)-\d+"', html)
    read = [key for key, _, _ in _marks(text)]
    missing = list(shown)
    for key in read:
        assert key in missing, (text, html)
        missing.remove(key)
    assert len(re.findall(r"<p[ >]", html)) == html.count("</p>")
