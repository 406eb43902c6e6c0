"""What the help of each command shows to be typed, and what some words that are no command mean.

The examples are those of one job on one shelf, so that they read as one story.
"""

from __future__ import annotations

from collections.abc import Mapping

EXAMPLES: Mapping[str, tuple[str, ...]] = {
    "begin": (
        "buildbook begin 2026-015-hall-bench --piece bench --wood ash --units mm",
        'buildbook begin 2026-016-longer --like 2026-015-hall-bench --size "width 1800"',
    ),
    "proof": (
        "buildbook proof 2026-015-hall-bench",
        "buildbook proof my-shelf --json",
    ),
    "bind": (
        "buildbook bind 2026-015-hall-bench",
        "buildbook bind my-shelf --to my-book --why",
    ),
    "estimate": (
        "buildbook estimate asked/linen-press --from my-shelf",
        "buildbook estimate asked/linen-press --from my-shelf --on 2026-03-02",
    ),
    "handover": (
        "buildbook handover 2026-015-hall-bench",
        "buildbook handover 2026-015-hall-bench --to packed",
    ),
    "verify": (
        "buildbook verify 2026-015-hall-bench-handover.zip",
        "buildbook verify book/handover/2026-015-hall-bench --json",
    ),
    "find": (
        "buildbook find walnut glass --in my-shelf",
        "buildbook find '\"secret drawer\"' 1200 mm",
    ),
    "bench": (
        "buildbook bench 2026-015-hall-bench",
        "buildbook bench my-shelf --to my-book --port 8600",
    ),
    "keys": (
        "buildbook keys shellac",
        "buildbook keys opening --json",
    ),
    "completion": (
        "buildbook completion bash > ~/.local/share/bash-completion/completions/buildbook",
        "buildbook completion fish > ~/.config/fish/completions/buildbook.fish",
    ),
}

MEANT: Mapping[str, str] = {
    "new": "begin",
    "start": "begin",
    "check": "proof",
    "read": "proof",
    "make": "bind",
    "watch": "bench",
    "show": "bench",
    "quote": "estimate",
    "price": "estimate",
    "pack": "handover",
    "send": "handover",
    "search": "find",
    "columns": "keys",
    "woods": "keys",
}
"""Words of daily speech, and the command that they mean where no command is spelt like them."""
