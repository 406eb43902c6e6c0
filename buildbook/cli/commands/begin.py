"""Lays out a new job folder."""

from __future__ import annotations

import argparse

from buildbook.cli.terminal import err, out
from buildbook.job.begin import BeginError, begin


def run(options: argparse.Namespace) -> int:
    try:
        made = begin(options.folder)
    except BeginError as error:
        err(f"error: {error}")
        return 1
    out(f"{options.folder} is laid out: {', '.join(made)}.")
    out(f"Fill in job.toml, put pictures into photos/, and try: buildbook proof {options.folder}")
    return 0
