"""The README tells every key, column and command there is, from the tables that the readers read by.

`python -m tests.test_readme` writes its tables again.
"""

import re

import pytest

from buildbook.job.key import Table
from buildbook.job.table import headings
from buildbook.job.toml import keys, shop_keys, working_keys
from tests.conftest import ROOT

README = ROOT / "README.md"
COLUMNS = {
    "part": "What it is called.",
    "qty": "How many; 1 where it is empty.",
    "kind": "`wood`, `panel` (sheet goods), `glass`, `stone`, `hardware`, `upholstery`, `supply` (glue, abrasives …). Left out, it follows from the material.",
    "material": "A species (common or botanical name), a sheet, a glass, a stone, an item of hardware as you would ask for it.",
    "length": "Along the grain, finished.",
    "width": "Across the grain, finished.",
    "thickness": "Finished.",
    "stock": "Nominal thickness bought: `5/4`, `27 mm`. Left out, the thinnest that cleans up.",
    "cut": "`flat`, `rift`, `quarter`. Unknown, the larger movement is assumed, and said.",
    "fit": "How it is held: `floating`, `glued`, `elongated holes` …",
    "opening": "The room across the grain that a part has which must move, both grooves included.",
    "faces": "What is finished: `all`, `faces`, `one face`, `edges`, `none`.",
    "finish": "The key of a finish of job.toml.",
    "mass": "Of one piece: `85 g`; for hardware above all.",
    "origin": "Where the material came from, in words for the client.",
    "country": "Where it grew: an ISO 3166-1 code or a name.",
    "supplier": "Who sold it. Private.",
    "price": "Private. Left out, prices.csv is asked.",
    "per": "What the price is for: `board_foot`, `m3`, `m2`, `each`, `sheet`, `l`, `kg`, `m`.",
    "client": "`no` keeps the row off the client's page; supplies are off it unless `yes`.",
    "note": "Private.",
}


def columns_table() -> str:
    rows = ["| column | what it holds |", "| --- | --- |"]
    rows += [f"| `{name}` | {meaning} |" for name, meaning in COLUMNS.items()]
    return "\n".join(rows)


def key_table(table: Table) -> str:
    rows = ["| key | for example | meaning | leaves |", "| --- | --- | --- | --- |"]
    for key in table.keys:
        needed = " Needed." if key.needed else ""
        choices = f" One of {', '.join(f'`{c}`' for c in key.choices)}." if key.choices else ""
        rows.append(
            f"| `{key.name}` | `{key.example}` | {key.meaning}{choices}{needed} | {'yes' if key.leaves else ''} |"
        )
    return "\n".join(rows)


def headed(table: Table) -> str:
    return f"`{table.heading}`: {table.meaning}\n\n{key_table(table)}"


def job_tables() -> str:
    tables = [
        keys.OVERALL,
        keys.CLIMATE,
        keys.MADE_AT,
        keys.PHOTOS,
        keys.FINISH,
        keys.HANGING,
        keys.FASTENER,
        keys.WALL,
    ]
    worked = [headed(table) for table in working_keys.WORKED.values()]
    return "\n\n".join(
        [
            key_table(keys.JOB),
            *map(headed, tables),
            "Workings, each kind with its own keys; `title` and `note` go with all of them:",
            *worked,
        ]
    )


def shop_tables() -> str:
    tables = [shop_keys.ALLOWANCES, shop_keys.CARD, shop_keys.ESTIMATE, shop_keys.PAYMENT]
    return "\n\n".join([key_table(shop_keys.SHOP), *map(headed, tables)])


BLOCKS = {"parts columns": columns_table, "job keys": job_tables, "shop keys": shop_tables}


def block(name: str) -> re.Pattern[str]:
    return re.compile(rf"(<!-- {name} -->\n).*?(<!-- end -->)", re.DOTALL)


@pytest.mark.parametrize("name", BLOCKS)
def test_the_tables_are_those_that_the_readers_read_by(name):
    text = README.read_text("utf-8")
    assert block(name).sub(lambda m: f"{m[1]}\n{BLOCKS[name]()}\n\n{m[2]}", text) == text


def test_every_column_is_told():
    assert list(COLUMNS) == list(headings.PARTS)


def test_the_readme_opens_with_one_paragraph_that_states_the_job():
    paragraphs = README.read_text("utf-8").split("\n\n")
    assert paragraphs[0] == "# buildbook"
    for word in ("care-and-provenance page", "build log", "commissioned piece"):
        assert word in paragraphs[1]


def test_set_up_commands_are_one_line_each():
    blocks = re.findall(r"```sh\n(.*?)```", README.read_text("utf-8"), re.DOTALL)
    assert blocks[0].count("\n") == blocks[1].count("\n") == 1
    assert "bind sample_job" in blocks[0]
    assert "pytest" in blocks[1]


if __name__ == "__main__":
    new = README.read_text("utf-8")
    for name, make in BLOCKS.items():
        new = block(name).sub(lambda m, make=make: f"{m[1]}\n{make()}\n\n{m[2]}", new)
    README.write_text(new, "utf-8")
