"""The cases of tests/resized/cases: pieces made to another size, worked out on paper, and what is made of them here."""

import tomllib
from pathlib import Path

from buildbook.folding import folded
from buildbook.job import read_job
from buildbook.resized.asking import asked
from buildbook.resized.figures import alike
from buildbook.resized.wanted import read_sizes
from buildbook.words import Words
from tests.conftest import ROOT

CASES = Path(__file__).parent / "cases"
NAMES = sorted(path.stem for path in CASES.glob("*.toml"))


def case(name):
    return tomllib.loads((CASES / f"{name}.toml").read_text("utf-8"))


def folder_of(facts, place):
    """The past job of a case: one that is there, or laid out of its texts in a place."""
    if "job" in facts:
        return ROOT / facts["job"]
    folder = place / "shelf" / "2030-001-past"
    if not folder.is_dir():
        folder.mkdir(parents=True)
        (folder.parent / "shop.toml").write_text(facts["shelf"], "utf-8")
        (folder / "job.toml").write_text(facts["job_toml"], "utf-8")
        (folder / "parts.csv").write_text(facts["parts_csv"], "utf-8")
    return folder


class Maker:
    """Answers as the case says, and no to whatever it says nothing of."""

    def __init__(self, facts):
        self.answers = list(facts.get("answer", ()))
        self.asked = []
        self.told = []

    def ask(self, question):
        self.asked.append(question)
        about = question if "[" in question and "," in question else " ".join(self.told)
        for answer in self.answers:
            if "take" in answer and folded(answer["of"]) in folded(about) and question.startswith("Which?"):
                self.answers.remove(answer)
                return answer["take"][0]
            if "new" in answer and folded(question).startswith(f"{folded(answer['of'])},"):
                self.answers.remove(answer)
                return answer["new"]
        return "no"

    def tell(self, line):
        self.told.append(line)


def made(facts, place):
    """The past job, the piece that was made of it, and the maker that was asked."""
    job = read_job(folder_of(facts, place), pictures=False)
    maker = Maker(facts)
    sizes = read_sizes(facts["sizes"], job.units)
    return job, asked(alike(job, job.shop), sizes, Words("en"), maker.ask, maker.tell), maker
