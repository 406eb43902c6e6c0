"""On which day a video was made: zones worked out by hand from their offsets, not by the code."""

from datetime import datetime

import pytest

from buildbook.job.photos.film_day import day_made, zones_of


@pytest.mark.parametrize(
    ("made", "country", "taken", "timed", "by"),
    [
        # local time with its offset, as telephones that know it write it
        ("2026-03-17T00:30:00+0100", "", "2026-03-17 00:30", True, "camera"),
        ("2026-03-16T21:15:00-0700", "DE", "2026-03-16 21:15", True, "camera"),
        ("2026-03-16 14:22:33", "US", "2026-03-16 14:22:33", True, "camera"),
        # world time: half past eleven at night in London is past midnight in Berlin, in summer by two hours
        ("2026-03-16T23:30:00.000000Z", "GB", "2026-03-16 23:30", True, "camera"),
        ("2026-03-16T23:30:00.000000Z", "DE", "2026-03-17 00:30", True, "camera"),
        ("2026-07-16T22:30:00Z", "DE", "2026-07-17 00:30", True, "camera"),
        ("2026-07-16T21:30:00Z", "DE", "2026-07-16 23:30", True, "camera"),
        ("2026-01-01T00:10:00Z", "BR", "2025-12-31", False, "camera"),  # three or more hours behind, on two days of UTC
        # several zones, one day: an evening between New York (21:00) and Honolulu (15:00); both New Zealands
        ("2026-03-17T01:00:00Z", "US", "2026-03-16", False, "camera"),
        ("2026-03-16T11:30:00Z", "NZ", "2026-03-17", False, "camera"),
        # several days: 02:30 in New York, 20:30 in Honolulu; 04:00 and 22:00 with Chicago at 03:00
        ("2026-03-17T06:30:00Z", "US", "2026-03-16", False, "utc"),
        ("2026-03-17T09:30:00Z", "US", "2026-03-17", False, "utc"),
        # nobody knows where
        ("2026-03-16T23:30:00Z", "", "2026-03-16", False, "utc"),
        ("2026-03-16T23:30:00Z", "XX", "2026-03-16", False, "utc"),
        ("2026-03-16", "DE", "2026-03-16", False, "camera"),
    ],
)  # fmt: skip
def test_world_time_becomes_a_day_at_the_bench(made, country, taken, timed, by):
    assert day_made(made, country) == (datetime.fromisoformat(taken), timed, by)


@pytest.mark.parametrize(
    "made",
    ["", "2026", "yesterday", "1904-01-01T00:00:00Z", "1970-01-01T00:00:00Z", "2026-02-30T10:00:00Z", "٢٠٢٦-٠٣-١٦",
     "9999-12-31T23:59:59Z", "0001-01-01T00:00:00+14:00", "2026-03-16T25:00:00Z", "Z" * 40],
)  # fmt: skip
@pytest.mark.parametrize("country", ["", "NZ", "US"])
def test_what_is_no_day_of_a_camera_is_none(made, country):
    assert day_made(made, country) == (None, True, "")


def test_a_day_at_the_end_of_time_is_read_too():
    assert day_made("2099-12-31T23:59:59Z", "NZ")[0] is not None


def test_the_zones_are_those_of_the_library():
    assert "Europe/Berlin" in [zone.key for zone in zones_of("DE")]
    assert "America/New_York" in [zone.key for zone in zones_of("US")]
