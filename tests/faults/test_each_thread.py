"""Whichever thread of a service stands still, the service manager hears no more that all is well.

sd_notify(3): WATCHDOG=1 keeps a service alive, and its silence has it started anew.
"""

import threading
import time
from contextlib import closing

import pytest

from daq.app import service
from daq.run import _rounds
from daq.service import keeper
from daq.service.files import load, shipped
from daq.service.turns import STILL_NS, Turns
from tests.patience import until
from tests.service.test_keeper import Listening

LOOKS = 3


@pytest.fixture
def listening(tmp_path, monkeypatch):
    """A service manager that wants to hear at every look; there are more of them here."""
    address = str(tmp_path / "notify")
    monkeypatch.setenv("NOTIFY_SOCKET", address)
    monkeypatch.setenv("WATCHDOG_USEC", "2")
    monkeypatch.setattr(keeper, "LOOK_S", 0.01)
    with closing(Listening(address)) as made:
        yield made


def heard(listening, line):
    """Everything up to a line, once that has come."""
    told = []

    def come():
        told.extend(listening.told())
        return line in told

    until(come, lambda: told)
    return told


def going(turns):
    """Those that go round and leave the time of it; the others rest, or tell it another way."""
    return {n: each for n, each in turns.items() if isinstance(each, Turns) and each._at_ns}


def looked(running, monkeypatch):
    """Wait until the keeper has looked so often."""
    looks, turn = [], running.keeper.turn
    monkeypatch.setattr(running.keeper, "turn", lambda: looks.append(turn()))
    until(lambda: len(looks) >= LOOKS)


def test_while_any_one_stands_still_nobody_says_that_all_is_well(tmp_path, listening, monkeypatch):
    before = set(threading.enumerate())
    with service(load(shipped()), tmp_path / "data") as running:
        doctor = _rounds(tmp_path, tmp_path / "data", running)
        with doctor.working():
            names = {each.name for each in set(threading.enumerate()) - before}
            watched = running.keeper._watched
            assert names - {"keeper"} <= set(watched)
            turns = {**watched, "inbox": running.hub._turns}
            until(lambda: {"inbox", "alive", "doctor", "listing"} <= going(turns).keys())
            heard(listening, "WATCHDOG=1")
            for name, each in going(turns).items():
                with monkeypatch.context() as held:
                    held.setattr(each, "turn", lambda: None)
                    held.setattr(each, "_mono_ns", lambda: time.monotonic_ns() + STILL_NS)
                    heard(listening, f"STATUS=stands still: {name}")
                    listening.told()
                    looked(running, held)
                    assert "WATCHDOG=1" not in listening.told(), name
                heard(listening, "WATCHDOG=1")
