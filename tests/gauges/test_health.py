"""What a reader says of its gauge, from counts and times alone."""

from daq.gauges.health import Health

S = 1_000_000_000


def test_nothing_is_said_before_it_is_known():
    health = Health(1.0, 100 * S)
    assert health.judge(100 * S + S // 2) is None
    health.heard(0, 3, 100 * S + S // 2)
    assert health.judge(100 * S + S - 1) is None


def test_ok_as_long_as_good_frames_come():
    health = Health(1.0, 0)
    health.heard(1, 0, S)
    assert health.judge(S) == ("ok", "")
    assert health.judge(2 * S - 1) == ("ok", "")
    health.heard(2, 50, 2 * S)
    assert health.judge(2 * S) == ("ok", "")


def test_silent():
    health = Health(3.0, 0)
    assert health.judge(3 * S) == ("silent", "silent for 3 s: check its cable and battery.")
    health.heard(1, 0, 4 * S)
    assert health.judge(6 * S) == ("ok", "")
    assert health.judge(8 * S) == ("silent", "silent for 4 s: check its cable and battery.")


def test_garbled():
    health = Health(1.0, 0)
    health.heard(10, 5, S)  # the five before the last good frame do not count against it
    assert health.judge(2 * S)[0] == "silent"
    health.heard(10, 42, 5 * S)
    assert health.judge(6 * S) == (
        "garbled",
        "garbled: 37 bad frames in the last 5 s, none good: wrong speed or framing?",
    )
    health.heard(11, 42, 7 * S)
    assert health.judge(7 * S) == ("ok", "")


def test_junk_long_ago_is_silence_now():
    health = Health(1.0, 0)
    health.heard(0, 9, S)
    assert health.judge(5 * S)[0] == "garbled"
    assert health.judge(6 * S)[0] == "silent"
