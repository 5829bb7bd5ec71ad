"""A reader and a gauge that answers, or that sends when its key is pressed."""

import os
import select
import termios

import pytest

from tests.gauges.conftest import PATIENCE_S, flowing_frame
from tests.words import en

ASKS = {
    "mode": "asks",
    "interval": "20 ms",
    "request": r"?\r",
    "timeout": "1 s",
    "pause": "10 ms",
}
S = 1_000_000_000
INTERVAL = S // 50
QUIET = 2 * S
"""Two time-outs, after which a line counts as quiet."""


def asked(far_end):
    """Wait for a request; return everything that was sent to the gauge."""
    assert select.select([far_end.master], [], [], PATIENCE_S)[0]
    return os.read(far_end.master, 100)


@pytest.fixture
def asking(make_reader, far_end, heard):
    """A reader that asks by a clock which the test turns on: no answer is ever too slow."""
    heard.stand()
    reader = make_reader(far_end.path, talk=ASKS)
    reader.start()
    heard.opened()
    return reader


def test_question_and_answer(asking, far_end, heard):
    heard.goes_on(QUIET)
    for k in range(20):
        assert asked(far_end) == b"?\r"
        far_end.send(flowing_frame(k))
        assert heard.sample().value_mm == k
        heard.goes_on(INTERVAL)
    assert heard.status().code == "ok"


def test_requests_that_flow_control_holds_up_do_not_pile(asking, far_end, heard):
    termios.tcflow(far_end.slave, termios.TCOOFF)
    heard.goes_on(QUIET)
    for _ in range(3):
        heard.goes_on(S)
    heard.goes_on(S // 4)  # by then its health was looked at
    status = heard.until("silent")
    assert en(status.say).endswith("3 requests without an answer: check its cable and battery.")
    assert not select.select([far_end.master], [], [], 0)[0]
    termios.tcflow(far_end.slave, termios.TCOON)
    heard.goes_on(S)
    assert asked(far_end) == b"?\r"
    asking.stop()
    assert asking.wire.missing >= 3


def test_an_adapter_pulled_out_between_two_requests(asking, far_end, heard):
    heard.goes_on(QUIET)
    asked(far_end)
    far_end.unplug()
    assert en(heard.until("unplugged").say).endswith("has gone: is the cable plugged in?")
    far_end.plug()
    heard.opened()
    heard.goes_on(QUIET)
    asked(far_end)
    far_end.send(flowing_frame(1))
    assert heard.sample().value_mm == 1.0


def test_a_late_answer_is_not_taken_for_the_next(asking, far_end, heard):
    heard.goes_on(QUIET)
    asked(far_end)
    heard.goes_on(S)
    asked(far_end)  # the first was not answered in time
    far_end.send(flowing_frame(1))
    far_end.send(flowing_frame(2))
    heard.goes_on(S // 4)  # by then both were read
    heard.goes_on(QUIET)
    asked(far_end)
    far_end.send(flowing_frame(3))
    sample = heard.sample()
    assert (sample.n, sample.value_mm) == (0, 3.0)
    asking.stop()
    assert heard.samples.empty()
    assert asking.wire.discarded == 2


def test_a_key(make_reader, far_end, heard):
    reader = make_reader(far_end.path, talk={"mode": "key", "pause": "20 ms"})
    reader.start()
    assert heard.status().code == "ok"
    for k in range(3):
        far_end.send(flowing_frame(k))
        assert heard.sample().value_mm == k
        heard.ahead_ns += 1000 * S
    reader.stop()
    assert heard.statuses.empty()
