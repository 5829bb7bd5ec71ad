"""Told to stop, the daemon stops: at once, whole, and whoever waits for it."""

import os
import signal
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, closing

import pytest

from tests.faults.lines import unread
from tests.patience import until
from tests.system.daemon import HEADSWEEP, Daemon

STREAMS = 4
PRESSES = 3


@pytest.fixture
def shop(shop):
    """A take waits longer here than the daemon may take to stop."""
    shop.set("shop.toml", "timeout_s", "15")
    return shop


@pytest.fixture
def daemon(shop):
    """As it is installed: nothing of how it ends may hang on how the test starts it."""
    with closing(Daemon(shop, program=(HEADSWEEP,)).start()) as running:
        yield running


def test_open_streams_do_not_hold_it(gauge, client, daemon):
    with ExitStack() as opened:
        streams = [opened.enter_context(client.stream()) for _ in range(STREAMS)]
        client.until_live(lambda live: live.fresh)
        daemon.stop()
        for stream in streams:
            assert stream.read().endswith(b"\n\n")


def test_a_take_that_is_still_settling_does_not_hold_it(person, gauge, client, daemon):
    person.start()
    gauge.shake()
    with ThreadPoolExecutor(1) as other:
        waiting = other.submit(client.post, "take", {"position": "front"})
        with client.stream() as stream:
            while stream.readline() != b'data: {"settling":true}\n':
                pass
        daemon.stop()
        answer = waiting.result()
        assert (answer.status, answer.body["reason"]) == (422, "The service is stopping.")
    assert daemon.events("ReadingTaken") == []


def test_a_press_that_waits_behind_the_signal_is_answered(client, daemon):
    """The daemon is frozen meanwhile: it finds the signal first, and the presses behind it."""
    with ThreadPoolExecutor(PRESSES) as others:
        os.kill(daemon.pid, signal.SIGSTOP)
        payload = {"reason": "scheduled", "note": 300 * "x"}
        presses = [others.submit(client.post, "open", payload) for _ in range(PRESSES)]
        until(lambda: sum(more > len(payload["note"]) for more in unread(client.port)) == PRESSES)
        os.kill(daemon.pid, signal.SIGTERM)
        os.kill(daemon.pid, signal.SIGCONT)
        answers = [press.result() for press in presses]
    assert daemon.ended() == 0
    said = [(answer.status, answer.body["reason"]) for answer in answers]
    assert said == [(422, "The service is stopping.")] * PRESSES
    assert daemon.events() == []


def test_interrupted_at_a_terminal_it_stops_the_same_way(daemon):
    assert daemon.end(signal.SIGINT) == 0
    assert daemon.stderr == ""
