"""Which sentences of problems the code says: read off its own text, with what the code puts together."""

from __future__ import annotations

import ast
import re
from dataclasses import dataclass, field
from functools import cache
from itertools import product
from pathlib import Path

from tests.conftest import ROOT

PACKAGE = ROOT / "buildbook"
TELLING = {
    "error": 3, "warn": 3, "QuantityError": 2, "Problem": 4, "NotRead": 2, "TooMuch": 1, "_NotOneError": 1,
    "spoken": 1, "NotTaken": 1, "BenchError": 1, "BeginError": 1, "Refused": 1, "BadSeal": 1, "_said": 1, "NotKnown": 1,
}  # fmt: skip
"""What tells a problem, and among how many arguments its sentence and its hint are."""

TO_NO_MAKER = ("buildbook.trade", "buildbook.cli.parser")
"""Rooms whose faults are of our own tables, or said by the command line before a shop is known."""

NOTED = {"assumed", "cautions", "reasons"}
"""Lists whose sentences stand below a table of the log."""

HOLE = "\0"
EACH = "each of it"
_ENOUGH = 400  # ways to put one sentence together that are looked at
_DEEP = 6  # steps from a name to what it was given


@dataclass
class Module:
    """A module of the package: its tree, what its names were given, its functions."""

    path: Path
    tree: ast.Module
    given: dict[str, list[ast.expr]] = field(default_factory=dict)
    functions: dict[str, ast.FunctionDef] = field(default_factory=dict)
    imported: dict[str, tuple[str, str]] = field(default_factory=dict)


@cache
def modules():
    """Every module by its dotted name."""
    found = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        dotted = ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
        found[dotted] = _module(path)
    return found


def _module(path):
    module = Module(path, ast.parse(path.read_text("utf-8")))
    for node in ast.walk(module.tree):
        if isinstance(node, ast.FunctionDef):
            module.functions.setdefault(node.name, node)
        elif isinstance(node, ast.ImportFrom) and node.module:
            module.imported |= {a.asname or a.name: (node.module, a.name) for a in node.names}
    return module


def _assigned(scope):
    """What names are given within a function or module."""
    given = {}
    for node in _nodes(scope):
        if isinstance(node, ast.Assign):
            for target in node.targets:
                _give(given, target, node.value)
        elif (isinstance(node, (ast.AnnAssign, ast.NamedExpr)) and node.value is not None) or isinstance(
            node, ast.AugAssign
        ):
            _give(given, node.target, node.value)
        elif isinstance(node, (ast.For, ast.comprehension)):
            _give_each(given, node.target, node.iter)
    return given


def _nodes(scope):
    """What stands in a function, or in a module outside of its functions and classes."""
    if isinstance(scope, ast.FunctionDef):
        yield from ast.walk(scope)
        return
    for statement in scope.body:
        if not isinstance(statement, (ast.FunctionDef, ast.ClassDef)):
            yield from ast.walk(statement)


def _give_each(given, target, through):
    """What a loop gives its names: the elements of a tuple that is written out, else what a function yields."""
    if isinstance(through, (ast.Tuple, ast.List)):
        for value in through.elts:
            _give(given, target, value)
    elif isinstance(through, ast.Name):
        _give(given, target, ast.Attribute(value=through, attr=EACH, ctx=ast.Load()))
    elif isinstance(through, ast.Call) and getattr(through.func, "attr", "") == "items":
        _give(given, target, ast.Attribute(value=through.func.value, attr=EACH, ctx=ast.Load()))
    else:
        _give(given, target, through)


def _give(given, target, value):
    if isinstance(target, ast.Name):
        given.setdefault(target.id, []).append(value)
    elif isinstance(target, ast.Tuple):
        if isinstance(value, ast.IfExp):
            _give(given, target, value.body)
            _give(given, target, value.orelse)
        elif isinstance(value, ast.Tuple) and len(value.elts) == len(target.elts):
            for one, its in zip(target.elts, value.elts, strict=True):
                _give(given, one, its)
        else:
            for at, one in enumerate(target.elts):
                if isinstance(one, ast.Name):
                    given.setdefault(one.id, []).append(
                        ast.Subscript(value=value, slice=ast.Constant(value=at), ctx=ast.Load())
                    )


@dataclass(frozen=True)
class Scope:
    module: str
    function: str = ""

    @property
    def given(self):
        return _given(self.module, self.function)


@cache
def _given(module, function):
    held = modules()[module]
    return _assigned(held.functions[function] if function else held.tree)


def texts(node, scope, deep=_DEEP, at=None):
    """All that an expression may say, with a hole for what is filled in; `at` picks out of a tuple."""
    if deep < 0:
        return {HOLE}
    if isinstance(node, ast.Tuple) and at is not None:
        return texts(node.elts[at], scope, deep) if at < len(node.elts) else {HOLE}
    if isinstance(node, ast.Constant):
        return {node.value} if isinstance(node.value, str) else {HOLE}
    if isinstance(node, ast.JoinedStr):
        return _of_pieces(
            [v.value if isinstance(v, ast.FormattedValue) else v for v in node.values], scope, deep
        )
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        return _joined([texts(node.left, scope, deep), texts(node.right, scope, deep)])
    if isinstance(node, ast.IfExp):
        return texts(node.body, scope, deep, at) | texts(node.orelse, scope, deep, at)
    if isinstance(node, ast.BoolOp):
        return set().union(*(texts(value, scope, deep, at) for value in node.values))
    if isinstance(node, ast.Subscript):
        if isinstance(node.slice, ast.Constant) and isinstance(node.slice.value, int):
            return texts(node.value, scope, deep, node.slice.value)
        return _of_dict(node.value, scope, deep)
    if isinstance(node, ast.Dict):
        return set().union(*(texts(value, scope, deep, at) for value in node.values)) or {HOLE}
    if isinstance(node, ast.Attribute) and node.attr == EACH:
        return _of_each(node.value, scope, deep, at)
    if isinstance(node, ast.Name):
        return _of_name(node.id, scope, deep, at)
    if isinstance(node, ast.Call):
        return _of_call(node, scope, deep, at)
    return {HOLE}


def _of_pieces(pieces, scope, deep):
    """What an f-string may say; those of its choices that hang on one test go together."""
    tests = sorted({ast.unparse(piece.test) for piece in pieces if isinstance(piece, ast.IfExp)})
    found = set()
    for held in product((True, False), repeat=len(tests)):
        so = dict(zip(tests, held, strict=True))
        chosen = [
            (piece.body if so[ast.unparse(piece.test)] else piece.orelse)
            if isinstance(piece, ast.IfExp)
            else piece
            for piece in pieces
        ]
        found |= _joined([texts(piece, scope, deep - 1) for piece in chosen])
    return found


def _joined(parts):
    ways = 1
    for part in parts:
        ways *= len(part)
    if ways > _ENOUGH:
        parts = [{HOLE} if len(part) > 3 else part for part in parts]
    return {"".join(chosen) for chosen in product(*parts)}


def _of_name(name, scope, deep, at):
    for where in (scope, Scope(scope.module)):
        if name in where.given:
            return set().union(*(texts(v, where, deep - 1, at) for v in where.given[name]))
    module, original = modules()[scope.module].imported.get(name, ("", ""))
    if module in modules() and original in _given(module, ""):
        return set().union(*(texts(v, Scope(module), deep - 1, at) for v in _given(module, "")[original]))
    return {HOLE}


def _of_each(node, scope, deep, at):
    """The elements of a tuple, or the pairs of a table, that has a name."""
    module = scope.module
    if not isinstance(node, ast.Name):
        return {HOLE}
    held = scope.given.get(node.id) or _given(module, "").get(node.id, [])
    found = set()
    for value in held:
        if isinstance(value, (ast.Tuple, ast.List)):
            found |= set().union(*(texts(element, scope, deep - 1, at) for element in value.elts))
        elif isinstance(value, ast.Dict) and at is not None:
            one = value.values if at else value.keys
            found |= set().union(*(texts(element, scope, deep - 1) for element in one if element is not None))
    return found or {HOLE}


def _of_dict(node, scope, deep):
    if isinstance(node, ast.Name):
        return _of_name(node.id, scope, deep, None)
    return texts(node, scope, deep - 1) if isinstance(node, ast.Dict) else {HOLE}


def _of_call(node, scope, deep, at):
    func, held = node.func, modules()[scope.module]
    if isinstance(func, ast.Attribute):
        if func.attr == "get" and node.args:
            rest = texts(node.args[1], scope, deep, at) if len(node.args) > 1 else set()
            return _of_dict(func.value, scope, deep) | rest
        if func.attr == "split" and at == 0:
            return {text.split(node.args[0].value)[0] for text in texts(func.value, scope, deep)}
        if isinstance(func.value, ast.Name):
            above, name = held.imported.get(func.value.id, ("", ""))
            if f"{above}.{name}" in modules():
                return _returned(f"{above}.{name}", func.attr, deep, at)
        if func.attr in ("capitalize", "strip", "rstrip", "removesuffix"):
            return texts(func.value, scope, deep)
        if isinstance(func.value, ast.Name) and func.value.id == "self":
            return _returned(scope.module, func.attr, deep, at)
        return {HOLE}
    if not isinstance(func, ast.Name):
        return {HOLE}
    if func.id in held.functions:
        return _returned(scope.module, func.id, deep, at)
    module, original = held.imported.get(func.id, ("", ""))
    if module in modules() and original in modules()[module].functions:
        return _returned(module, original, deep, at)
    return {HOLE}


def _returned(module, function, deep, at):
    if function in AS_IT_IS or function not in modules()[module].functions:
        return {HOLE}
    made = modules()[module].functions[function]
    found = set()
    for node in ast.walk(made):
        if isinstance(node, (ast.Return, ast.Yield)) and node.value is not None:
            found |= texts(node.value, Scope(module, function), deep - 1, at)
    return found or {HOLE}


AS_IT_IS = {
    "shown", "listed", "did_you_mean", "nearest", "as_text", "job_name", "named", "_letter", "_written", "_figures",
    "column_letter", "line",
}  # fmt: skip
"""Functions that put what a maker wrote into a sentence."""


@cache
def said():
    """Every sentence that a problem of this package may have, with the places that tell it."""
    found = {}
    for dotted, module in modules().items():
        for function, node in _calls(module.tree):
            name = getattr(node.func, "attr", getattr(node.func, "id", ""))
            if _is_noted(node):
                for text in texts(node.args[0], Scope(dotted, function)):
                    if re.search("[a-z]{3}", text):
                        found.setdefault(text, set()).add(f"{dotted}:{node.lineno}")
            if name not in TELLING or (dotted.startswith(TO_NO_MAKER) and name != "NotKnown"):
                continue
            where = Scope(dotted, function)
            told = [
                *node.args[: TELLING[name]],
                *(k.value for k in node.keywords if k.arg in ("message", "hint")),
            ]
            starred = [arg.value for arg in told if isinstance(arg, ast.Starred)]
            for arg, at in [(arg, None) for arg in told] + [(arg, at) for arg in starred for at in (0, 1)]:
                for text in texts(arg, where, at=at):
                    if " " in text:
                        found.setdefault(text, set()).add(f"{dotted}:{node.lineno}")
        for function in module.functions:
            for text in _assumed(Scope(dotted, function)):
                found.setdefault(text, set()).add(f"{dotted}:{function}")
    return found


def _assumed(scope):
    """Sentences that a name of what was assumed is given, such as `assumed = "no load is told"`."""
    values = [value for name in NOTED for value in scope.given.get(name, ())]
    written = [value for value in values if isinstance(value, (ast.Constant, ast.JoinedStr, ast.IfExp))]
    found = set().union(*(texts(value, scope) for value in written))
    return {text for text in found if re.search("[a-z]{3} ", text)}


def _is_noted(node):
    """Whether a call adds a sentence to what was assumed."""
    of = getattr(getattr(node.func, "value", None), "id", "")
    return of in NOTED and node.func.attr == "append"


def _calls(tree):
    """Each call with the function that it stands in."""

    def walk(node, function):
        for child in ast.iter_child_nodes(node):
            inner = child.name if isinstance(child, ast.FunctionDef) else function
            if isinstance(child, ast.Call):
                yield inner, child
            yield from walk(child, inner)

    return list(walk(tree, ""))
