"""What is told of whole pieces, as makers write them: each judged by what the trade wants said of it, in whatever words."""

import re
import tomllib
from functools import cache
from pathlib import Path

import pytest

from buildbook.care import choose, facts_of
from buildbook.job.folder import read_job
from buildbook.problems import any_error
from buildbook.summary import summarise
from buildbook.words import Words

PIECES = tomllib.loads(Path(__file__).with_name("ordered.toml").read_text(encoding="utf-8"))
HEADINGS = "part,qty,kind,material,length,width,thickness,finish,note\n"
SHOP = 'name = "Cask & Adze"\nemail = "shop@cask.example"\ncountry = "{}"\nlanguage = "{}"\nunits = "{}"\n'


@cache
def lines(name: str, folder: Path) -> tuple[tuple[str, str], ...]:
    """Who reads it, and the words, of all that is told of a piece."""
    piece = PIECES[name]
    folder.mkdir()
    (folder / "job.toml").write_text(piece["job"], encoding="utf-8")
    (folder / "parts.csv").write_text(HEADINGS + piece["parts"], encoding="utf-8")
    (folder / "shop.toml").write_text(SHOP.format(*piece["shop"]), encoding="utf-8")
    job = read_job(folder, pictures=False)
    assert not any_error(job.problems), [str(problem) for problem in job.problems]
    summary, words = summarise(job), Words(piece["shop"][1])
    items = choose(job, summary, words, facts_of(job, summary, words))
    return tuple((item.audience, f"{item.title}. {item.text} {item.why} {item.short}") for item in items)


def lacking(wanted: dict[str, str], text: str) -> list[str]:
    return [what for what, said in wanted.items() if not re.search(said, text, re.IGNORECASE)]


@pytest.mark.parametrize("name", PIECES)
def test_it_is_told_what_the_trade_wants_said_and_nothing_that_is_not_true_of_it(name, tmp_path):
    told = lines(name, tmp_path / name)
    client = [text for reader, text in told if reader != "maker"]
    maker = "\n".join(text for reader, text in told if reader != "client")
    assert lacking(PIECES[name]["tell"], "\n".join(client)) == []
    assert lacking(PIECES[name].get("maker", {}), maker) == []
    wrong = [
        (what, text)
        for what in PIECES[name]["never"]
        for text in client
        if re.search(what, text, re.IGNORECASE)
    ]
    assert wrong == []
