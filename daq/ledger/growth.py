"""How long the disk lasts at the pace of the last weeks on record."""

from typing import Final

from daq.ledger.reads import Reads
from daq.words import Event, Stamp

WEEKS_US: Final = 28 * 86_400_000_000
"""So far back the pace is taken from."""

LEAST_US: Final = 7 * 86_400_000_000
"""A record younger than that has no pace yet."""

SOON_DAYS: Final = 60
"""With fewer days left it is time to make room, or to get another disk."""

_DAY_US: Final = 86_400_000_000


def days_left(reads: Reads, free_bytes: int, now: Stamp) -> int | None:
    """Days until `free_bytes` are taken; None where the record or the clock does not tell.

    What was let go left room in the file, which is taken first. A clock that no time server set
    tells nothing, now or at the row the pace is taken from. Raises LedgerError.
    """
    last, size = reads.last(), reads.path.stat().st_size
    if last is None or not now.utc_trusted:
        return None
    first = _since(reads, last[0], now.utc_us - WEEKS_US)
    if first is None or not first.stamp.utc_trusted:
        return None
    span_us = now.utc_us - first.stamp.utc_us
    if span_us < LEAST_US:
        return None
    bytes_each = size / last[0]
    room_bytes = free_bytes + reads.spare_bytes()
    return int(room_bytes * span_us / ((last[0] - first.seq + 1) * bytes_each * _DAY_US))


def _since(reads: Reads, last: int, since_us: int) -> Event | None:
    """The first row of that time or later, found in a few looks: rows lie in the order of time,
    but for a clock that was set."""
    low, high = 1, last
    while low < high:
        middle = (low + high) // 2
        row = reads.event(middle)
        if row is None or row.stamp.utc_us < since_us:
            low = middle + 1
        else:
            high = middle
    return reads.event(low)
