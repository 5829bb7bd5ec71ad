"""Days until a disk is full, from what came onto the record in the last weeks."""

from dataclasses import replace

import pytest

from daq.ledger import Ledger, digest_of
from daq.ledger.growth import days_left
from daq.words import Stamp
from tests.ledger.test_let_go import says

DAY_US = 86_400_000_000
NOW = Stamp(10**15, 1_790_000_000_000_000, "boot", utc_trusted=True)


def days_ago(days, trusted=True):
    return Stamp(1, NOW.utc_us - int(days * DAY_US), "boot", trusted)


@pytest.fixture
def ledger(folder, draft):
    """One row a year ago, then ten rows of 8 kB each a day, for 28 days."""
    with Ledger.open(folder, stamp=days_ago(365)) as ledger:
        for n in range(280):
            stamp = days_ago(28 - n / 10)
            ledger.append([draft(n, stamp=stamp, data={"x": f"{n:06}" * 1300})])
        ledger._connection.pragma("wal_checkpoint(TRUNCATE)")
        yield ledger


def test_twice_the_room_lasts_twice_as_long(ledger):
    a_day = ledger.path.stat().st_size / 28
    left = days_left(ledger, int(50 * a_day), NOW)
    assert abs(left - 50) <= 1
    assert abs(days_left(ledger, int(100 * a_day), NOW) - 100) <= 1
    assert days_left(ledger, 0, NOW) == 0


def test_what_is_older_than_that_says_nothing_of_the_pace(ledger):
    later = replace(NOW, utc_us=NOW.utc_us + 14 * DAY_US)
    a_day = ledger.path.stat().st_size / 28
    assert abs(days_left(ledger, int(50 * a_day), later) - 100) <= 2, "half the rows in that time"


def test_what_was_let_go_left_room_for_as_much_again(ledger, draft):
    chunks = [f"{n:06}".encode() * 30_000 for n in range(60)]
    digests = [digest_of(chunk) for chunk in chunks]
    ledger.append([draft(1, stamp=days_ago(0), evidence=digests)], chunks)
    ledger._connection.pragma("wal_checkpoint(TRUNCATE)")
    before = days_left(ledger, 0, NOW)
    ledger.let_go(says(digests, up_to=ledger.seq), digests)
    size = sum(map(len, chunks))
    assert before == 0
    assert ledger.spare_bytes() == pytest.approx(size, rel=0.02)
    assert days_left(ledger, 0, NOW) >= days_left(ledger, size, NOW) / 2 - 1


def test_a_clock_nobody_set_says_nothing(ledger):
    assert days_left(ledger, 10**9, replace(NOW, utc_trusted=False)) is None


def test_a_record_of_a_few_days_has_no_pace_yet(folder, draft):
    with Ledger.open(folder, stamp=days_ago(3)) as ledger:
        ledger.append([draft(0, stamp=days_ago(2))])
        assert days_left(ledger, 10**9, NOW) is None


def test_nor_has_one_whose_first_row_of_that_time_has_an_unsure_date(folder, draft):
    with Ledger.open(folder, stamp=days_ago(20, trusted=False)) as ledger:
        ledger.append([draft(0, stamp=days_ago(1))])
        assert days_left(ledger, 10**9, NOW) is None
