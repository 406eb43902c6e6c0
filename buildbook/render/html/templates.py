"""Templates of themes: found in their folders, strict, sandboxed, each compiled once for what it holds."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from types import CodeType

from jinja2 import (
    BytecodeCache,
    ChoiceLoader,
    Environment,
    FileSystemLoader,
    PrefixLoader,
    StrictUndefined,
)
from jinja2.bccache import Bucket
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup, escape

from buildbook.quantity.figures import figure

FRACTION_SLASH = "⁄"
_FRACTION = re.compile(rf"(\d+){FRACTION_SLASH}(\d+)")


class _Compiled(BytecodeCache):
    """What templates were compiled to, by their content: a process that binds again compiles only what has changed."""

    def __init__(self) -> None:
        self._last: dict[str, tuple[str, CodeType]] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        checksum, code = self._last.get(bucket.key, ("", None))
        bucket.code = code if checksum == bucket.checksum else None

    def dump_bytecode(self, bucket: Bucket) -> None:
        if bucket.code is not None:
            self._last[bucket.key] = bucket.checksum, bucket.code


_COMPILED = _Compiled()


@cache
def templates_in(folders: tuple[Path, ...]) -> Environment:
    """The templates of a theme whose files lie in these folders, the nearest first."""
    return ImmutableSandboxedEnvironment(
        loader=ChoiceLoader(
            [
                FileSystemLoader(folders),
                PrefixLoader(
                    {folder.name: FileSystemLoader(folders[i:]) for i, folder in enumerate(folders)}
                ),
            ]
        ),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        finalize=_shown,
        bytecode_cache=_COMPILED,
    )


def forget_templates() -> None:
    """Have templates read again: of one that was read, only the time of its file is looked at. One that is as it was is
    not compiled again.
    """
    templates_in.cache_clear()


def _shown(value: object) -> object:
    """Floats as figures; fractions that have no sign of their own, set as fractions: no quotes, so that an attribute
    stays whole.
    """
    if isinstance(value, float):
        return figure(value)
    if not isinstance(value, str) or isinstance(value, Markup) or FRACTION_SLASH not in value:
        return value
    return Markup(_FRACTION.sub(r"<sup>\1</sup>⁄<sub>\2</sub>", str(escape(value))))
