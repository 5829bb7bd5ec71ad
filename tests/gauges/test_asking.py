"""Requests and answers: one at a time, and never one taken for another's."""

from hypothesis import given, settings
from hypothesis import strategies as st

from daq.gauges.asking import Requester

MS = 1_000_000
INTERVAL_S, TIMEOUT_S, PAUSE_S = 0.1, 0.05, 0.02
QUIET_NS = 100 * MS  # two time-outs


def opened():
    return Requester(INTERVAL_S, TIMEOUT_S, PAUSE_S, 0)


def in_step():
    asker = opened()
    assert asker.due(QUIET_NS)
    return asker, QUIET_NS


def test_nothing_is_asked_before_the_line_was_quiet():
    asker = opened()
    assert not asker.due(QUIET_NS - 1)
    assert asker.take(["old"], True, QUIET_NS - 1) == ()
    assert not asker.due(2 * QUIET_NS - 2)
    assert asker.due(2 * QUIET_NS - 1)
    assert asker.discarded == 1


def test_question_and_answer_at_the_interval():
    asker, now = in_step()
    for k in range(5):
        assert not asker.due(now + 10 * MS)
        assert asker.take([k], True, now + 10 * MS) == [k]
        assert asker.wait_ns(now + 10 * MS) == 90 * MS
        assert not asker.due(now + 99 * MS)
        now += 100 * MS
        assert asker.due(now)
    assert (asker.missing, asker.discarded) == (0, 0)


def test_part_of_an_answer_is_waited_for():
    asker, now = in_step()
    assert asker.take([], True, now + 20 * MS) == []
    assert not asker.due(now + 49 * MS)
    assert asker.take(["a"], True, now + 49 * MS) == ["a"]


def test_missing_answers_are_counted_until_one_counts():
    asker, now = in_step()
    for missing in (1, 2, 3):
        now += 50 * MS
        assert asker.due(now)
        assert asker.missing == missing
    assert asker.take(["which?"], True, now + MS) == ()
    now += MS + QUIET_NS
    assert asker.due(now)
    assert asker.missing == 3
    assert asker.take(["sure"], True, now + MS) == ["sure"]
    assert asker.missing == 0


def test_a_late_answer_is_not_the_new_requests():
    asker, now = in_step()
    now += 50 * MS
    assert asker.due(now)
    assert asker.take(["late"], True, now + MS) == ()
    assert asker.take(["its own"], True, now + 30 * MS) == ()
    assert asker.discarded == 2
    assert not asker.due(now + 30 * MS + QUIET_NS - 1)
    assert asker.due(now + 30 * MS + QUIET_NS)


def test_what_comes_unasked_is_not_taken():
    asker, now = in_step()
    assert asker.take(["a"], True, now + MS) == ["a"]
    assert asker.take(["b"], True, now + 2 * MS) == ()
    assert not asker.due(now + 100 * MS)
    assert asker.due(now + 2 * MS + QUIET_NS)


def test_two_answers_at_once_are_one_too_many():
    asker, now = in_step()
    assert asker.take(["a", "b"], True, now + MS) == ["a"]
    assert asker.discarded == 1
    assert not asker.due(now + 100 * MS)


def test_bytes_of_an_answer_to_come_keep_the_line_busy():
    asker, now = in_step()
    asker.take(["a"], True, now + MS)
    assert asker.take([], True, now + 99 * MS) == ()
    assert not asker.due(now + 100 * MS)


def test_a_line_that_is_silent_out_of_step_is_asked_again_at_each_time_out():
    asker, now = in_step()
    for _ in range(4):
        assert asker.take([], False, now + 49 * MS) in ((), [])
        now += 50 * MS
        assert asker.due(now)


class Gauge:
    """Answers in order, each when the one before is done and its own work too; or not at all."""

    def __init__(self, works_ms):
        self.works_ms = iter(works_ms)
        self.free_ns = 0
        self.answers = []  # (when, request), in order

    def hear(self, request, now_ns):
        work_ms = next(self.works_ms, 5)
        if not self.answers and work_ms is not None and work_ms < 0:
            work_ms = -20 * work_ms  # busy with something else, once everything is answered
        if work_ms is not None:
            self.free_ns = max(self.free_ns, now_ns) + abs(work_ms) * MS
            self.answers.append((self.free_ns, request))


WORK = st.one_of(st.none(), st.integers(-60, 99))


@given(st.lists(WORK, max_size=60))
@settings(max_examples=300, derandomize=True, deadline=None)
def test_an_answer_that_counts_is_the_newest_requests_whatever_the_gauge_does(works_ms):
    """As long as two answers owed are never further apart than the two time-outs of quiet."""
    asker, gauge = opened(), Gauge(works_ms)
    newest, counted = -1, 0
    for now in range(0, 6_000 * MS, MS):
        came = []
        while gauge.answers and gauge.answers[0][0] <= now:
            came.append(gauge.answers.pop(0)[1])
        for request in asker.take(came, bool(came), now):
            assert request == newest
            counted += 1
        if asker.due(now):
            newest += 1
            gauge.hear(newest, now)
    assert newest >= 0
    assert counted or len(works_ms) > 10
