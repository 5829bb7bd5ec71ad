"""A reader whose thread does not come back from its port, or is no longer there."""

import sys
import threading

import pytest

from daq.gauges.link import Link
from tests.gauges.test_reader import PATIENCE_S, S, running, until
from tests.words import en


def reading(monkeypatch, then):
    """Let every reader do this in place of its next read, once the event given back is set."""
    ordinary, due = Link.read, threading.Event()

    def read(self, wait_s):
        return then() if due.is_set() else ordinary(self, wait_s)

    monkeypatch.setattr(Link, "read", read)
    return due


def ended():
    return "gauge-dial" not in [thread.name for thread in threading.enumerate()]


def test_a_reader_held_in_its_port_is_told_of_and_left_behind(reader, far_end, heard, monkeypatch):
    held, let_go = threading.Event(), threading.Event()

    def hold():
        held.set()
        let_go.wait()
        return b""

    due = reading(monkeypatch, hold)
    running(reader, far_end, heard)
    due.set()
    assert held.wait(PATIENCE_S)
    assert reader.status.code != "stuck"
    heard.ahead_ns += 4 * S
    assert reader.status.code == "stuck"
    assert en(reader.status.say).startswith("Test gauge: its port holds up the Pi")
    reader.stop()
    assert not ended()
    let_go.set()
    until(ended)


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
def test_a_reader_whose_thread_died_is_told_of(reader, far_end, heard, monkeypatch):
    due = reading(monkeypatch, sys.exit)
    running(reader, far_end, heard)
    due.set()
    until(ended)
    heard.ahead_ns += 4 * S
    assert reader.status.code == "stuck"
