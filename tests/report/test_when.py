"""Moments on paper, by the rules of the IANA time zone database.

Central European summer time begins and ends at 01:00 UTC on the last Sundays of March and October
(directive 2000/84/EC); Nepal is 5 h 45 min ahead of UTC all year (tz database, Asia/Kathmandu).
"""

from datetime import UTC, datetime

import pytest

from daq.report.when import when
from daq.words import Stamp


def stamp(utc):
    moment = datetime.fromisoformat(utc).replace(tzinfo=UTC)
    return Stamp(0, int(moment.timestamp()) * 1_000_000 + 999_999, "boot", True)


@pytest.mark.parametrize(
    ("zone", "utc", "there"),
    [
        ("Europe/Berlin", "2026-03-29T00:59:59", "2026-03-29T01:59:59+01:00"),
        ("Europe/Berlin", "2026-03-29T01:00:00", "2026-03-29T03:00:00+02:00"),
        ("Europe/Berlin", "2026-10-25T00:30:00", "2026-10-25T02:30:00+02:00"),
        ("Europe/Berlin", "2026-10-25T01:30:00", "2026-10-25T02:30:00+01:00"),
        ("Asia/Kathmandu", "2026-06-01T18:20:00", "2026-06-02T00:05:00+05:45"),
        ("America/Chicago", "2026-11-01T07:00:00", "2026-11-01T01:00:00-06:00"),
        ("UTC", "2026-06-01T12:00:00", "2026-06-01T12:00:00+00:00"),
        ("Nowhere/At-all", "2026-06-01T12:00:00", "2026-06-01T12:00:00+00:00"),
        ("../../etc/passwd", "2026-06-01T12:00:00", "2026-06-01T12:00:00+00:00"),
        ("", "2026-06-01T12:00:00", "2026-06-01T12:00:00+00:00"),
    ],
)
def test_a_moment_is_that_of_the_shops_zone(zone, utc, there):
    assert when(zone).at(stamp(utc)) == there


def test_a_zone_unknown_here_is_not_named():
    assert when("Nowhere/At-all").zone == "UTC"
