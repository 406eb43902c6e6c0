"""Prints what lets a shell complete commands, options and folders."""

from __future__ import annotations

import argparse

from buildbook.cli.completing import script
from buildbook.cli.terminal import out


def run(options: argparse.Namespace) -> int:
    out(*script(options.shell).splitlines())
    return 0
