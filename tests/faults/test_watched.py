"""Each thread held in each call in which it may wait: it is named, and the end comes"""

import os
import signal
import socket
import sys
import threading
from contextlib import ExitStack, closing

import pytest

from daq.app import service
from daq.audit import seal as fold_seal
from daq.gauges import reader
from daq.gauges.guard import Guard
from daq.gauges.link import Link
from daq.gauges.ring import Ring
from daq.ledger.store import Ledger
from daq.ledger.view import LedgerView
from daq.service import committed, keeper, turns
from daq.service.files import load
from daq.service.hub import Hub
from daq.service.screens import Screens
from daq.service.sealing import Sealer
from daq.service.setup import Setup
from daq.service.trends import Trends
from daq.words import Command
from tests.patience import until
from tests.service.test_keeper import Listening
from tests.system.client import Client
from tests.system.daemon import Daemon
from tests.system.shop import MACHINE
from web.app import create_app
from web.channels import Channel
from web.in_words import InWords
from web.serve import Server, serve

HURRIED_NS = 1_000_000_000


class Held:
    """Holds the threads of one name in one call, from `begin` until `let_go`."""

    def __init__(self, monkeypatch, thread, of, call):
        self._begun, self._let_go, self.there = (threading.Event() for _ in range(3))
        ordinary = getattr(of, call)

        def held(*args, **kwargs):
            if self._begun.is_set() and threading.current_thread().name.startswith(thread):
                self.there.set()
                self._let_go.wait()
            return ordinary(*args, **kwargs)

        monkeypatch.setattr(of, call, held)
        self.begin = self._begun.set
        self.let_go = self._let_go.set


class House:
    """The service and its pages in this process, with all that is watched."""

    def __init__(self, running, server):
        self.running = running
        self.client = Client()
        self.client.port = server.port
        self.address = (server.host, server.port)
        for name, thread in server.threads.items():
            running.keeper.watch(name, thread)

    @property
    def named(self):
        return self.running.hub.held

    def audit(self):
        """An audit opened and given up: rows, their followers, and a seal."""
        for n, (kind, payload) in enumerate(
            [("open", {"reason": "practice"}), ("abandon", {"why": "x"})]
        ):
            self.running.inbox.hand_in(Command(f"{kind}-{n}", MACHINE, kind, payload))


@pytest.fixture
def hurried(monkeypatch):
    monkeypatch.setattr(turns, "STILL_NS", HURRIED_NS)
    monkeypatch.setattr(reader, "_STUCK_S", HURRIED_NS / 1e9)
    monkeypatch.setattr(committed, "TURNS", 2)
    monkeypatch.setattr(keeper, "LOOK_S", 0.05)


@pytest.fixture
def house(shop, gauge, hurried):
    """Made when the test says so: some threads are held from their start."""
    with ExitStack() as opened:

        def build():
            running = opened.enter_context(service(load(shop.config), shop.data))
            made = create_app(
                running.hub, running.inbox, setup=running.setup, trends=running.trends
            )
            return House(running, opened.enter_context(serve(made, "127.0.0.1", 0)))

        yield build


CALLS = [
    ("gauge-practice", Link, "read"),
    ("gauge-practice", Guard, "look"),
    ("gauge-practice", Ring, "append"),
    ("gauge-practice", Hub, "on_sample"),
    ("inbox", Ledger, "append"),
    ("inbox", Ledger, "room"),
    ("inbox", Ledger, "require_in_place"),
    ("inbox", Ledger, "by_cause"),
    ("inbox", Screens, "turn"),
    ("sealer", os, "fsync"),
    ("sealer", fold_seal, "encode"),
    ("proof", LedgerView, "file_fault"),
    ("told-screens", Screens, "committed"),
    ("told-setup", Setup, "committed"),
    ("told-trends", Trends, "committed"),
    ("told-seal", Sealer, "committed"),
    ("streams", Channel, "offer"),
    ("streams", InWords, "told"),
    ("streams", Hub, "live"),
    ("web", Channel, "handle_read"),
    ("web", Server, "_channels"),
    ("waitress", Hub, "health"),
]
"""The thread, and a call of it that reads, writes, commits, sends or waits."""


@pytest.mark.parametrize(
    ("thread", "of", "call"),
    CALLS,
    ids=[f"{t}-{getattr(o, '__name__', o)}-{c}" for t, o, c in CALLS],
)
def test_a_thread_held_in_a_call_is_named_until_it_goes_on(house, monkeypatch, thread, of, call):
    held = Held(monkeypatch, thread, of, call)
    if thread == "proof":
        held.begin()
    there = house()
    name = {"waitress": "pages"}.get(thread, thread)
    with ExitStack() as opened:

        def sent(data):
            opened.enter_context(socket.create_connection(there.address)).sendall(data)

        opened.callback(held.let_go)
        if thread == "streams":
            opened.enter_context(there.client.stream())
        until(lambda: not there.named)
        held.begin()
        if thread == "waitress":
            for _ in range(9):
                sent(b"GET /healthz HTTP/1.1\r\nHost: localhost\r\n\r\n")
        elif thread == "web":
            sent(b"GET /")
        elif not thread.startswith(("gauge", "proof", "streams")):
            there.audit()
        assert held.there.wait(60)
        until(lambda: name in there.named, lambda: there.named)
        assert not there.running.hub.health()["ok"]
    if not thread.startswith("told"):  # which is told no more
        until(lambda: not there.named, lambda: there.named)


def test_threads_that_wait_for_a_lock_are_named(house):
    there = house()
    streams = there.running.hub._told[0].__self__
    with there.client.stream():
        until(lambda: not there.named)
        with streams._changed:
            until(lambda: {"streams", "gauge-practice"} <= set(there.named), lambda: there.named)
        until(lambda: not there.named, lambda: there.named)


HELD = """
import ctypes, sys, threading
from importlib import import_module
from pathlib import Path
from daq.cli import main
from daq.gauges import reader
from daq.service import keeper, turns

hold, thread, module, name, call = sys.argv[1:6]
del sys.argv[1:6]
of = getattr(import_module(module), name)
ordinary, lock = getattr(of, call), ctypes.CDLL(None).pthread_mutex_lock
mutex = ctypes.create_string_buffer(64)
turns.STILL_NS, reader._STUCK_S, keeper.LOOK_S = 1_000_000_000, 1.0, 0.1

def held(*args, **kwargs):
    if Path(hold).exists() and threading.current_thread().name.startswith(thread):
        lock(mutex)
        lock(mutex)
    return ordinary(*args, **kwargs)

setattr(of, call, held)
sys.exit(main())
"""
"""A thread that locks what it has locked waits in the kernel for ever, and no signal ends that."""

WHO = [
    ("gauge-practice", "gauge-practice", "daq.gauges.link", "Link", "read"),
    ("inbox", "inbox", "daq.ledger.store", "Ledger", "room"),
    ("streams", "streams", "web.channels", "Channel", "offer"),
    ("web", "MainThread", "web.serve", "Server", "_turn"),
]


@pytest.mark.parametrize(
    ("name", "held"), [(name, held) for name, *held in WHO], ids=[w[0] for w in WHO]
)
def test_a_held_thread_ends_the_pings_and_no_thread_can_hold_the_end(
    shop, gauge, tmp_path, monkeypatch, name, held
):
    hold, address = tmp_path / "hold", str(tmp_path / "notify")
    monkeypatch.setenv("NOTIFY_SOCKET", address)
    monkeypatch.setenv("WATCHDOG_USEC", "500000")
    told = []
    running = Daemon(shop, program=(sys.executable, "-c", HELD, str(hold), *held))
    with closing(Listening(address)) as manager, closing(running.start()) as daemon:

        def until_told(what):
            def heard():
                told.extend(manager.told())
                return next((n for n, each in enumerate(told) if each.startswith(what)), None)

            return until(lambda: heard() is not None, lambda: told) and heard()

        with daemon.client.stream():
            until_told("READY=1")
            until_told("WATCHDOG=1")
            hold.touch()
            since = until_told(f"STATUS=stands still: {name}")
            code = daemon.end(signal.SIGTERM)
        told += manager.told()
    assert "WATCHDOG=1" not in told[since:]
    assert told.count("STOPPING=1") == 1
    assert code == 0 or held[3] in daemon.stderr, "it says where every thread is"
