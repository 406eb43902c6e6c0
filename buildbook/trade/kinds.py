"""What kind of piece a thing is, by what its maker calls it, in English or German: the table kinds.csv.

In: the words of a job (`dining chair`, `Nachttisch aus Eiche`). Out: a `PieceKind`, or None for what no row names.

A name is found as whole words, singular or plural; a German one that is marked (`…tisch`) at the end of a longer word
too. The longest name wins (a TV stand is no stand), the main noun before what is told of it (a desk with a bench is a
desk), and in a row of nouns the last (a bench plane cabinet is a cabinet).
"""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache, partial
from itertools import islice
from types import MappingProxyType

from buildbook.trade import rows
from buildbook.trade.records import Named
from buildbook.trade.rows import TableError, TableRow

HAS = (
    "furniture", "top", "low-top", "seat", "doors", "drawers", "shelves", "lid", "floor", "hangs", "on-table",
    "built-in", "leans", "outdoors", "people", "child", "child-fits", "food", "tips", "clothes", "frame", "folds",
    "castors", "electric", "blades", "washed-up", "once",
)  # fmt: skip
"""What a kind of piece may have; the head of kinds.csv says what each means."""

REACHES = (
    "cups", "heat", "water", "steam", "weather", "sun", "hands", "feet", "food", "mouth",
)  # fmt: skip
"""What may reach a kind of piece in use."""

NEAREST = 3  # kinds named where none was found
_SHORTEST = 4  # letters of a word that a slip of spelling is looked for in
_ALIKE = 0.8  # of difflib's ratio: two words that may be a slip of one another

_END = "…"  # before a name that may end a longer word
_LINKS = frozenset(
    (
        "with", "without", "for", "in", "on", "from", "of", "by", "at", "to", "and", "plus", "under", "above", "over",
        "beside", "near", "after",
        "mit", "ohne", "fuer", "im", "auf", "aus", "am", "an", "von", "vom", "und", "zum", "zur", "bei", "unter",
        "ueber", "neben", "nach", "zu",
    )
)  # fmt: skip
"""Words after which something is told of a piece, not what it is."""
_OF = frozenset(("of", "von", "vom", "and", "plus", "und"))
"""Those of them that lead on to what the piece is, where nothing before them is one."""
_BREAK = re.compile(r"[,;:()\[\]/|+&.!?“”\"„]|\s[-–—]\s")
_UMLAUTS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue"})


@dataclass(frozen=True, kw_only=True)
class PieceKind(Named):
    """A kind of piece. It is found by all of `aliases`.

    english  those that are English, `name` first.
    ends     those of the aliases that may end a longer word.
    unlike   words that hold one of its names and mean something else.
    wider    the key of the wider kind that it belongs to, empty for most.
    family   pieces that are made alike.
    has      of `HAS`: what such a piece has, unless the job says otherwise.
    reaches  of `REACHES`: what meets it in use.
    """

    english: tuple[str, ...]
    ends: tuple[str, ...]
    unlike: tuple[str, ...]
    wider: str
    family: str
    has: frozenset[str]
    reaches: frozenset[str]

    @property
    def usual(self) -> tuple[str, ...]:
        """What it is called in English and, if it has a name there, in German."""
        german = (name for name in self.aliases if name not in self.english)
        return (self.name, *islice(german, 1))


@dataclass(frozen=True)
class NamedKind:
    """A kind, and the words by which a text names it, plain."""

    kind: PieceKind
    by: str


@cache
def kinds() -> Mapping[str, PieceKind]:
    """Every kind of piece by its key, in the order of the file."""
    columns = (
        "key", "name", "en", "de", "unlike", "wider", "family", "has", "reaches", "source", "basis", "note",
    )  # fmt: skip
    read = rows.read("kinds.csv", columns)
    found = {row.text("key"): _kind(row) for row in read}
    if len(found) != len(read):
        raise TableError("kinds.csv", read[0].line, "a key stands twice")
    for row in read:
        if (wider := row.words("wider")) and wider not in found:
            raise row.error(f"wider: no such kind: {wider}")
    return MappingProxyType(found)


def _kind(row: TableRow) -> PieceKind:
    german = row.listed("de")
    return PieceKind(
        key=row.text("key"),
        name=row.text("name"),
        aliases=(*row.listed("en"), *(name.removeprefix(_END) for name in german)),
        english=(row.text("name"), *row.listed("en")),
        ends=tuple(name.removeprefix(_END) for name in german if name.startswith(_END)),
        unlike=row.listed("unlike"),
        wider=row.words("wider"),
        family=row.text("family"),
        has=_of(row, "has", HAS),
        reaches=_of(row, "reaches", REACHES),
        source=row.text("source"),
        basis=row.text("basis"),
        note=row.words("note"),
    )


def _of(row: TableRow, column: str, known: tuple[str, ...]) -> frozenset[str]:
    found = frozenset(row.listed(column))
    if strangers := found - set(known):
        raise row.error(f"{column}: not known: {', '.join(sorted(strangers))}")
    return found


# -- what a piece is -----------------------------------------------------------------------------


def kind_of(piece: str, title: str = "") -> PieceKind | None:
    """The kind that a maker means: by what the job calls the piece, else by its title.

    A title that says more of the same word is asked too: a `bed` with the title `Bunk bed for two` is a bunk bed.
    """
    by_piece, by_title = called(piece), called(title)
    if by_piece and by_title and by_title.by.endswith(by_piece.by) and by_title.by != by_piece.by:
        return by_title.kind
    found = by_piece or by_title
    return found.kind if found else None


def every_key(kind: PieceKind | None) -> tuple[str, ...]:
    """The keys of a kind and of the wider ones that it belongs to."""
    return (kind.key, *every_key(kinds()[kind.wider] if kind.wider else None)) if kind else ()


def nearest(text: str) -> tuple[str, ...]:
    """Names of kinds, one each, that are spelt much like words that name none, or have their main noun."""
    wanted = [word for word in _plain(text).split() if word not in _LINKS and len(word) >= _SHORTEST]
    if not wanted:
        return ()
    called = {
        _plain(name): (name, kind.key) for kind in kinds().values() for name in (kind.name, *kind.aliases)
    }
    near = partial(difflib.get_close_matches, n=NEAREST, cutoff=_ALIKE)
    close = near(" ".join(wanted), called)
    heads = (
        name for name in called if near(wanted[-1], name.split()[-1:]) and not _LINKS & set(name.split())
    )
    once: dict[str, str] = {}
    for name in (*close, *heads):
        written, key = called[name]
        once.setdefault(key, written)
    return tuple(once.values())[:NEAREST]


@lru_cache(maxsize=4096)
def called(text: str) -> NamedKind | None:
    """The kind that a text names, and by which words; None where it names none."""
    for words in _phrases(text):
        named = [match for match in _named(words) if _is_main(words, match)]
        if named:
            links = _links(words, named[0])
            first = [match for match in named if _links(words, match) == links][-1]
            return _for_a_child(words[: first.start], NamedKind(kinds()[first.key], first.by))
    return None


def _links(words: tuple[str, ...], match: _Match) -> tuple[str, ...]:
    """The words before a name after which something is told of a piece."""
    return tuple(word for word in words[: match.start] if word in _LINKS)


def _is_main(words: tuple[str, ...], match: _Match) -> bool:
    """Whether a name is what a phrase is of, and not what that is for: a stand for a vase is none, a set of six
    chairs is chairs.
    """
    links = _links(words, match)
    return all(link in _OF for link in links) or words[0] in _LINKS


def _for_a_child(before: tuple[str, ...], named: NamedKind) -> NamedKind:
    """A child's first chair is furniture for a child, whatever stands between."""
    if (
        not _CHILD.intersection(before)
        or named.kind.family not in _CHILD_FAMILIES
        or "child" in named.kind.has
    ):
        return named
    return NamedKind(kinds()[_CHILD_KINDS.get(named.kind.family, _CHILD_FURNITURE)], named.by)


_CHILD = frozenset(
    ("child", "childs", "children", "childrens", "kids", "toddler", "toddlers", "baby", "babys")
)
_CHILD_FAMILIES = frozenset({"seat", "table", "bed"})
_CHILD_FURNITURE = "child-furniture"
_CHILD_KINDS = {"bed": "cot"}
"""What a bed, and any other piece, is that is called a child's."""


def _phrases(text: str) -> Iterator[tuple[str, ...]]:
    for phrase in _BREAK.split(unicodedata.normalize("NFC", text)):
        if words := tuple(_plain(phrase).split()):
            yield words


def _plain(text: str) -> str:
    """Text as names are looked for in: `Tür` and `Tuer`, `TV-Bank` and `tv bank` are the same."""
    lower = unicodedata.normalize("NFC", text).casefold().translate(_UMLAUTS)
    bare = "".join(sign for sign in unicodedata.normalize("NFKD", lower) if not unicodedata.combining(sign))
    return " ".join(re.findall(r"\w+", re.sub("['’]", "", bare)))


@dataclass(frozen=True)
class _Match:
    """The words from `start` to before `end` name a kind, or (`key` empty) something that only looks like one."""

    start: int
    end: int
    key: str
    by: str


def _named(words: tuple[str, ...]) -> list[_Match]:
    """The names in a row of words, in their order; of those that overlap the longest."""
    index = _index()
    found = []
    for start in range(len(words)):
        for end in range(start + 1, min(start + index.most_words, len(words)) + 1):
            joined = "".join(words[start:end])
            if joined in index.whole:
                found.append(_Match(start, end, index.whole[joined], joined))
        word = words[start]
        ending = next((word[cut:] for cut in range(1, len(word)) if word[cut:] in index.ends), "")
        if ending:
            found.append(_Match(start, start + 1, index.ends[ending], ending))
    taken: list[_Match] = []
    for match in sorted(found, key=lambda match: (-len(match.by), match.start)):
        if all(match.end <= other.start or other.end <= match.start for other in taken):
            taken.append(match)
    return sorted((match for match in taken if match.key), key=lambda match: match.start)


# -- the names -----------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Index:
    """Names run together, with the key of the kind that each means: empty for what only looks like one."""

    whole: dict[str, str]
    ends: dict[str, str]
    most_words: int


@cache
def _index() -> _Index:
    whole: dict[str, str] = {}
    ends: dict[str, str] = {}
    most = 1

    def add(index: dict[str, str], forms: Iterator[str], key: str) -> None:
        nonlocal most
        for form in forms:
            most = max(most, len(form.split()))
            joined = form.replace(" ", "")
            if index.setdefault(joined, key) != key:
                raise TableError(
                    "kinds.csv", 1, f"{form!r} means both {index[joined] or 'nothing'} and {key}"
                )

    for kind in kinds().values():
        german = tuple(name for name in kind.aliases if name not in kind.english)
        for name in kind.english:
            add(whole, _english(_plain(name)), kind.key)
        for name in german:
            add(whole, _german(_plain(name)), kind.key)
        for name in kind.ends:
            add(ends, _german(_plain(name)), kind.key)
        for name in kind.unlike:
            marked = name.startswith(_END)
            add(ends if marked else whole, _both(_plain(name)), "")
    return _Index(whole, ends, most)


def _both(name: str) -> Iterator[str]:
    yield from dict.fromkeys((*_english(name), *_german(name)))


def _english(name: str) -> Iterator[str]:
    """A name and its plurals: `chests of drawers`, `shelves`, `benches`."""
    first, *rest = name.split()
    yield name
    if rest and rest[0] in _LINKS:
        yield from (f"{several} {' '.join(rest)}" for several in _several(first))
    else:
        *before, last = name.split()
        yield from (" ".join((*before, several)) for several in _several(last))


def _several(word: str) -> Iterator[str]:
    if word.endswith("lf"):
        yield f"{word[:-1]}ves"
    elif word.endswith("y") and word[-2:-1] not in tuple("aeiou"):
        yield f"{word[:-1]}ies"
    else:
        yield f"{word}es" if word.endswith(("s", "x", "ch", "sh")) else f"{word}s"


_GERMAN_ENDINGS = ("", "e", "en", "n", "er", "s", "es", "chen", "lein")
_TO_UMLAUT = (("au", "aeu"), ("a", "ae"), ("o", "oe"), ("u", "ue"))


def _german(name: str) -> Iterator[str]:
    """A name and what it may become: several of them, small ones, whose it is (`Stuhl`, `Stühle`, `Stühlchen`)."""
    stems = [name, name.removesuffix("e"), name.removesuffix("en")]
    for stem in dict.fromkeys(stems):
        own = ("",) if stem == name else ("chen", "lein")
        yield from (stem + ending for ending in (_GERMAN_ENDINGS if stem == name else own))
        changed = _umlaut(stem)
        if changed != stem:
            yield from (changed + ending for ending in (_GERMAN_ENDINGS if stem == name else own))


def _umlaut(name: str) -> str:
    """The name with the last vowel that can changed: `schrank` as `schraenk`."""
    last = re.search(r"(au|[aou])(?![aou])([^aeiou]*|[^aeiou]*e[nlr]?)$", name)
    if not last or name[last.start() : last.start() + 2] in ("ae", "oe", "ue"):
        return name
    vowel = last[1]
    return name[: last.start()] + dict(_TO_UMLAUT)[vowel] + name[last.start() + len(vowel) :]
