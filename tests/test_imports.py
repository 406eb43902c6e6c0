"""Data flows one way: a module imports only from its left. And nothing is imported that is not declared."""

import ast
from collections import Counter
from pathlib import Path

import pytest

import buildbook

PACKAGE = Path(buildbook.__file__).parent
ORDER = [
    "problems",
    "limits",
    "folding",
    "quantity",
    "words",
    "trade",
    "signs",
    "job",
    "summary",
    "care",
    "estimate",
    "resized",
    "find",
    "left",
    "pages",
    "render",
    "book",
    "bench",
    "cli",
]
"""From left to right; a name is a module or a folder of them."""

ALONE = {
    "trade": {"trade"},
    "signs": {"words", "trade", "signs"},
    "problems": set(),
    "limits": set(),
    "folding": set(),
    "quantity": {"problems", "quantity"},
    "words": {"problems", "words"},
}
"""Parts that may import even less than the order allows."""


def part_of(path: Path) -> str:
    inside = path.relative_to(PACKAGE)
    return inside.parts[0].removesuffix(".py")


def imported_names(path: Path) -> set[str]:
    """What a module imports of the package, with its dots, wherever in it the import stands."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return {name for name in found if name.startswith("buildbook.")} - {"buildbook.__version__"}


def imported_parts(path: Path) -> set[str]:
    return {name.split(".")[1] for name in imported_names(path)}


def imported_files(path: Path) -> set[Path]:
    """The modules of the package that a module imports."""
    found = set()
    for name in imported_names(path):
        stem = PACKAGE.joinpath(*name.split(".")[1:])
        ways = (
            stem.with_suffix(".py"),
            stem / "__init__.py",
            stem.parent.with_suffix(".py"),
            stem.parent / "__init__.py",
        )
        found.add(next(way for way in ways if way.is_file()))
    return found


MODULES = sorted(
    p for p in PACKAGE.rglob("*.py") if p.parent != PACKAGE or p.stem not in ("__init__", "__main__")
)


def test_every_part_has_its_place_in_the_order():
    assert {part_of(path) for path in MODULES} == set(ORDER)


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(PACKAGE)))
def test_a_module_imports_only_from_its_left(path):
    own = part_of(path)
    allowed = ALONE.get(own, set(ORDER[: ORDER.index(own) + 1]))
    assert imported_parts(path) - {own} <= allowed


# -- inside the pages ------------------------------------------------------------------------------

PAGES = PACKAGE / "pages"
READERS = ("client", "letter", "log", "worksheet", "past", "sheet")
"""A folder a reader; what several are made of alike is `drawn`, or stands in `pages` itself."""

LEAVE = ("client", "letter")
"""What leaves the shop."""


def room_of(path: Path) -> str:
    """The folder of `pages` that a module is in; empty for one that serves them all."""
    inside = path.relative_to(PAGES)
    return inside.parts[0] if len(inside.parts) > 1 else ""


def reached(path: Path) -> set[Path]:
    """A module, and all that is loaded with it."""
    found, ahead = set(), [path]
    while ahead:
        here = ahead.pop()
        if here not in found:
            found.add(here)
            ahead += imported_files(here)
    return found


def test_the_pages_have_a_room_for_each_reader():
    rooms = {room_of(path) for path in MODULES if part_of(path) == "pages"}
    assert rooms == {"", "drawn", *READERS}


@pytest.mark.parametrize(
    "path", [p for p in MODULES if part_of(p) == "pages"], ids=lambda p: str(p.relative_to(PAGES))
)
def test_a_page_takes_only_from_what_serves_all_and_from_its_own_room(path):
    own = room_of(path)
    allowed = {"": {""}, "drawn": {"", "drawn"}}.get(own, {"", "drawn", own})
    rooms = {room_of(file) for file in imported_files(path) if file.is_relative_to(PAGES)}
    assert rooms <= allowed
    assert own == "past" or "left" not in imported_parts(path)


@pytest.mark.parametrize("room", LEAVE)
def test_nothing_private_is_even_loaded_with_what_leaves_the_shop(room):
    """Followed through every import: no page of the maker's, and no record of past work."""
    for path in (PAGES / room).rglob("*.py"):
        loaded = reached(path)
        assert {room_of(file) for file in loaded if file.is_relative_to(PAGES)} <= {"", "drawn", room}
        assert [file for file in loaded if part_of(file) in ("left", "find")] == []


def test_the_wall_would_be_seen_to_be_broken():
    """The log reaches what it is made of: imports are really followed."""
    assert PAGES / "ledger.py" in reached(PAGES / "log" / "build_log.py")
    assert PACKAGE / "left" / "model.py" in reached(PAGES / "past" / "years.py")


# -- files -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "path", [p for p in MODULES if part_of(p) in ("trade", "summary", "care", "left", "pages")], ids=str
)
def test_computing_parts_open_no_files_of_a_job(path):
    text = path.read_text("utf-8")
    assert "open(" not in text
    assert ".write_" not in text


def test_modules_stay_readable():
    long = {
        str(p.relative_to(PACKAGE)): n for p in MODULES if (n := len(p.read_text("utf-8").splitlines())) > 400
    }
    assert long == {}


# -- names -----------------------------------------------------------------------------------------

TWO_MEANINGS = {"Picture", "Table"}
"""A picture that a note names and one that a page shows; a table of job.toml and one of the trade."""


def test_a_class_name_means_one_thing():
    named = Counter(
        node.name
        for path in PACKAGE.rglob("*.py")
        for node in ast.parse(path.read_text("utf-8")).body
        if isinstance(node, ast.ClassDef)
    )
    assert {name for name, times in named.items() if times > 1} == TWO_MEANINGS
