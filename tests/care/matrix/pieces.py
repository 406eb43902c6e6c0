"""The pieces of the matrix: what each may be, those that are tried, and each written as a maker would and read.

In: kinds.toml, axes.toml. Out: `cases()`; `written`, the files of one; `told`, what its pages would say.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations, product
from pathlib import Path
from typing import Any

from buildbook.care import CareItem, Happening, choose, facts_of, if_something_happens
from buildbook.job import read_job
from buildbook.problems import any_error
from buildbook.summary import summarise
from buildbook.words import Words
from tests.care.matrix.covering import Case, Combination, cover

HERE = Path(__file__).resolve().parent
WORDS = Words("en")
FILES = ("job.toml", "parts.csv", "shop.toml")
HARDWARE_KG = 0.05
DANGERS = {
    "whom": ("children", "public"),
    "glass": ("door", "shelf", "top", "mirror"),
    "fitted": ("lid", "castors", "magnets", "folding", "lights", "drawers", "stone"),
    "stands": ("wall", "ceiling", "outdoors"),
    "near": ("stove", "fireplace"),
}
"""Where a wrong word, or a missing one, can hurt: any two of these meet in every kind."""


def _toml(name: str) -> dict[str, Any]:
    return tomllib.loads((HERE / name).read_text(encoding="utf-8"))


@cache
def kinds() -> Mapping[str, dict[str, Any]]:
    return _toml("kinds.toml")


@cache
def levels() -> Mapping[str, dict[str, dict[str, Any]]]:
    return _toml("axes.toml")


@cache
def axes() -> Mapping[str, Sequence[str]]:
    return {"kind": tuple(kinds()), **{axis: tuple(found) for axis, found in levels().items()}}


def possible(case: Case) -> bool:
    """Whether such a piece makes sense, as far as it is told: no spoon with castors."""
    kind = kinds().get(case.get("kind", ""))
    outdoors = case.get("stands") == "outdoors"
    if outdoors and (case.get("near", "none") != "none" or case.get("whom") in ("public", "unsaid")):
        return False
    if kind is None:
        return _possible_in_some_kind(frozenset(case.items()))
    traits = kind["is"]
    if case.get("stands", kind["stands"][0]) not in kind["stands"]:
        return False
    if (glass := case.get("glass")) and not (
        glass in kind.get("glass", ()) or (glass == "none" and not kind.get("every"))
    ):
        return False
    if case.get("fitted", "none") not in ("none", *kind.get("fitted", ())):
        return False
    if {"ware", "child"} & set(traits) and "small" in traits and case.get("near", "none") != "none":
        return False
    if "outdoors" in traits and case.get("near", "none") != "none":
        return False
    return not ("ware" in traits and (case.get("metal", "none") != "none" or case.get("wood") == "ply"))


@cache
def _possible_in_some_kind(told: Combination) -> bool:
    return any(possible({**dict(told), "kind": kind}) for kind in kinds())


def _wanted(deep: bool) -> Iterator[Combination]:
    """All pairs, and all that involves two dangers in a kind; deep: every two levels of those axes in a kind."""
    names = tuple(axes())
    for one, other in combinations(names[1:], 2):
        if one in DANGERS and other in DANGERS:
            some = axes() if deep else DANGERS
            for kind, first, second in product(axes()["kind"], some[one], some[other]):
                yield frozenset({("kind", kind), (one, first), (other, second)})
    for one, other in combinations(names, 2):
        for first, second in product(axes()[one], axes()[other]):
            if other == "finish" and "lesser" in kinds().get(first, {}):
                continue
            yield frozenset({(one, first), (other, second)})


@cache
def cases(deep: bool = False) -> tuple[Case, ...]:
    """The cases that are tried. The names of a kind take turns."""
    found = []
    turn: dict[str, int] = {}
    for case in cover(axes(), _wanted(deep), possible):
        names = names_of(case["kind"])
        number = turn[case["kind"]] = turn.get(case["kind"], -1) + 1
        found.append({**case, "name": names[number % len(names)]})
    return tuple(found)


def names_of(kind: str) -> tuple[str, ...]:
    """What makers call it, English and German in turn."""
    english, german = kinds()[kind]["en"], kinds()[kind]["de"]
    both = [name for pair in zip(english, german, strict=False) for name in pair]
    return tuple(dict.fromkeys((*both, *english, *german)))


def traits(case: Case) -> frozenset[str]:
    """What the trade knows of a case: what its kind has, what its levels bring, `kind`, `axis:level`, the name's words."""
    kind = kinds()[case["kind"]]
    found = {case["kind"], *kind["is"], *(f"{axis}:{case[axis]}" for axis in levels())}
    for axis, table in levels().items():
        found.update(table[case[axis]]["is"])
    found.add(f"called:{case['name'].replace(' ', '-')}")
    if kind.get("anywhere") and _use(case, kind) == "":
        found.discard("outdoors")
    if "walled" in found and case["stands"] == "unsaid":
        found.add("hangs")
    if "outdoors" not in found:
        found.add("indoors")
    if "load" in kind:
        found.add("loaded")
    if not found & {"hangs", "on-table", "small", "building", "ware"}:
        found.add("on-floor")
    return frozenset(found)


# -- as a maker writes it ----------------------------------------------------------------------------


def written(case: Case) -> Mapping[str, str]:
    """The files of a case."""
    kind, of = kinds()[case["kind"]], {axis: table[case[axis]] for axis, table in levels().items()}
    width, depth, height = kind["size"]
    lines = [
        'number = "2026-001"',
        f'title = "{case["name"].capitalize()}"',
        f'piece = "{case["name"]}"',
        f"delivered = {of['day']['delivered']}",
        f'overall = {{ width = "{width}", depth = "{depth}", height = "{height}" }}',
    ]
    if of["stands"]["written"]:
        lines.append(f'stands = "{of["stands"]["written"]}"')
    if use := _use(case, kind):
        lines.append(f'use = "{use}"')
    if near := of["near"].get("near"):
        lines.append(f"near = {near}")
    if "load" in kind:
        lines.append(f'contents = "{kind["load"]} kg"')
    for level in (of["fitted"], of["whom"]):
        lines += level.get("keys", [])
    if case["stands"] == "wall":
        lines.append('hanging = { method = "cleat" }')
    if family := of["finish"]["family"]:
        coats = [] if family == "unfinished" else of["day"]["coats"]
        dates = f"[{', '.join(map(str, coats))}]"
        lines += ["[[finish]]", 'key = "body"', f'family = "{family}"', f"coats = {dates}"]
        if "ware" in kind["is"]:
            lines.append("food_safe = true")
    shop = 'name = "Alder Yard"\nmaker = "Ida Fenn"\nemail = "ida@alder.example"\n'
    shop += f'country = "{of["whom"].get("country", "DE")}"\nlanguage = "en"\n'
    return {"job.toml": "\n".join(lines) + "\n", "parts.csv": _parts(case, kind, of), "shop.toml": shop}


def _use(case: Case, kind: Mapping[str, Any]) -> str:
    if case["stands"] == "outdoors":
        return levels()["stands"]["outdoors"]["use"]
    if case["whom"] == "unsaid":
        return ""
    return "in the garden" if "outdoors" in kind["is"] else levels()["whom"][case["whom"]]["use"]


def _parts(case: Case, kind: Mapping[str, Any], of: Mapping[str, dict[str, Any]]) -> str:
    rows = ["Part,Qty,Kind,Material,Length,Width,Thickness,Finish,Mass (kg)"]
    material = of["wood"]["material"]
    finish = "body" if of["finish"]["family"] else ""
    wooden = [*kind["parts"], *([] if "lid" in kind["is"] else of["fitted"].get("wood", []))]
    sort = "panel" if case["wood"] == "ply" else "wood"
    for part in wooden:
        named, _, count = part.partition(" *")
        name, _, size = named.rpartition(" ")
        rows.append(f"{name},{count or 1},{sort},{material},{size.replace('x', ',')},{finish},")
    fixed = [*kind.get("hardware", []), *of["glass"].get("parts", []), *of["metal"].get("parts", [])]
    if "doors" in kind["is"] or (case["glass"] == "door" and case["kind"] != "picture-frame"):
        fixed.append("Hinge,4,hardware,stainless steel butt hinge,60,30,2")
    for row in [*fixed, *of["fitted"].get("parts", [])]:
        row = row.replace("Door glass", "Glass") if case["kind"] == "picture-frame" else row
        rows.append(f"{row},{finish if ',wood,' in row else ''},{HARDWARE_KG if ',hardware,' in row else ''}")
    return "\n".join(rows) + "\n"


# -- what its pages would say ------------------------------------------------------------------------


@dataclass(frozen=True)
class Told:
    """What is told of a case: its instructions, the whole text for each reader, or why it was refused."""

    case: Case
    is_: frozenset[str]
    items: tuple[CareItem, ...] = ()
    refused: tuple[str, ...] = ()
    happens: tuple[Happening, ...] = ()

    @property
    def keys(self) -> frozenset[str]:
        return frozenset(item.key for item in self.items)

    def text(self, reader: str) -> str:
        """All that a reader is told, an instruction a line."""
        others = {"client": "maker", "maker": "client"}.get(reader)
        lines = [
            f"{item.title}. {item.text} {item.why} {item.short}"
            for item in self.items
            if item.audience != others
        ]
        if reader != "maker":
            lines += [
                f"{happening.title}. {aid.first} {aid.never} {aid.call}"
                for happening in self.happens
                for aid in happening.aid
            ]
        return "\n".join(lines)


def told(case: Case, folder: Path) -> Told:
    """What is told of a case that is written into a folder and read again."""
    for name, text in written(case).items():
        (folder / name).write_text(text, encoding="utf-8")
    job = read_job(folder, pictures=False)
    if any_error(job.problems):
        faults = tuple(f"{p.file} {p.field}: {p.message}" for p in job.problems if p.severity == "error")
        return Told(case, traits(case), refused=faults)
    summary = summarise(job)
    heavy = {"heavy"} if summary.mass.total_kg > 25 else set()  # kg, as NIOSH and the trade count it
    facts = facts_of(job, summary, WORDS)
    happens = if_something_happens(facts, WORDS)
    return Told(case, traits(case) | heavy, choose(job, summary, WORDS, facts), happens=happens)


Tell = Callable[[Case], Told]
