"""The names of the files of a handover: those that we make, and therefore the only ones that it may hold."""

from __future__ import annotations

from buildbook.book.disk.write import SEAL
from buildbook.render.copies import COPY_NAME

PAGE, CARD, BOOKLET = "index.html", "care-card.pdf", "care-booklet.pdf"
CALENDAR, RECORD = "care.ics", "piece.jsonld"
PHOTOS = "photos"

PRINTS = frozenset({CARD, BOOKLET})
"""What is printed: it shows the record's fingerprint, which is therefore made without it."""

ALWAYS = frozenset({PAGE, CARD, BOOKLET, CALENDAR, RECORD, SEAL})
"""What lies in every handover; the rest are pictures."""

_SHOWN = 60  # signs of a name that somebody made up, enough to know it by


def is_ours(name: str) -> bool:
    """Whether a handover holds files of this name (`photos/` and all)."""
    folder, _, picture = name.partition("/")
    return name in ALWAYS or (folder == PHOTOS and COPY_NAME.fullmatch(picture) is not None)


def shown(name: str) -> str:
    """A name that anyone may have made up, as it can be printed: no control characters, not endless."""
    safe = "".join(
        sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in name[: _SHOWN + 1]
    )
    return safe if len(safe) <= _SHOWN else f"{safe[:_SHOWN]}…"
