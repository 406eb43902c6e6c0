"""Every key, column, wood, sheet, metal and finish as one page of Markdown, from the tables: `KEYS.md` in this folder.

`python -m buildbook.job.keys_page` writes it again; a test holds it to the tables.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from buildbook.job.known import KnownName, KnownNames, known_by_name, leaving, written_in_files

PAGE = Path(__file__).with_name("KEYS.md")

_HEAD = """# Every key and column

Made from the tables that the readers read by: `python -m buildbook.job.keys_page` writes it again.
`buildbook keys WORD` prints what this page has on a word.

**Leaves** says what of a value reaches a client, by the page (with its prints, dates and record) and by the letter
of an estimate. *yes*: it can be read there. *its effect*: never the value, but what follows from it, such as an
instruction, a picture, a figure that it goes into. Empty: nothing at all. A test turns each and compares every byte.

**Believable** is what is taken without a question; what lies outside is told as a slip, in the unit of the job.
"""


def keys_page() -> str:
    """The page as text."""
    parts = [_HEAD]
    for some in written_in_files():
        parts.append(f"## {_heading(some)}\n\n{some.meaning}\n\n{_table(some)}\n")
    parts.append(
        "# What is known by its name\n\nCapitals, accents, hyphens and the order of words do not count.\n"
    )
    for some in known_by_name():
        parts.append(f"## {some.heading.capitalize()}\n\n{some.meaning}\n\n{_names(some.every)}\n")
    return "\n".join(parts)


def _heading(some: KnownNames) -> str:
    file, _, table = some.heading.partition(" ")
    return f"{file}: `{table}`" if table else file


def _table(some: KnownNames) -> str:
    """One row a key; of columns their other names too."""
    columns = any(one.also for one in some.every)
    heads = ["column" if columns else "key", "for example", "meaning", "believable", "leaves"]
    rows = [[*_row(one), *([_cell(", ".join(one.also))] if columns else [])] for one in some.every]
    return _markdown([*heads, *(["other names"] if columns else [])], rows)


def _row(one: KnownName) -> list[str]:
    choices = f" One of {', '.join(f'`{choice}`' for choice in one.choices)}." if one.choices else ""
    meaning = f"{one.meaning}{choices}{' Needed.' if one.needed else ''}"
    between = one.between.replace("between ", "").replace(" and ", " to ")
    leaves = leaving(one.leaves) if one.leaves else ""
    return [
        f"`{one.name}`",
        f"`{_cell(one.example)}`",
        _cell(meaning),
        between,
        leaves,
    ]


def _names(every: Iterable[KnownName]) -> str:
    """One row a material or a finish."""
    rows = []
    for one in every:
        rows.append([one.name, one.botanical, _cell(", ".join(one.also)), _cell(", ".join(one.loose))])
    heads = ["name", "botanical", "also known as", "taken for it"]
    kept = [place for place in range(len(heads)) if place == 0 or any(row[place] for row in rows)]
    return _markdown([heads[place] for place in kept], [[row[place] for place in kept] for row in rows])


def _markdown(heads: list[str], rows: list[list[str]]) -> str:
    lines = [heads, ["---"] * len(heads), *rows]
    return "\n".join("| " + " | ".join(line) + " |" for line in lines)


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


if __name__ == "__main__":
    PAGE.write_text(keys_page(), "utf-8")
