"""The day on which a video was made, by its own data: its local time where it says that, else by world time.

Telephones write world time (UTC) alone, and an evening at the bench may be the next day there. Which day it was says
the country of the shop, if all of its zones agree; where they do not, the day counts on which it was nearer to noon in
one of them, since nobody works at two in the morning. The clock of this machine has no part in it.
"""

from __future__ import annotations

from datetime import datetime, time, timedelta
from functools import cache
from importlib import resources
from zoneinfo import ZoneInfo

from buildbook.job.believable import believable
from buildbook.job.photo_model import DayFrom

_BELIEVABLE = "day of a photo"
_ZONES = "tzdata.zoneinfo"  # of the package: those of the machine may be others
_TABLE = "zone1970.tab"
_WHOLE_DAY = len("2026-03-16")
_NOON_MINUTES = 12 * 60


def day_made(made: str, country: str) -> tuple[datetime | None, bool, DayFrom]:
    """When it was made, whether the time of day is known, and who says it, as `headers.moment`.

    made     ISO 8601; with `Z` or an offset of nought it is world time, with another offset or none local
    country  ISO 3166 code, empty where it is not known
    """
    try:
        said = datetime.fromisoformat(made.strip()) if len(made.strip()) >= _WHOLE_DAY else None
    except ValueError:
        return None, True, ""
    if said is None or not believable(_BELIEVABLE).holds(said.date()):
        return None, True, ""
    timed = len(made.strip()) > _WHOLE_DAY
    if said.utcoffset() != timedelta():
        return (
            (said.replace(tzinfo=None) if timed else datetime.combine(said.date(), time())),
            timed,
            "camera",
        )
    local = [said.astimezone(zone).replace(tzinfo=None) for zone in zones_of(country)]
    if not local:
        return datetime.combine(said.date(), time()), False, "utc"
    if len(set(local)) == 1:
        return local[0], True, "camera"
    likely = min(local, key=lambda at: (abs(at.hour * 60 + at.minute - _NOON_MINUTES), at))
    sure = len({at.date() for at in local}) == 1
    return datetime.combine(likely.date(), time()), False, "camera" if sure else "utc"


@cache
def zones_of(country: str) -> tuple[ZoneInfo, ...]:
    """The time zones of a country; none for a country that is not known."""
    folder = resources.files(_ZONES)
    rows = [line.split("\t") for line in folder.joinpath(_TABLE).read_text("utf-8").splitlines()]
    names = [row[2] for row in rows if not row[0].startswith("#") and country in row[0].split(",")]
    zones = []
    for name in names:
        with folder.joinpath(*name.split("/")).open("rb") as file:
            zones.append(ZoneInfo.from_file(file, name))
    return tuple(zones)
