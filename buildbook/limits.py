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

PICTURE_BYTES = 1_000_000_000
"""One picture file: as many points with 16 bits a colour, not compressed."""

LEFT_BYTES = 64_000_000
"""A list or a record that a binding left in a book, read again by the next: a job of some million words."""

INDEX_BYTES = 250_000_000
"""The index of a book: some hundred thousand jobs."""

# -- a handover that `verify` is asked about: made by anyone

HANDOVER_BYTES = 500_000_000
"""All files of a handover together: some 500 pictures in every size."""

HANDED_FILE_BYTES = 200_000_000
"""One file of a handover; the booklet with 500 pictures has half of that."""

PAGE_BYTES = 16_000_000
"""The client's page without its pictures: a hundred times what is usual."""

SEAL_BYTES = 2_000_000
"""seal.json: some 15,000 lines."""

HANDOVER_FILES = 5_000
"""Files, folders and strangers in a handover."""

NAME_BYTES = 500
"""A name in an archive: what the disks in use take for one folder, and our longest name in it."""

ARCHIVE_LINE_BYTES = 2_000
"""What the directory of an archive says of one file, on average."""

UNPACKED_TIMES = 50
"""How many times larger than its archive a handover may be; text packs to a tenth, pictures and prints hardly."""
PASSAGE_LEVELS = 8
"""Lists and quotes within one another in a passage for the client: there is no width left on a page of A5 beyond."""

PASSAGE_EMPHASIS = 16
"""Emphasis and links within one another."""
