"""When a row was written, by UTC and by the clock on the shop's wall, summer and winter.

The instants are those of the IANA time zone database for America/Chicago in 2026: daylight time
begins on 8 March at 08:00 UTC and ends on 1 November at 07:00 UTC.
"""

from dataclasses import replace
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from daq.audit.shop_papers import ShopPapers
from daq.records.whole.facts import local, utc, when, zone_of
from daq.words import Stamp
from tests.audit.conftest import Bench, setup_of
from tests.records.in_memory import Shelf
from tests.words import en

ZONE = ZoneInfo("America/Chicago")


def stamp(*of, sure=True):
    return Stamp(0, int(datetime(*of, tzinfo=UTC).timestamp()) * 1_000_000, "boot", sure)


@pytest.mark.parametrize(
    ("at", "here"),
    [
        ((2026, 3, 8, 7, 59, 59), "2026-03-08 01:59:59 CST"),
        ((2026, 3, 8, 8, 0, 0), "2026-03-08 03:00:00 CDT"),
        ((2026, 11, 1, 6, 59, 59), "2026-11-01 01:59:59 CDT"),
        ((2026, 11, 1, 7, 0, 0), "2026-11-01 01:00:00 CST"),
    ],
)
def test_the_shops_clock_is_right_on_both_sides_of_a_change(at, here):
    assert local(stamp(*at), ZONE) == here
    assert en(when(stamp(*at), ZONE)) == f"{utc(stamp(*at))} UTC, {here}"


def test_a_clock_that_was_not_set_is_said_and_an_unknown_zone_is_left_out():
    assert (
        en(when(stamp(2026, 3, 8, sure=False), None)) == "2026-03-08 00:00:00 UTC (clock not set)"
    )


@pytest.mark.parametrize(
    ("named", "key"), [("America/Chicago", "America/Chicago"), ("UTC", None), ("No/Where", None)]
)
def test_the_zone_is_that_of_the_shops_file_as_the_audit_was_opened(named, key):
    made = setup_of()
    bench = Bench(replace(made, shop=ShopPapers(time_zone=named)))
    bench.do("open", {"reason": "scheduled"})
    shelf = Shelf(bench)
    zone = zone_of(shelf.read(shelf.audits[0]))
    assert (None if zone is None else zone.key) == key
