"""How the live number is paced: at most 25 a second, the newest, at once when it can."""

import itertools
from dataclasses import replace

import pytest

from web.stream import GAP_S, SLACK_S, Pace, message


def run(pace, reading, times, until):
    """Offer a sample at each time; return (sent at, sample number, age added) of what went out."""
    sent = []
    times = list(times)
    while times or pace.mark is not None:
        mark = pace.mark
        if times and (mark is None or times[0] <= mark):
            now = times.pop(0)
            out = pace.offer(replace(reading, n=round(now * 1000), age_ms=0), now)
        else:
            now = mark
            out = pace.overdue(now)
        if out:
            sent.append((now, out.n, out.age_ms))
    return [one for one in sent if one[0] <= until]


def test_a_slow_gauge_is_shown_at_once(reading):
    times = [0.1 * i for i in range(1, 20)]
    assert [(at, age) for at, _, age in run(Pace(), reading, times, 9)] == [(t, 0) for t in times]


@pytest.mark.parametrize("rate", [30, 50, 100, 1000])
def test_a_fast_gauge_is_held_to_25_a_second(reading, rate):
    sent = run(Pace(), reading, [i / rate for i in range(1, 10 * rate)], 10)
    assert len(sent) <= 25 * 10 + 1
    assert len(sent) >= 20 * 10
    gaps = [b[0] - a[0] for a, b in itertools.pairwise(sent)]
    assert min(gaps) >= GAP_S - 2 * SLACK_S


def test_at_50_a_second_every_second_sample_goes_out_at_once_in_spite_of_jitter(reading):
    jitter = [0.0, 0.0011, -0.0009, 0.0007]
    times = [i / 50 + jitter[i % 4] for i in range(1, 500)]
    assert {age for _, _, age in run(Pace(), reading, times, 9.9)} == {0}


def test_what_was_held_is_the_newest_and_has_aged(reading):
    pace = Pace()
    assert pace.offer(replace(reading, n=1), 1.0).n == 1
    assert pace.offer(replace(reading, n=2), 1.005) is None
    assert pace.offer(replace(reading, n=3, age_ms=2), 1.010) is None
    assert pace.overdue(1.030) is None
    out = pace.overdue(pace.mark)
    assert (out.n, out.age_ms) == (3, 2 + 38)
    assert pace.mark is None


def test_a_message_is_one_event():
    assert message("beat", {}) == b"event: beat\ndata: {}\n\n"
    assert message("snapshot", {"a": "é\n"}, 7) == (
        'id: 7\nevent: snapshot\ndata: {"a":"é\\n"}\n\n'.encode()
    )
    with pytest.raises(ValueError, match="JSON"):
        message("live", {"value": float("nan")})
