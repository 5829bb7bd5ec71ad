"""The ring gives back what it was given, and says when it no longer can."""

import threading

import pytest

from daq.gauges.ring import Ring
from daq.words import Sample


def sample(n, run="a"):
    return Sample("dial", run, n, n * 10, f"{n}", "mm", float(n), (), b"")


def filled(capacity, count):
    ring = Ring(capacity)
    for n in range(count):
        ring.append(sample(n))
    return ring


def test_an_empty_ring():
    ring = Ring(4)
    assert ring.latest() is None
    assert ring.since(None, 0).samples == ()
    assert not ring.since(None, 0).missed


def test_latest():
    for count in range(1, 12):
        assert filled(4, count).latest() == sample(count - 1)


def test_since_takes_in_the_moment_itself():
    ring = filled(8, 5)
    assert ring.since(None, 20).samples == (sample(2), sample(3), sample(4))
    assert ring.since(None, 21).samples == (sample(3), sample(4))
    assert ring.since(None, 41).samples == ()


@pytest.mark.parametrize("count", range(4, 15))
def test_overrun_is_reported_and_all_that_is_left_given(count):
    got = filled(4, count).since(None, 0)
    assert got.missed == (count > 4)
    assert got.samples == tuple(sample(n) for n in range(count - 4, count))


def test_overrun_of_what_was_not_asked_for_is_not_reported():
    ring = filled(4, 10)
    assert not ring.since(None, 65).missed
    assert ring.since(None, 60).missed  # sample 5 is gone: whether it was wanted is unknown
    assert ring.since(None, 70).samples == (sample(7), sample(8), sample(9))


def test_since_one_run():
    ring = Ring(8)
    for n, run in enumerate("aabba"):
        ring.append(sample(n, run))
    assert ring.since("b", 0).samples == (sample(2, "b"), sample(3, "b"))
    assert ring.since("a", 10).samples == (sample(1), sample(4))
    assert ring.since("c", 0).samples == ()


def test_looking_while_it_is_written_never_mixes_old_and_new():
    ring = Ring(16)
    done = threading.Event()

    def write():
        for n in range(30_000):
            ring.append(sample(n))
        done.set()

    writer = threading.Thread(target=write)
    writer.start()
    looks = 0
    while not done.is_set() or not looks:
        got = ring.since(None, 0)
        numbers = [each.n for each in got.samples]
        if numbers:
            assert numbers == list(range(numbers[0], numbers[0] + len(numbers)))
            assert len(numbers) <= 16
            looks += 1
    writer.join()
    assert ring.since(None, 0).samples == tuple(sample(n) for n in range(29_984, 30_000))
