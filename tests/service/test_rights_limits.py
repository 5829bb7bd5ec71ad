"""Codes, buckets and lock-outs by a clock that the test turns."""

import pytest

from daq.service.rights.codes import LASTS_S, MADE_AT_ONCE, MADE_EVERY_S, TRIES, PairingCode
from daq.service.rights.limits import FREE_TRIES, MOST_CLIENTS, Buckets, Lockout

SECOND = 1_000_000_000


@pytest.fixture
def code(clock):
    drawn = iter(["12345678", "00000007", "99999999"])
    return PairingCode(clock.mono_ns, lambda: next(drawn))


def test_there_is_no_code_before_one_is_asked_for(code):
    assert code.shown() is None
    assert not code.spend("")
    assert not code.spend("12345678")


def test_a_code_pairs_once(code):
    code.make()
    assert (code.shown().code, code.shown().seconds) == ("12345678", LASTS_S)
    assert code.spend(" 1234 5678 ")
    assert code.shown() is None
    assert not code.spend("12345678")


def test_a_code_lasts_two_minutes_and_is_not_lengthened_by_asking_again(code, clock):
    code.make()
    clock.ns += (LASTS_S - 1) * SECOND
    code.make()
    assert (code.shown().code, code.shown().seconds) == ("12345678", 1)
    clock.ns += SECOND
    assert code.shown() is None
    assert not code.spend("12345678")
    code.make()
    assert code.shown().code == "00000007"


def test_five_wrong_tries_end_a_code(code):
    code.make()
    for _ in range(TRIES):
        assert not code.spend("12345679")
    assert not code.spend("12345678")
    code.make()
    assert code.spend("00000007")


def spoilt(code):
    """Codes asked for and ended by wrong tries, until there is no other at once."""
    for made in range(10 * MADE_AT_ONCE):
        wait_s = code.make()
        if wait_s:
            return made, wait_s
        for _ in range(TRIES):
            code.spend("wrong")
    pytest.fail("whoever asks from enough addresses may try as often as they like")


def test_codes_that_wrong_tries_end_come_slowly_whoever_asks(clock):
    code = PairingCode(clock.mono_ns)
    assert spoilt(code) == (MADE_AT_ONCE, MADE_EVERY_S)
    assert code.shown() is None
    clock.ns += int(MADE_EVERY_S) * SECOND
    assert spoilt(code) == (1, MADE_EVERY_S)
    clock.ns += 24 * 3600 * SECOND
    assert spoilt(code) == (MADE_AT_ONCE, MADE_EVERY_S)


def test_whoever_pairs_many_screens_is_not_kept_waiting(clock):
    code = PairingCode(clock.mono_ns)
    for _ in range(3 * MADE_AT_ONCE):
        assert code.make() == 0
        assert code.spend(code.shown().code)


def test_a_drawn_code_has_eight_digits(clock):
    drawn = PairingCode(clock.mono_ns)
    drawn.make()
    assert len(drawn.shown().code) == 8
    assert drawn.shown().code.isdigit()


def test_a_bucket_gives_a_handful_and_then_one_by_one(clock):
    bucket = Buckets(3, 2.0, clock.mono_ns)
    assert [bucket.take("a") for _ in range(4)] == [0, 0, 0, 2]
    assert bucket.take("b") == 0
    clock.ns += SECOND
    assert bucket.take("a") == 1
    clock.ns += SECOND
    assert [bucket.take("a"), bucket.take("a")] == [0, 2]
    clock.ns += 3600 * SECOND
    assert [bucket.take("a") for _ in range(4)] == [0, 0, 0, 2]


def test_a_crowd_of_clients_takes_no_memory(clock):
    bucket = Buckets(1, 1e9, clock.mono_ns)
    for n in range(3 * MOST_CLIENTS):
        bucket.take(str(n))
    assert len(bucket._left) == MOST_CLIENTS


def test_whoever_is_wrong_again_and_again_is_locked_out_for_longer_and_longer(clock):
    lockout = Lockout(clock.mono_ns)
    lasted = []
    for _ in range(FREE_TRIES - 1):
        lockout.wrong("ann")
        assert lockout.left_s("ann") == 0
    for _ in range(9):
        lockout.wrong("ann")
        lasted.append(lockout.left_s("ann"))
        clock.ns += lasted[-1] * SECOND
        assert lockout.left_s("ann") == 0
    assert lasted == [60, 120, 240, 480, 960, 1920, 3600, 3600, 3600]
    assert lockout.left_s("bo") == 0


@pytest.mark.parametrize("how", ["right", "day"])
def test_a_lock_out_heals(clock, how):
    lockout = Lockout(clock.mono_ns)
    for _ in range(FREE_TRIES):
        lockout.wrong("ann")
    if how == "right":
        lockout.right("ann")
    else:
        clock.ns += 24 * 3600 * SECOND
    for _ in range(FREE_TRIES - 1):
        lockout.wrong("ann")
        assert lockout.left_s("ann") == 0
