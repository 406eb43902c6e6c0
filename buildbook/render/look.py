"""What a theme says of itself in theme.toml beside the ground of its pages: `[sizes]` of pictures and `[print]`.

The theme that the others come after names every token with its usual value; one that comes after it names those that
differ. A token that is not there, or of another kind, is a fault that is said, since it would have no effect.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from buildbook.problems import listed

_COLOUR = re.compile(r"#[0-9a-fA-F]{6}")
_COLOURS = frozenset({"print.ink", "print.pencil", "print.hair"})
_WEIGHTS = ("regular", "medium", "semibold", "bold")
_CHOICES = {
    "print.figures": ("old-style", "lining"),
    "print.head_weight": _WEIGHTS,
    "print.label_weight": _WEIGHTS,
    "print.head_style": ("normal", "italic"),
}
_TABLES = ("sizes", "print")


@dataclass(frozen=True)
class Look:
    """How a print looks: tokens by name (faces, colours as hex, sizes in points), and where the theme's fonts are."""

    tokens: Mapping[str, Any] = field(default_factory=dict)
    fonts: tuple[Path, ...] = ()

    @property
    def faces(self) -> tuple[str, ...]:
        return tuple(self.tokens[name] for name in ("reading", "labels") if name in self.tokens)


def look_of(said: Sequence[Mapping[str, Any]], folders: Sequence[Path]) -> tuple[Mapping[str, str], Look]:
    """The sizes of pictures and the look of the prints, of theme.toml as it was read in each of `folders`, the nearest
    first. Raises `ValueError` with the token and what is wrong with it.
    """
    base = {name: said[-1].get(name, {}) for name in _TABLES}
    tables = {name: dict(base[name]) for name in _TABLES}
    for facts in reversed(said):
        for name in _TABLES:
            tables[name] = _joined(tables[name], facts.get(name, {}), base[name], name)
    fonts = tuple(folder / "fonts" for folder in folders if (folder / "fonts").is_dir())
    return tables["sizes"], Look(tables["print"], fonts)


def _joined(known: Mapping[str, Any], said: Any, base: Mapping[str, Any], place: str) -> dict[str, Any]:
    if not isinstance(said, Mapping):
        raise ValueError(f"[{place}] has to be a table")
    out = dict(known)
    for name, value in said.items():
        token = f"{place}.{name}"
        if name not in base:
            raise ValueError(f"[{place}] has no “{name}”; it has {listed(sorted(base)) or 'nothing'}")
        if isinstance(base[name], Mapping):
            out[name] = _joined(known[name], value, base[name], token)
        else:
            out[name] = _checked(value, base[name], token)
    return out


def _checked(value: Any, usual: Any, token: str) -> Any:
    """A value of the kind that the usual one has; whole numbers stand for numbers."""
    if isinstance(usual, float) and isinstance(value, int) and not isinstance(value, bool):
        value = float(value)
    if isinstance(usual, list) and isinstance(value, list) and value:
        return [_checked(one, usual[0], token) for one in value]
    if type(value) is not type(usual):
        raise ValueError(f"{token}: “{value}” is not of the kind of “{usual}”")
    if isinstance(value, float) and not 0 <= value <= _LARGEST_PT:
        raise ValueError(f"{token}: “{value}” is no size in points up to {_LARGEST_PT}")
    if token in _COLOURS and not _COLOUR.fullmatch(value):
        raise ValueError(f"{token}: “{value}” is no colour like #1b1b1a")
    if value not in _CHOICES.get(token, (value,)):
        raise ValueError(f"{token}: “{value}” is none of {listed(_CHOICES[token])}")
    return value


_LARGEST_PT = 100


__all__ = ["Look", "look_of"]
