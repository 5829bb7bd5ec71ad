import statistics

import pytest

from daq.metrology.settle import SettleRules, Unsettled, Window, settle
from daq.words import said
from tests.words import en

RULES = SettleRules()
S = 1_000_000_000


def at(seconds: float) -> int:
    return round(seconds * S)


def test_a_still_number_settles_after_wait_and_window(samples):
    still = samples([1.200] * 20, hz=10.0)
    for upto in range(1, 21):
        done = settle(still[:upto], 0, still[upto - 1].mono_ns, RULES, 0.002)
        # Waiting ends at 0.3 s; the first sample after it is at 0.4 s, so 0.9 s is enough.
        assert isinstance(done, Window) == (still[upto - 1].mono_ns >= at(0.9))


def test_the_window_names_its_samples_and_their_statistics(samples):
    values = [9.0] * 5 + [1.200, 1.201, 1.200, 1.199, 1.200, 1.201]
    done = settle(samples(values, hz=10.0), at(0.1), at(1.0), RULES, 0.002)
    assert done == Window(
        run="run-1",
        first_n=5,
        last_n=10,
        mean_mm=pytest.approx(statistics.fmean(values[5:])),
        sd_mm=pytest.approx(statistics.stdev(values[5:])),
        spread_mm=pytest.approx(0.002),
        count=6,
        mid_ns=at(0.75),
    )


def test_samples_up_to_the_end_of_the_wait_never_count(samples):
    moving_then_still = samples([5.0] * 8 + [1.0] * 6, hz=10.0)
    done = settle(moving_then_still, at(0.4), at(1.3), RULES, 0.001)
    assert isinstance(done, Window)
    assert done.first_n == 8 and done.mean_mm == 1.0


def test_a_sample_stamped_exactly_at_the_end_of_the_wait_does_not_count(samples):
    done = settle(samples([1.0], start_s=0.3), 0, at(0.4), RULES, 0.001)
    assert done == Unsettled(said("no-samples"), False)


def test_only_the_newest_run_counts(samples):
    before = samples([1.0] * 20, hz=10.0, run="run-1")
    after = samples([2.0] * 3, hz=10.0, start_s=2.0, run="run-2")
    done = settle(before + after, 0, at(2.2), RULES, 0.001)
    assert done == Unsettled(said("not-long-enough", samples=3), False)
    after = samples([2.0] * 6, hz=10.0, start_s=2.0, run="run-2")
    done = settle(before + after, 0, at(2.5), RULES, 0.001)
    assert isinstance(done, Window)
    assert (done.run, done.mean_mm, done.first_n) == ("run-2", 2.0, 0)


def test_a_fast_gauge_must_still_fill_the_time_of_the_window(samples):
    # At 50 Hz five samples are there after 0.1 s: far too short to see a slow creep.
    fast = samples([1.0] * 25, hz=50.0, start_s=0.301)
    assert isinstance(settle(fast, 0, at(0.8), RULES, 0.001), Unsettled)
    longer = samples([1.0] * 27, hz=50.0, start_s=0.301)
    assert isinstance(settle(longer, 0, at(0.83), RULES, 0.001), Window)


def test_a_gauge_with_few_samples_in_half_a_second_gets_a_second(samples):
    slow = samples([1.0] * 20, hz=6.0, start_s=0.4)
    done = settle(slow, 0, at(3.6), RULES, 0.001)
    assert isinstance(done, Window)
    assert done.count == 7


def test_a_very_slow_gauge_gets_the_time_for_five_samples(samples):
    slow = samples([1.0] * 5, hz=2.0, start_s=0.4)
    for upto in range(1, 5):
        assert isinstance(settle(slow[:upto], 0, at(2.0), RULES, 0.001), Unsettled)
    done = settle(slow, 0, at(2.4), RULES, 0.001)
    assert isinstance(done, Window)
    assert done.count == 5


def test_a_very_slow_gauge_is_judged_by_its_newest_five(samples):
    slow = samples([0.5, 0.9] + [1.0] * 5, hz=2.0, start_s=0.4)
    done = settle(slow, 0, at(3.4), RULES, 0.001)
    assert isinstance(done, Window)
    assert (done.count, done.first_n) == (5, 2)


def test_a_moving_number_is_told_with_what_is_allowed(samples):
    values = [1.000 + 0.0024 * i for i in range(12)]
    done = settle(samples(values, hz=10.0), 0, at(1.1), RULES, 0.004)
    assert not done.expired
    assert en(done.why) == "still moving: 0.012 mm over the last 0.5 s; allowed 0.004"


def test_an_inch_gauge_is_told_in_inches_with_its_own_decimals(samples):
    values = [25.4 * (0.0500 + 0.0001 * i) for i in range(12)]
    moving = samples(values, hz=10.0, unit="in", decimals=4)
    done = settle(moving, 0, at(1.1), RULES, 0.00508)
    assert not done.expired
    assert en(done.why) == "still moving: 0.0005 in over the last 0.5 s; allowed 0.0002"


def test_a_spread_equal_to_the_limit_is_settled(samples):
    # 1.1 − 1.0 is above 0.1 in binary; the decimal numbers on the gauge are equal.
    values = [1.0, 1.1] * 5
    assert isinstance(settle(samples(values, hz=10.0), 0, at(0.9), RULES, 0.1), Window)


def test_the_take_expires_after_its_time(samples):
    assert settle([], 0, at(10.0), RULES, 0.001) == Unsettled(said("no-samples"), False)
    assert settle([], 0, at(10.0) + 1, RULES, 0.001) == Unsettled(said("no-samples"), True)
    restless = samples([0.0, 1.0] * 60, hz=10.0)
    done = settle(restless, 0, at(11.9), RULES, 0.001)
    assert isinstance(done, Unsettled) and done.expired


def test_a_number_that_settles_is_taken_from_its_newest_window(samples):
    values = [1.0 + 0.1 * i for i in range(10)] + [2.0] * 6
    done = settle(samples(values, hz=10.0), 0, at(1.5), RULES, 0.001)
    assert isinstance(done, Window)
    assert done.mean_mm == 2.0 and done.first_n == 10


def test_one_sample_is_said_as_one(samples):
    done = settle(samples([1.0], start_s=0.4), 0, at(0.5), RULES, 0.001)
    assert not done.expired
    assert en(done.why) == "not long enough yet: 1 sample so far"


def test_a_single_sample_may_be_a_window_where_the_shop_says_so(samples):
    rules = SettleRules(wait_s=0.0, window_s=0.0, min_samples=1)
    done = settle(samples([1.0], start_s=0.1), 0, at(0.2), rules, 0.001)
    assert isinstance(done, Window)
    assert (done.count, done.sd_mm) == (1, 0.0)
