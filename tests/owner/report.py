"""The table of all answers, the figures of each page, and the file in which those of one day are kept."""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path
from statistics import median
from typing import Any

import pypdf
from playwright.sync_api import Browser

from buildbook.book.sealed.names import BOOKLET, PAGE
from tests.owner.page import DESK, PHONE, Page, open_pages
from tests.owner.questions import HERE, LANGUAGES, asked_of, pieces
from tests.owner.score import Answer, answered
from tests.owner.shelf import bind_shelf

THEMES = ("oilstone", "sawbench")
KEPT = HERE / "before.json"
Figures = dict[str, Any]


def measure(browser: Browser) -> Figures:
    """What the pages of today answer: by piece and language, then by theme."""
    found: Figures = {f"{piece.key} {language}": {} for piece in pieces() for language in LANGUAGES}
    for language in LANGUAGES:
        for theme in THEMES:
            with tempfile.TemporaryDirectory() as place:
                book = bind_shelf(Path(place), language, theme)
                for piece in pieces():
                    handover = book / "handover" / piece.key
                    pages = open_pages(browser, handover / PAGE)
                    of_theme = _page_figures(pages[PHONE], pages[DESK], handover / BOOKLET)
                    answers = {
                        question.key: _row(answered(question, piece, pages[PHONE], language))
                        for question in asked_of(piece)
                    }
                    found[f"{piece.key} {language}"][theme] = {"page": of_theme, "answers": answers}
    return found


def _row(answer: Answer) -> Figures:
    row: Figures = {"score": answer.score, "content": answer.content, "word": answer.word}
    if answer.px is not None:
        row |= {
            "heading": answer.heading,
            "px": round(answer.px),
            "places": answer.places,
            "times": answer.times,
        }
    for name in ("missing", "wrong"):
        if said := getattr(answer, name):
            row[name] = list(said)
    return row


def _page_figures(phone: Page, desk: Page, booklet: Path) -> Figures:
    printed = _squeezed("".join(page.extract_text() for page in pypdf.PdfReader(booklet).pages))
    screen = PHONE[1]
    return {
        "words": phone.words(),
        "words_first": phone.words(before_more=True) if phone.has_more else None,
        "screens": round(phone.height / screen, 1),
        "screens_first": round(phone.height_before_more() / screen, 1) if phone.has_more else None,
        "screens_desk": round(desk.height / DESK[1], 1),
        "small_to_tap": len(phone.small),
        "begins_with_picture": [_begins_with_picture(phone, PHONE[1]), _begins_with_picture(desk, DESK[1])],
        "telephone": phone.telephone,
        "not_in_booklet": [name for name in phone.sections if _squeezed(name) not in printed],
    }


def _begins_with_picture(page: Page, height: int) -> bool:
    """Whether the first screen shows the picture and all of the title."""
    return page.lead_top is not None and page.lead_top < height and page.title_bottom <= height


def _squeezed(text: str) -> str:
    """A text without what printing changes: blanks, hyphens at the end of a line, capitals, ligatures."""
    plain = text.replace("ﬁ", "fi").replace("ﬂ", "fl").replace("ﬀ", "ff")
    return re.sub(r"[\s\u00ad\u2010-]+", "", plain).casefold()


# -- what is printed and kept ------------------------------------------------------------------------


def points(answers: Mapping[str, Figures]) -> float:
    """How much of what can be had a page has, in per cent."""
    return 100 * sum(row["score"] for row in answers.values()) / (2 * len(answers))


def distances(answers: Mapping[str, Figures]) -> list[int]:
    """How far down the answers stand, in px; only of those that stand there."""
    return [row["px"] for row in answers.values() if "px" in row]


def summary_lines(found: Figures, before: Figures | None) -> Iterator[str]:
    """A line a page: what it answers, how far down, how long it is; beside it what was kept."""
    yield (
        f"{'page':14}{'theme':10}{'points':>8}{'full':>6}{'none':>6}{'median px':>11}{'screens':>9}"
        f"{'by word':>9}{'repeated':>10}{'words':>7}{'first':>7}{'long':>7}{'small':>7}  not in the booklet"
    )
    for name, themes in found.items():
        for theme, of_theme in themes.items():
            yield _summary(name, theme, of_theme)
            if before:
                yield _summary("  before", theme, before[name][theme])
    every = [row for themes in found.values() for one in themes.values() for row in one["answers"].values()]
    yield f"all: {100 * sum(row['score'] for row in every) / (2 * len(every)):.0f} % of the points"


def _summary(name: str, theme: str, of_theme: Figures) -> str:
    page, answers = of_theme["page"], of_theme["answers"]
    rows, down = list(answers.values()), distances(answers)
    middle = median(down) if down else 0
    by_word = sum(row["word"] == "here" for row in rows)
    return (
        f"{name:14}{theme:10}{points(answers):7.0f}%{sum(r['content'] == 'full' for r in rows):6}"
        f"{sum(r['content'] == 'none' for r in rows):6}{middle:11.0f}{middle / PHONE[1]:9.1f}"
        f"{by_word:6}/{len(rows):<2}{sum(r.get('times', 0) > 1 for r in rows):10}{page['words']:7}"
        f"{page['words_first'] or '–':>7}{page['screens']:7}{page['small_to_tap']:7}  {', '.join(page['not_in_booklet'])}"
    )


def answer_lines(found: Figures, theme: str, before: Figures | None) -> Iterator[str]:
    """Each question of each page in one theme; what changed beside it."""
    for name, themes in found.items():
        yield f"\n{name}, {theme}"
        for key, row in themes[theme]["answers"].items():
            old = before[name][theme]["answers"].get(key) if before else None
            changed = f"   before {old['score']}, {old.get('px', '–')} px" if old else ""
            yield (
                f"  {row['score']} {key:12}{row['content']:6}{row.get('px', '–'):>7}{row['word']:>11}"
                f"{row.get('times', 0):3}×  {row.get('heading', '')[:40]:42}"
                + "; ".join([f"wrong: {said}" for said in row.get("wrong", ())] + row.get("missing", []))
                + changed
            )


def keep(found: Figures, file: Path = KEPT) -> None:
    """Write the figures, a line a question, so that what changes can be read."""

    def lines(value: Any, depth: int) -> str:
        if depth == 0 or not isinstance(value, dict):
            return json.dumps(value, ensure_ascii=False)
        inner = ",\n".join(f"{json.dumps(key)}: {lines(one, depth - 1)}" for key, one in value.items())
        return f"{{\n{inner}\n}}"

    text = lines({name: _folded(themes) for name, themes in found.items()}, 3)
    file.write_text(text + "\n", encoding="utf-8")


def _folded(themes: Figures) -> Figures:
    """The figures of a page with what the themes have in common said once."""
    first = next(iter(themes))
    answers = {}
    for key, row in themes[first]["answers"].items():
        px = {theme: themes[theme]["answers"][key].get("px") for theme in themes}
        score = {theme: themes[theme]["answers"][key]["score"] for theme in themes}
        answers[key] = {**row, "px": px, "score": score}
        answers[key].pop("missing", None)  # long, and told of today's page
    return {"pages": {theme: themes[theme]["page"] for theme in themes}, "answers": answers}


def kept(file: Path = KEPT) -> Figures | None:
    """The figures that were kept, as `measure` gives them; None where there are none."""
    if not file.exists():
        return None
    found: Figures = {}
    for name, both in json.loads(file.read_text(encoding="utf-8")).items():
        found[name] = {
            theme: {
                "page": page,
                "answers": {key: _of_theme(row, theme) for key, row in both["answers"].items()},
            }
            for theme, page in both["pages"].items()
        }
    return found


def _of_theme(row: Figures, theme: str) -> Figures:
    px = row["px"][theme]
    rest = {key: value for key, value in row.items() if key != "px"}
    return {**rest, "score": row["score"][theme], **({} if px is None else {"px": px})}
