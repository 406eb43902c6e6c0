"""Makes shelves of any size from a seed: believable jobs with notes of 300 to 2,000 words, parts, hours and sizes.

`made_jobs` gives them one by one, with what is true of each; `write_shelf` lays out job folders; `write_book` writes what
binding leaves for the list and for finding, without binding. Run as `python -m tests.make_shelf COUNT FOLDER`.
"""

import csv
import io
import os
import random
import sys
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cache
from pathlib import Path
from typing import NamedTuple

from PIL import Image

from buildbook.book.disk import write
from buildbook.book.past.across import across_files
from buildbook.book.past.index_files import book_files
from buildbook.book.past.records import job_files, read_records
from buildbook.find.excerpt import Excerpt
from buildbook.find.model import FindRecord
from buildbook.find.record import find_record, passages_of
from buildbook.job.model import Job
from buildbook.job.notes.entries import Known, read_notes
from buildbook.job.notes.pictures import Names
from buildbook.job.shop_model import Shop
from buildbook.job.table.parts import read_parts
from buildbook.job.toml.job_toml import read_job_toml
from buildbook.job.toml.shop_toml import read_shop_toml
from buildbook.left.model import Cover
from buildbook.pages.past.list import listed, past_work
from buildbook.problems import Problems
from buildbook.render.copies import copies_of, small_copies_of
from buildbook.render.html.theme import load_theme
from buildbook.summary import summarise
from buildbook.words import Words

NEWEST = date(2026, 6, 30)
YEARS = 15
SEASONS = ("winter", "spring", "summer", "autumn")
COLUMNS = (
    "part",
    "qty",
    "kind",
    "material",
    "length",
    "width",
    "thickness",
    "stock",
    "finish",
    "supplier",
    "note",
)
SHOP = 'name = "Shop of many jobs"\nunits = "mm"\ncurrency = "EUR"\ncountry = "GB"\n'
PICTURES = 6
PICTURE_SIZE = (1200, 900)
SYLLABLES = [
    "ban",
    "dor",
    "fel",
    "gil",
    "har",
    "jen",
    "kel",
    "lor",
    "mar",
    "nev",
    "orr",
    "pel",
    "quin",
    "ros",
    "sted",
    "tav",
    "ulv",
    "wen",
    "yar",
    "zet",
    "holt",
    "combe",
    "wick",
    "ley",
]


@dataclass(frozen=True)
class Made:
    """A job as text, by file name, and what is true of it (`facts`): words by name, to choose it by."""

    key: str
    files: dict[str, str]
    facts: dict[str, tuple[str, ...]]


@cache
def material() -> dict:
    return tomllib.loads(Path(__file__).with_suffix(".toml").read_text("utf-8"))


def made_jobs(count: int, seed: int = 1, words: tuple[int, int] = (300, 2000)) -> Iterator[Made]:
    """So many jobs; the same for the same seed. `words`: how long the notes are, from and to."""
    for number in range(count):
        yield _Maker(random.Random(seed * 1_000_003 + number), number, count, words).job()


class _Maker:
    """Draws the facts of one job, then writes its files."""

    def __init__(self, chance: random.Random, number: int, count: int, words: tuple[int, int]) -> None:
        self.chance, self.number, self.words = chance, number, words
        all_, say = material(), material()["words"]
        self.piece = self._pick(list(all_["pieces"]))
        self.plan = all_["pieces"][self.piece]
        self.wood, self.wood2 = self._woods()
        self.family = self._pick(list(all_["finishes"]))
        self.product = self._pick(all_["finishes"][self.family])
        self.joinery = self._some(say["joinery"], 1, 3)
        self.hardware = self._some(say["hardware"], 0, 3)
        self.glass = self._pick(say["glass"]) if chance.random() < 0.25 else ""
        self.feature = self._pick(say["features"])
        self.tags = self._some(say["tags"], 0, 2)
        self.suppliers = self._some(say["suppliers"], 1, 3)
        self.stories = self._some(list(all_["stories"]), 0, 2)
        self.delivered = NEWEST - timedelta(
            days=int((count - number) * YEARS * 365 / count) + chance.randrange(20)
        )
        self.begun = self.delivered - timedelta(days=chance.randrange(20, 120))
        self.size = [int(chance.randrange(low, high + 1) // 10 * 10) for low, high in self.plan["size"]]
        self.client = f"{self._name()} {self._name()}"
        self.key = f"{self.delivered.year}-{number % 1000:03}-{self.piece.replace(' ', '-')}-{number}"

    def _pick(self, items: list[str]) -> str:
        return items[self.chance.randrange(len(items))]

    def _some(self, items: list[str], low: int, high: int) -> list[str]:
        return self.chance.sample(items, self.chance.randint(low, high))

    def _woods(self) -> tuple[str, str]:
        shares = material()["woods"]
        main, second = self.chance.choices(list(shares), list(shares.values()), k=2)
        return main, second

    def _name(self) -> str:
        return "".join(self.chance.choices(SYLLABLES, k=self.chance.randint(2, 3))).capitalize()

    def job(self) -> Made:
        files = {"job.toml": self._toml(), "parts.csv": self._parts(), "notes.md": self._notes()}
        facts = {
            "piece": (self.piece,), "wood": (self.wood,), "wood2": (self.wood2,), "family": (self.family,),
            "product": (self.product,), "joinery": tuple(self.joinery), "hardware": tuple(self.hardware),
            "glass": (self.glass,), "feature": (self.feature,), "tags": tuple(self.tags), "key": (self.key,),
            "suppliers": tuple(self.suppliers), "stories": tuple(self.stories), "year": (str(self.delivered.year),),
            "season": (SEASONS[self.delivered.month % 12 // 3],), "client": (self.client,), "width": (str(self.size[0]),),
            "height": (str(self.size[2]),),
        }  # fmt: skip
        return Made(self.key, files, facts)

    # -- files -----------------------------------------------------------------------------------

    def _title(self) -> str:
        ways = [
            f"{self.wood} {self.piece}", f"{self.piece} with {self.feature}", f"{self.piece} in {self.wood}",
            f"{self.piece} for the {self._pick(material()['words']['rooms'])}", f"{self._name()} {self.piece}",
        ]  # fmt: skip
        title = self._pick(ways)
        return title[0].upper() + title[1:]

    def _toml(self) -> str:
        width, depth, height = self.size
        listed = {"tags": [self.feature.removeprefix("a "), *self.tags], "joinery": self.joinery}
        coats = ", ".join((self.delivered - timedelta(days=days)).isoformat() for days in (9, 7))
        lines = [
            f'number = "{self.delivered.year}-{self.number:04}"', f'title = "{self._title()}"', f'piece = "{self.piece}"',
            'units = "mm"', f'client = "{self.client}"', f"begun = {self.begun}", f"delivered = {self.delivered}",
            f'overall = {{ width = "{width}", depth = "{depth}", height = "{height}" }}',
            *(f"{name} = {values}".replace("'", '"') for name, values in listed.items()),
            f"price = {self.chance.randrange(30, 900) * 10}", "[[finish]]", 'key = "body"', f'family = "{self.family}"',
            f'product = "{self.product}"', f"coats = [{coats}]",
        ]  # fmt: skip
        return "\n".join(lines) + "\n"

    def _parts(self) -> str:
        out = io.StringIO()
        sheet = csv.DictWriter(out, COLUMNS, restval="")
        sheet.writeheader()
        longest = max(self.size)
        for place, part in enumerate(self.plan["parts"]):
            wood = self.wood2 if place and self.chance.random() < 0.25 else self.wood
            length = self.chance.randrange(longest // 4, longest) // 5 * 5
            sheet.writerow({
                "part": part, "qty": self.chance.choice([1, 2, 2, 4]), "kind": "wood", "material": wood, "length": length,
                "width": self.chance.randrange(30, 300), "thickness": self.chance.choice([18, 20, 22, 27]), "finish": "body",
                "supplier": self._pick(self.suppliers), "note": self._sentence() if self.chance.random() < 0.2 else "",
            })  # fmt: skip
        for item in self.hardware:
            sheet.writerow(
                {
                    "part": item.split(",")[0],
                    "qty": 2,
                    "kind": "hardware",
                    "material": item,
                    "supplier": self._pick(self.suppliers),
                }
            )
        if self.glass:
            sheet.writerow(
                {
                    "part": "Pane",
                    "qty": 1,
                    "kind": "glass",
                    "material": self.glass,
                    "length": 400,
                    "width": 300,
                    "thickness": 6,
                }
            )
        return out.getvalue()

    def _notes(self) -> str:
        wanted = int(self.words[0] * (self.words[1] / self.words[0]) ** self.chance.random())
        entries, count = [], 0
        hours = self.chance.uniform(*self.plan["hours"])
        stories = [material()["stories"][story] for story in self.stories]
        day, stages = self.begun, ["milling", "joinery", "assembly", "finishing", "hardware"]
        days = max(4, wanted // 80)
        for place in range(days):
            lines = []
            while count < wanted * (place + 1) / days:
                lines.append(self._sentence())
                count += len(lines[-1].split())
            if stories and self.chance.random() < 2 / days:
                lines.append(self._filled(stories.pop()))
            booked = f"Hours: {stages[place * len(stages) // days]} {hours / days:.2f}"
            setting = (
                f"\n\n{self._filled(self._pick(material()['notes']['settings']))}"
                if self.chance.random() < 0.4
                else ""
            )
            entries.append(
                f"## {day} {self._pick(material()['notes']['titles'])}\n\n{booked}\n\n{' '.join(lines)}{setting}\n"
            )
            day = min(self.delivered, day + timedelta(days=self.chance.randint(1, 4)))
        for story in stories:
            entries.append(f"## {day} Afterwards\n\n{self._filled(story)}\n")
        return "\n".join(entries)

    def _sentence(self) -> str:
        return self._filled(self._pick(material()["notes"]["sentences"]))

    def _filled(self, sentence: str) -> str:
        say, chance = material()["words"], self.chance
        text = sentence.format(
            part=self._pick(self.plan["parts"]).lower(), part2=self._pick(self.plan["parts"]).lower(), wood=self.wood,
            wood2=self.wood2, joint=self._pick(self.joinery), tool=self._pick(say["tools"]), state=self._pick(say["states"]),
            adverb=self._pick(say["adverbs"]), supplier=self._pick(self.suppliers), trade=self._pick(say["trades"]),
            hardware=(self._pick(self.hardware) if self.hardware else "fittings").split(",")[0], finish=self.product,
            room=self._pick(say["rooms"]), word=self._name(), n=chance.randint(2, 40), m=chance.randint(2, 14),
            d=chance.randint(1, 9), k=chance.randint(80, 900), k2=chance.randint(35, 300),
        )  # fmt: skip
        return text[0].upper() + text[1:]


# -- jobs in memory ------------------------------------------------------------------------------


def shop() -> Shop:
    return read_shop_toml(SHOP.encode(), Problems())


def job_of(made: Made) -> Job:
    """The job as its folder would be read, but for pictures; no file is touched."""
    problems = Problems()
    stated = read_job_toml(made.files["job.toml"].encode(), "mm", problems)
    job = Job(folder=made.key, shop=shop(), **stated.fields)
    known = Known(job.begun, job.shop.stages, Names(()))
    return replace(
        job,
        parts=read_parts(made.files["parts.csv"].encode(), "mm", problems),
        entries=read_notes([("notes.md", made.files["notes.md"].encode())], known, problems),
    )


class Searched(NamedTuple):
    """What is searched of a job, with its words."""

    record: FindRecord
    passages: tuple[Excerpt, ...]

    @property
    def key(self) -> str:
        return self.record.key


def searched(job: Job) -> Searched:
    summary, words = summarise(job), Words(job.shop.language)
    passages = passages_of(job, summary, words)
    return Searched(find_record(job, summary, words, passages), passages)


# -- on disk -------------------------------------------------------------------------------------


def write_shelf(folder: Path, jobs: Iterator[Made]) -> None:
    """A shelf of job folders, to be bound."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "shop.toml").write_text(SHOP, "utf-8")
    for made in jobs:
        for name, text in made.files.items():
            (folder / made.key).mkdir(exist_ok=True)
            (folder / made.key / name).write_text(text, "utf-8")


def write_book(book: Path, jobs: Iterator[Made]) -> None:
    """What binding would leave in a book for its list, for finding and for the pages across. Pictures are links."""
    pictures = _pictures(book.parent / f"{book.name}-pictures")
    for place, made in enumerate(jobs):
        digest = list(pictures)[place % len(pictures)]
        _write_job(book / "jobs" / made.key, job_of(made), digest, pictures[digest])
    found = read_records(book)
    theme = load_theme("oilstone")
    listing = [listed(record.entry, Words("en")) for record in found.records]
    page = theme.shelf_page(past_work(listing, language="en", shop=shop().name))
    across = across_files(found, shop(), theme, {}, Problems())
    files = {**book_files(found.records, shop(), Problems()), **across, "index.html": page.encode()}
    for name, content in files.items():
        (book / name).write_bytes(content)


def _write_job(folder: Path, job: Job, digest: str, copies: list[Path]) -> None:
    (folder / "photos").mkdir(parents=True)
    for copy in copies:
        os.link(copy, folder / "photos" / copy.name)
    cover = Cover(digest=digest, width=PICTURE_SIZE[0], height=PICTURE_SIZE[1], alt=job.title)
    files = {
        **job_files(job, summarise(job), cover),
        "index.html": b"<!DOCTYPE html><title>log</title>",
        write.LIST: b"{}\n",
    }
    for name, content in files.items():
        (folder / name).write_bytes(content)


def _pictures(folder: Path) -> dict[str, list[Path]]:
    """A few pictures by digest, each in the sizes that a page asks for."""
    folder.mkdir(parents=True, exist_ok=True)
    made: dict[str, list[Path]] = {}
    for number in range(PICTURES):
        digest = f"{number:064x}"
        for copy in dict.fromkeys(
            (*copies_of(digest, *PICTURE_SIZE), *small_copies_of(digest, *PICTURE_SIZE))
        ):
            path = folder / copy.name
            ramp = Image.linear_gradient("L").rotate(60 * number).resize((copy.width, copy.height))
            Image.merge("RGB", [ramp.point(lambda v, c=c: c + v // 4) for c in (150, 115, 80)]).save(
                path, quality=80
            )
            made.setdefault(digest, []).append(path)
    return made


if __name__ == "__main__":
    write_book(Path(sys.argv[2]), made_jobs(int(sys.argv[1])))
