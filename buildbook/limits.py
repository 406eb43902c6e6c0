"""How much of anything is read: generous to any real shop, and an end to what was made to stop us.

Each limit is told as a problem where it is met; none cuts anything off silently. Sizes in bytes unless the name says
otherwise. The believable ranges of single numbers and dates stand with their keys, not here.
"""

from __future__ import annotations

TABLE_BYTES = 8_000_000
"""parts.csv or prices.csv: some 100,000 rows."""

NOTE_BYTES = 2_000_000
"""One file of notes: a long novel."""

TOML_BYTES = 1_000_000
"""job.toml or shop.toml."""

RECORD_BYTES = 8_000_000
"""estimate.json and its like, in a job folder."""

PICTURE_POINTS = 150_000_000
"""Points of one picture: the largest cameras have two thirds of that."""
