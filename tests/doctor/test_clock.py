"""Whether the date can be believed."""

from tests.doctor.conftest import told

DAY_US = 86_400_000_000


def test_a_clock_that_was_set_is_fine_with_or_without_one_of_its_own(made, look):
    (found,) = look("clock")
    assert found.fine and found.found.of["own"].code == "doctor-no-own-clock"
    made.put("/sys/class/rtc/rtc0/name", "rtc")
    (found,) = look("clock")
    assert found.fine and found.found.of["own"].code == "doctor-own-clock"


def test_one_that_was_not_is_to_be_set_or_to_be_brought_to_a_server(made, look):
    made.clock.trusted = False
    (found,) = look("clock")
    assert (found.found.code, found.todo.code) == ("clock-unsure", "doctor-set-clock")
    made.prints["timedatectl show --property=NTP"] = "NTP=yes\n"
    (found,) = look("clock")
    assert (found.found.code, found.todo.code) == ("clock-unsure", "doctor-reach-server")


def test_one_behind_the_record_is_wrong(made, look):
    made.record(3)
    made.clock.utc_us -= 3 * DAY_US
    made.clock.trusted = False
    assert told(look("clock")) == [(False, "clock-behind")]
