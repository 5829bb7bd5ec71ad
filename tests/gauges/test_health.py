"""What a reader says of its gauge, from counts and times alone."""

import pytest

from daq.gauges import health as room
from daq.words import said
from tests.words import en

S = 1_000_000_000
OK = ("ok", "")


class Health(room.Health):
    """Whose verdict is read as on a screen."""

    def judge(self, now_ns):
        found = super().judge(now_ns)
        return found and (found[0], en(found[1]))


def heard(health, at_s, good=None, bad=None, came=None):
    """Tell of what is counted up to `at_s`, all of it come just then."""
    heard.counts = {
        "good": good if good is not None else health.good,
        "bad": bad if bad is not None else health.bad,
    }
    now = round(at_s * S)
    came = 13 * heard.counts["good"] + 5 * heard.counts["bad"] if came is None else came
    health.heard((heard.counts["good"], now), heard.counts["bad"], (came, now))


def test_nothing_is_said_before_it_is_known():
    health = Health(1.0, 100 * S)
    assert health.judge(100 * S + S // 2) is None
    heard(health, 100.5, bad=3)
    assert health.judge(101 * S - 1) is None


def test_ok_as_long_as_good_frames_come():
    health = Health(1.0, 0)
    heard(health, 1, good=1)
    assert health.judge(S) == OK
    assert health.judge(2 * S - 1) == OK
    heard(health, 2, good=2, bad=50)
    assert health.judge(2 * S) == OK


def test_silent():
    health = Health(3.0, 0)
    say = "silent for 3 s: check its cable, battery and speed."
    assert health.judge(3 * S) == ("silent", say)
    heard(health, 4, good=1)
    assert health.judge(6 * S) == OK
    assert health.judge(8 * S) == ("silent", "silent for 4 s: check its cable and battery.")


def test_garbled_after_good_frames():
    health = Health(1.0, 0)
    heard(health, 1, good=10, bad=5)  # the five before the last good frame do not count
    assert health.judge(2 * S)[0] == "silent"
    heard(health, 6, bad=42)
    say = "garbled: 37 bad frames in the last 5 s, none good: wrong speed or framing?"
    assert health.judge(6 * S) == ("garbled", say)
    assert health.judge(7 * S)[0] == "silent"
    heard(health, 7, good=11)
    assert health.judge(7 * S) == OK


def test_bytes_that_make_no_frame_at_all_are_wrong_settings():
    health = Health(1.0, 0)
    heard(health, 1, came=3)
    say = "3 bytes in 1 s, none good: wrong speed, bits or parity?"
    assert health.judge(S) == ("wrong-settings", say)
    heard(health, 5, bad=7, came=80)
    assert health.judge(9 * S)[0] == "wrong-settings"
    assert health.judge(10 * S)[0] == "silent"


def test_what_a_plug_sends_when_it_goes_in_is_not_yet_wrong():
    health = Health(1.0, 0)
    heard(health, 1, came=2)
    assert health.judge(S)[0] == "silent"


def test_a_frame_broken_off_for_good_is_silence():
    health = Health(1.0, 0)
    heard(health, 1, good=10)
    heard(health, 1.1, bad=1)
    assert health.judge(2 * S + S // 20)[0] == "garbled"
    assert health.judge(3 * S)[0] == "silent"


def test_a_key_has_all_the_time_it_likes():
    health = Health(None, 0)
    assert health.judge(0) == OK
    assert health.judge(10**6 * S) == OK
    heard(health, 10**6, good=1)
    assert health.judge(2 * 10**6 * S) == OK


def test_a_key_that_sends_no_frames():
    health = Health(None, 0)
    heard(health, 1, good=1)
    heard(health, 100, came=20)
    assert health.judge(101 * S) == OK  # more of it may be on its way
    assert health.judge(102 * S)[0] == "garbled"
    assert health.judge(110 * S) == OK
    heard(health, 200, came=24)
    assert health.judge(200 * S) == OK  # it may have been set right
    heard(health, 201, good=2)
    assert health.judge(205 * S) == OK


def test_a_key_at_wrong_settings():
    health = Health(None, 0)
    heard(health, 1, came=9)
    assert health.judge(3 * S)[0] == "wrong-settings"


def asking():
    health = Health(5.0, 0, most_missing=3)
    assert health.judge(S) is None
    heard(health, 1, good=1)
    assert health.judge(S) == OK
    return health


def test_missing_answers():
    health = asking()
    health.asked(2, 0)
    assert health.judge(3 * S) == OK
    health.asked(3, 0)
    say = "silent: 3 requests without an answer: check its cable and battery."
    assert health.judge(3 * S) == ("silent", say)
    health.asked(0, 0)
    heard(health, 4, good=2)
    assert health.judge(4 * S) == OK


def test_answers_that_come_too_late():
    health = asking()
    health.asked(3, 4)
    heard(health, 3, came=60)
    say = "its answers come too late: give it a longer timeout."
    assert health.judge(3 * S) == ("silent", say)


def test_answers_that_are_none():
    health = asking()
    health.asked(3, 0)
    heard(health, 3, bad=3)
    assert health.judge(3 * S)[0] == "garbled"


def test_a_gauge_that_streams_though_it_is_to_be_asked():
    health = Health(5.0, 0, most_missing=3)
    health.asked(0, 200)
    heard(health, 5, came=999)
    say = 'it sends without being asked: is mode = "streams" right for it?'
    assert health.judge(5 * S) == ("unasked", say)


def test_a_line_that_is_never_quiet_enough_to_ask():
    health = Health(5.0, 0, most_missing=3)
    heard(health, 5, came=999)
    assert health.judge(5 * S)[0] == "wrong-settings"


def test_a_gauge_that_is_not_asked_for_too_long():
    assert Health(5.0, 0, most_missing=3).judge(5 * S)[0] == "silent"


@pytest.mark.parametrize(
    ("flag", "code", "words"),
    [("over-travel", "over-travel", "beyond its travel"), ("error", "gauge-error", "an error")],
)
def test_a_number_that_means_nothing(flag, code, words):
    health = Health(1.0, 0)
    assert health.flagged((), 0)
    assert not health.flagged(("weak-battery", flag), S)
    heard(health, 1, good=2)
    found = health.judge(S)
    assert found[0] == code
    assert words in found[1]
    assert not health.is_value
    assert health.judge(3 * S)[0] == "silent"
    assert health.flagged((), 3 * S)
    heard(health, 3, good=3)
    assert health.judge(3 * S) == OK


def test_numbers_that_mean_nothing_with_others_in_between_are_told_of_steadily():
    health = Health(1.0, 0)
    health.flagged(("over-travel",), S)
    assert health.flagged((), S)
    heard(health, 1, good=2)
    assert health.judge(S)[0] == "over-travel"
    heard(health, 2, good=3)
    assert health.judge(2 * S) == OK


def test_of_a_key_the_last_number_counts():
    health = Health(None, 0)
    health.flagged(("error",), S)
    heard(health, 1, good=1)
    assert health.judge(1000 * S)[0] == "gauge-error"


def test_a_weak_battery_is_warned_of_and_the_number_stays():
    health = Health(1.0, 0)
    assert health.warnings(0) == ()
    assert health.flagged(("weak-battery", "something-else"), S)
    heard(health, 1, good=1)
    assert health.judge(S) == OK
    assert health.warnings(10 * S) == (said("battery-is-weak"),)
    assert health.warnings(11 * S) == ()
