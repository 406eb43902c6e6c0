"""Data flows one way: a module imports only from its left. And nothing is imported that is not declared."""

import ast
from pathlib import Path

import pytest

import buildbook

PACKAGE = Path(buildbook.__file__).parent
ORDER = [
    "problems",
    "limits",
    "quantity",
    "words",
    "trade",
    "job",
    "summary",
    "care",
    "estimate",
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
    "problems": set(),
    "limits": set(),
    "words": set(),
    "quantity": {"problems", "quantity"},
}
"""Parts that may import even less than the order allows."""


def part_of(path: Path) -> str:
    inside = path.relative_to(PACKAGE)
    return inside.parts[0].removesuffix(".py")


def imported_parts(path: Path) -> set[str]:
    """The parts of the package that a module imports, wherever in it the import stands."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        names = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            names = [f"{node.module}.{alias.name}" for alias in node.names]
        found |= {name.split(".")[1] for name in names if name.startswith("buildbook.")}
    return found - {"__version__"}


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
