"""Every sum and every constant of the trade is called for by a page or a command: what nobody asks for is no part of it."""

import ast
import re
from collections import Counter
from pathlib import Path

import buildbook
from buildbook.trade import tables

PACKAGE = Path(buildbook.__file__).parent
MODULES = {path: ast.parse(path.read_text("utf-8")) for path in PACKAGE.rglob("*.py")}
STRINGS = [
    node.value
    for tree in MODULES.values()
    for node in ast.walk(tree)
    if isinstance(node, ast.Constant) and isinstance(node.value, str)
]


def names_used():
    """How often each name is read anywhere in the package; its own definition is not a use."""
    used = Counter()
    for tree in MODULES.values():
        for node in ast.walk(tree):
            if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
                used[node.id] += 1
            elif isinstance(node, ast.Attribute):
                used[node.attr] += 1
    return used


def test_every_function_and_record_of_the_trade_is_used():
    used = names_used()
    idle = [
        f"{path.name}: {node.name}"
        for path, tree in MODULES.items()
        if path.parent.name == "trade"
        for node in tree.body
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not used[node.name]
    ]
    assert idle == []


def test_every_constant_is_used():
    """By its whole name, or by one made of a beginning and an ending (`emc_k1` and `_t0`)."""
    whole = set(STRINGS)
    made = [
        re.compile(
            "".join(".+" if isinstance(v, ast.FormattedValue) else re.escape(v.value) for v in node.values)
        )
        for tree in MODULES.values()
        for node in ast.walk(tree)
        if isinstance(node, ast.JoinedStr)
        and any(isinstance(v, ast.Constant) and v.value for v in node.values)
    ]
    patterns = [
        pattern for pattern in made if re.search("[a-z]{2}", pattern.pattern) or pattern.pattern == ".+_t.+"
    ]
    begun = {text for text in whole if re.fullmatch(r"[a-z0-9]+(_[a-z0-9]+)+", text)}
    idle = [
        key
        for key in tables.constants()
        if key not in whole
        and not any(pattern.fullmatch(key) for pattern in patterns)
        and not any(key.startswith(f"{text}_") for text in begun)
    ]
    assert idle == []
