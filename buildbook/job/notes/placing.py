"""On which part a line of a note sets a thing, and how far from where: `hinge on Door 56 from ends; knob 212 up`.

In: a line, the names of the parts that can be drawn and of the others. Out: `Placement`s. What does not say its part is
none; a figure that does not say from where it counts is left to the words of the line. Nothing is guessed. The words
that tell are `data/placing.toml`.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources
from typing import Any, NamedTuple

from buildbook.job.notes.measures import NoteFigure, measures

LONGEST_THING = 28  # letters of a thing's name in a drawing
_CLAUSES = re.compile(r";\s*|\.\s+(?=[^\W\d_a-zäöüß])|\.\s*$")
_PIECES = re.compile(r"[,;:()]\s*|\s*(?:>|→)\s*")
_LOOK_BACK = 4  # words before the name of a part in which its preposition stands
_KEPT = 1 << 12  # names of parts whose pattern is kept


@dataclass(frozen=True)
class Distance:
    """How far, in metres, and from where: a key of `[from]`, or `in` where the side is not said."""

    m: float
    start: str


@dataclass(frozen=True)
class Placement:
    """A thing on a part. `middle`: the line says that it is in the middle."""

    part: str
    thing: str
    distances: tuple[Distance, ...]
    middle: bool = False


class _Host(NamedTuple):
    name: str
    end: int


@cache
def table() -> dict[str, Any]:
    """The words, as `data/placing.toml` has them."""
    text = resources.files("buildbook.job").joinpath("data", "placing.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def one_of(words: Sequence[str]) -> str:
    """A pattern of any of some words, the longest first."""
    return "(?:" + "|".join(re.escape(w).replace(r"\ ", r"\s+") for w in sorted(words, key=len)[::-1]) + ")"


def holds_word(text: str, words: Sequence[str]) -> bool:
    """Whether a text has one of some words, whole, in any capitals."""
    return re.search(rf"(?<!\w){one_of(words)}(?!\w)", text, re.IGNORECASE) is not None


# -- from where a figure counts ----------------------------------------------------------------------


@cache
def _starts() -> tuple[tuple[re.Pattern[str], str], ...]:
    words = table()["words"]
    away, article = f"(?:{one_of(words['away'])}\\s+)?", f"(?:{one_of(words['articles'])}\\s+)?"
    found = []
    for start, written in table()["from"].items():
        before = list(words["before"])
        before += words["above"] if start == "bottom" else words["below"] if start == "top" else []
        shape = rf"{away}{one_of(before)}\s+{article}{one_of(written)}(?!\w)"
        found.append((re.compile(shape, re.IGNORECASE), start))
    for start, written in table()["alone"].items():
        found.append((re.compile(rf"{one_of(written)}(?!\w)", re.IGNORECASE), start))
    return tuple(found)


def start_of(after: str) -> tuple[str, str]:
    """From where a figure counts by the words behind it, and what else they say; nothing where they do not tell."""
    best = max(
        ((match.end(), start) for shape, start in _starts() if (match := shape.match(after))),
        default=(0, ""),
    )
    return best[1], after[best[0] :].strip()


def _is_idle(rest: str, hosts: Sequence[_Host]) -> bool:
    """Whether what follows a place is nothing, a joining word, the middle, or names the part itself: `from the inside
    of each side` counts from something else.
    """
    words = table()["words"]
    middle = rf"(?:{one_of(words['on'])}\s+)?(?:{one_of(words['articles'])}\s+)?{one_of(words['middle'])}"
    rest = re.sub(
        rf"^{middle}(?!\w)|^{one_of(words['and'])}(?!\w)|{one_of(words['and'])}$", "", rest, flags=re.I
    )
    rest = rest.strip()
    return not rest or any(host.name.casefold() in rest.casefold() for host in hosts)


# -- on which part -----------------------------------------------------------------------------------


def spans_of(text: str, names: Sequence[str]) -> list[tuple[int, int, str]]:
    """Where names of parts stand in a text, in its order; in `Door stile` no `Door` is named. A plural is the same."""
    found: list[tuple[int, int, str]] = []
    plain = text.casefold()
    for name in sorted(set(names), key=lambda one: (-len(one), one)):
        if not all(word in plain for word in name.casefold().split()):
            continue  # of hundreds of parts a line names few
        for match in _shape(name).finditer(text):
            if _is_direction(match, text, name):
                continue
            if not any(start < match.end() and match.start() < end for start, end, _ in found):
                found.append((*match.span(), name))
    return sorted(found)


@lru_cache(maxsize=_KEPT)
def _shape(name: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){re.escape(name)}(?:e?s|n|en)?(?!\w)".replace(r"\ ", r"\s+"), re.IGNORECASE)


@cache
def _directions() -> tuple[str, ...]:
    return tuple(word for words in table()["from"].values() for word in words)


def _is_direction(match: re.Match[str], text: str, name: str) -> bool:
    """Whether `top` is not the part `Top`: it is written otherwise, or is a word of `top edge`."""
    if name.casefold() not in (word.casefold() for word in _directions()):
        return False
    longer = [word for word in _directions() if word.casefold().startswith(f"{name.casefold()} ")]
    if longer and re.match(rf"{one_of(longer)}(?!\w)", text[match.start() :], re.IGNORECASE):
        return True
    return not match[0].startswith(name)


def _hosts(clause: str, drawn: Sequence[str], others: Sequence[str], is_first: bool) -> list[_Host]:
    """The parts that a clause sets a thing on, in its order."""
    hosts: list[_Host] = []
    of_other, at_start = "", list[_Host]()
    for start, end, name in spans_of(clause, [*drawn, *others]):
        if is_first and not clause[:start].strip():
            if name in others:
                of_other = name
            elif _is_of_thing(clause[end:]):
                at_start = [_Host(name, end)]
        elif name not in others and _is_host(clause, start, end, hosts):
            hosts.append(_Host(name, end))
    if hosts or at_start or not of_other:
        return hosts or at_start  # in `Rail mortise 40 up on the Post` the rail is what is placed
    own = [one for one in drawn if of_other.casefold().startswith(f"{one.casefold()} ")]
    return [_Host(name, len(of_other)) for name in own[:1]]  # `Door hinge`, where there is a part `Door`


def _is_of_thing(after: str) -> bool:
    """Whether a part that a line begins with is where a thing sits: `Door: …`, `Door hinge …`; not `Leg 56 in`."""
    thing = re.match(rf"\s+{one_of(table()['words']['things'])}(?!\w)", after, re.IGNORECASE)
    return after.lstrip().startswith(":") or thing is not None or not after.strip(" .")


def _is_host(clause: str, start: int, end: int, hosts: Sequence[_Host]) -> bool:
    words = table()["words"]
    before, after = clause[:start], clause[end:]
    joined = re.search(rf"(?:,|{one_of(words['and'])})\s*$", before, re.IGNORECASE)
    if joined and hosts and not before[hosts[-1].end : joined.start()].strip():
        return True
    if _PIECES.split(before)[-1].strip() == "" and re.match(r"\s*(?:$|[,;:().]|and\b|und\b)", after):
        return True
    return _is_on(re.findall(r"[\w&]+|[,;:()>]", before)[-_LOOK_BACK:])


def _is_on(before: Sequence[str]) -> bool:
    """Whether the words before a part's name set something on it: the nearest preposition does."""
    words = table()["words"]
    for place in range(len(before) - 1, -1, -1):
        word = before[place].casefold()
        if word in words["not_on"] or not word[0].isalpha():
            return False
        if word in words["on"]:
            return True
        if word == "der" and place and before[place - 1][0].isupper():  # the Vorderkante der Platte
            return True
    return False


# -- a line ------------------------------------------------------------------------------------------


def placements(
    text: str,
    mark: str,
    unit: str,
    drawn: Sequence[str],
    others: Sequence[str],
    *,
    decimal_comma: bool = False,
) -> tuple[Placement, ...]:
    """The places in a marked line, in its order. `drawn`: the names of parts that can be drawn; `others` of the rest.

    A clause without a part of its own is told of the part of the clause before it.
    """
    figures = measures(text, mark, unit, decimal_comma=decimal_comma)
    found: list[Placement] = []
    hosts: list[_Host] = []
    thing = ""
    for number, (start, end) in enumerate(_spans(text)):
        clause = text[start:end]
        own = _hosts(clause, drawn, others, number == 0)
        if own or _sets_on_another(clause):
            hosts = own
        names = dict.fromkeys(host.name for host in hosts)
        within = [one for one in figures if start <= one.start < end]
        middle = holds_word(clause, table()["words"]["middle"])
        thing = _thing_before(clause, within[0].start - start if within else 0) or thing
        for said, distances in _grouped(within, text, hosts):
            thing = said or thing
            found += [Placement(name, thing[:LONGEST_THING].strip(), distances, middle) for name in names]
    return tuple(found)


def hosts_of(text: str, drawn: Sequence[str], others: Sequence[str]) -> tuple[str, ...]:
    """The parts that a line sets something on, with or without figures."""
    spans = list(_spans(text))
    found = [
        host.name
        for number, (start, end) in enumerate(spans)
        for host in _hosts(text[start:end], drawn, others, number == 0)
    ]
    return tuple(dict.fromkeys(found))


def first_named(text: str, names: Sequence[str]) -> tuple[str, ...]:
    """The part that a line names first, and those that are joined to it: `Rail and Stile round 2`."""
    found: list[tuple[int, int, str]] = []
    joining = one_of([*table()["words"]["and"], ","])
    for one in spans_of(text, names):
        if found and not re.fullmatch(joining, text[found[-1][1] : one[0]].strip(), re.IGNORECASE):
            break
        found.append(one)
    return tuple(name for _, _, name in found)


def _spans(text: str) -> Iterator[tuple[int, int]]:
    start = 0
    for match in _CLAUSES.finditer(text):
        yield start, match.start()
        start = match.end()
    if start < len(text):
        yield start, len(text)


def _sets_on_another(clause: str) -> bool:
    words = table()["words"]
    on = [word for word in words["on"] if word not in ("to", "of", "along")]
    other = rf"(?!{one_of(words['middle'])})\w"
    return re.search(rf"\b{one_of(on)}\s+{one_of(words['articles'])}\s+{other}", clause, re.I) is not None


def _thing_before(clause: str, first: int) -> str:
    """What a clause begins with, up to its first comma or figure; nothing where that is a part and no thing."""
    return _without_place(_PIECES.split(clause[:first])[0])


def _without_place(name: str) -> str:
    """`Knob` of `Knob on the Door`."""
    words = table()["words"]
    idle = one_of([*words["on"], *words["and"], *words["articles"], *words["middle"]])
    name = re.split(rf"\s*(?<!\w){one_of(words['on'])}\s+(?=\w)", name.strip(), flags=re.IGNORECASE)[0]
    return re.sub(
        rf"(?:(?<!\w){idle}(?!\w)\s*)+$|^(?:{idle}(?!\w)\s*)+", "", name, flags=re.IGNORECASE
    ).strip()


_Group = tuple[str, tuple[Distance, ...]]


def _grouped(figures: Sequence[NoteFigure], text: str, hosts: Sequence[_Host]) -> Iterator[_Group]:
    """What is said of one thing after the other: a figure with a name of its own begins the next."""
    thing, distances = "", list[Distance]()
    before = ""
    for chain in _chains(figures, text):
        name = "" if before and before.startswith(chain[0].name) else _without_place(chain[0].name)
        before = chain[-1].after
        if len(chain[0].values) > 1 and name:  # a groove 6 x 6
            size = re.sub(r"\s*[x*]\s*", " × ", chain[0].words)
            name = f"{name} {size}"
        if name and distances:
            yield thing, tuple(distances)
            thing, distances = "", []
        thing = name or thing
        start, rest = start_of(chain[-1].after)
        is_stop = re.search(rf"(?<!\w){one_of(table()['words']['stops'])}\s*$", text[: chain[0].start], re.I)
        if start and not is_stop and _is_idle(rest, hosts):
            distances += [Distance(one.values[0], start) for one in chain if len(one.values) == 1]
    if distances:
        yield thing, tuple(distances)


def _chains(figures: Sequence[NoteFigure], text: str) -> Iterator[list[NoteFigure]]:
    """The figures one by one; together what counts from one place: `2, 155.5 and 309 up`."""
    words = one_of(table()["words"]["and"])
    chain: list[NoteFigure] = []
    for place, figure in enumerate(figures):
        if figure.kind != "length":
            continue
        chain.append(figure)
        following = figures[place + 1] if place + 1 < len(figures) else None
        between = text[figure.end : following.start].strip() if following else "."
        if between == ",":
            continue
        if re.fullmatch(words, between, re.IGNORECASE):
            continue
        joined = len(chain) > 1 and text[chain[-2].end : figure.start].strip() != ","
        yield from [chain] if joined else ([one] for one in chain)
        chain = []
