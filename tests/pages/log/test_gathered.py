"""Marked lines gathered near the top of the log: each with its day, and a link that leads to where it stands."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

from buildbook.book.bind import bind
from buildbook.job.notes.places import day_ids

NOTES = """\
## 2026-03-02 Carcase joints
Joint: tenon 34 x 8, haunch 12, Division > Bottom
Mistake: wrong face
Fix: let in a strip

## 2026-03-02 Afternoon
- Joint: half-blind, 4 tails
- Gap: door 1.5

## 2026-03-05 Hinges
At: hinge 56 from ends
> Joint: what the book says
"""


def test_days_of_one_date_have_ids_of_their_own() -> None:
    one, other = date(2026, 3, 2), date(2026, 3, 5)
    assert day_ids([one, one, other, None, one]) == (
        "day-2026-03-02", "day-2026-03-02-2", "day-2026-03-05", "", "day-2026-03-02-3",
    )  # fmt: skip


def test_every_line_is_gathered_and_leads_to_its_place(tmp_path: Path) -> None:
    job = tmp_path / "job"
    job.mkdir()
    (job / "job.toml").write_text('title = "Chest"\nunits = "mm"\nbegun = 2026-03-01\n', encoding="utf-8")
    (job / "notes.md").write_text(NOTES, encoding="utf-8")
    bind(job, tmp_path / "book")
    page = (tmp_path / "book/jobs/job/index.html").read_text(encoding="utf-8")
    gathered = page[page.index('class="gathered"') : page.index("Day by day</h2>")]
    rows = re.findall(
        r"<li[^>]*>(?:<b>(.*?)</b> )?(.*?) <a href=\"#(.*?)\" title=\"(.*?)\">(.*?)</a>", gathered
    )
    assert [(text, anchor, title) for _, text, anchor, title, _ in rows] == [
        ("tenon 34 x 8, haunch 12, Division &gt; Bottom", "day-2026-03-02-joint-1", "Carcase joints"),
        ("half-blind, 4 tails", "day-2026-03-02-2-joint-1", "Afternoon"),
        ("hinge 56 from ends", "day-2026-03-05-at-1", "Hinges"),
        ("door 1.5", "day-2026-03-02-2-gap-1", "Afternoon"),
        ("wrong face", "day-2026-03-02-mistake-1", "Carcase joints"),
        ("let in a strip", "day-2026-03-02-fix-1", "Carcase joints"),
    ]
    for _, text, anchor, _, _ in rows:
        place = page.index(f'id="{anchor}"')
        assert page[place : place + 200].split("</b> ", 1)[1].startswith(text)
    assert page.count("what the book says") == 1
