import dataclasses
import datetime

import pytest

from daq.audit.gauge_events import GaugeChecked
from daq.service.files import load
from daq.service.fitness import warnings
from daq.words import said
from tests.words import en, told

DUE = datetime.date(2028, 3, 31)


@pytest.fixture
def gauge(config):
    return load(config).gauges["practice"]


def check(passed, serial="P-0417"):
    return GaugeChecked(
        "practice",
        serial,
        "Kit",
        "2026-05-04",
        0.004,
        (),
        0.006,
        None,
        None,
        passed,
        said("gauge-checked"),
    )


def test_a_gauge_is_good_to_the_last_day_and_overdue_on_the_next(gauge):
    assert warnings(gauge, None, DUE) == ()
    (said,) = warnings(gauge, None, DUE + datetime.timedelta(days=1))
    assert told(said) == {
        "code": "overdue",
        "kind": "warning",
        "say": "Practice gauge (P-0417) is overdue: its calibration was good until 2028-03-31.",
    }


def test_a_calibration_still_to_come_is_doubted_by_a_clock_that_is_sure(gauge):
    day = datetime.date(2027, 3, 31)
    gauge = dataclasses.replace(gauge, calibrated_on=day)
    (said,) = warnings(gauge, None, day - datetime.timedelta(days=1), sure=True)
    assert (said["code"], said["kind"]) == ("calibrated-ahead", "warning")
    assert en(said["say"]) == (
        "Practice gauge (P-0417): its file says it was calibrated on 2027-03-31, and that day is "
        "still to come. Look at its certificate."
    )
    assert warnings(gauge, None, day, sure=True) == ()
    # A Pi without a clock of its own starts in the past.
    assert warnings(gauge, None, datetime.date(1970, 1, 1), sure=False) == ()


def test_a_check_that_was_not_passed_is_told_with_its_day(gauge):
    (said,) = warnings(gauge, check(False), DUE)
    assert (said["code"], said["kind"]) == ("check-failed", "warning")
    assert en(said["say"]).startswith(
        "Practice gauge (P-0417) did not pass its check of 2026-05-04"
    )
    assert warnings(gauge, check(True), DUE) == ()


def test_a_check_of_another_gauge_under_the_same_key_says_nothing(gauge):
    assert warnings(gauge, check(False, serial="OTHER"), DUE) == ()


def test_both_are_told(gauge):
    codes = [w["code"] for w in warnings(gauge, check(False), datetime.date(2030, 1, 1))]
    assert codes == ["overdue", "check-failed"]
