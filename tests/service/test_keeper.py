"""Who watches the threads, by a clock of its own, and a service manager's real socket."""

import os
import queue
import socket
from contextlib import closing

import pytest

from daq.service import turns as turns_room
from daq.service.hub import Hub
from daq.service.keeper import Keeper
from daq.service.manager import Manager
from daq.service.turns import STILL_NS, Turns

PING_NS = 2 * STILL_NS


class Listening:
    """A service manager's end of the socket: a datagram for each thing it is told."""

    def __init__(self, address):
        self.line = socket.socket(socket.AF_UNIX, socket.SOCK_DGRAM)
        self.line.bind(address)
        self.line.setblocking(False)

    def told(self):
        """Everything since the last call."""
        told = []
        while True:
            try:
                told += self.line.recv(4096).decode().split("\n")
            except BlockingIOError:
                return told

    def close(self):
        self.line.close()


@pytest.fixture
def address(tmp_path):
    return str(tmp_path / "notify")


@pytest.fixture
def listening(address):
    with closing(Listening(address)) as made:
        yield made


@pytest.fixture
def environ(address):
    return {"NOTIFY_SOCKET": address, "WATCHDOG_USEC": str(2 * PING_NS // 1000)}


@pytest.fixture
def keeper(environ, clock):
    told = []
    made = Keeper(told.append, Manager(environ), clock.mono_ns)
    made.told = told
    yield made
    made.stop()


def test_a_thread_stands_still_once_its_turn_is_overdue_unless_it_rests(clock):
    turns = Turns(clock.mono_ns)
    clock.ns += STILL_NS
    assert not turns.still, "it has not begun"
    turns.turn()
    clock.ns += STILL_NS - 1
    assert not turns.still
    clock.ns += 1
    assert turns.still
    turns.rest()
    assert not turns.still
    turns.turn()
    assert not turns.still


def test_to_wait_for_work_is_no_standstill(clock, monkeypatch):
    monkeypatch.setattr(turns_room, "WAIT_S", 0.0)
    turns, looks = Turns(clock.mono_ns), []

    class Empty(queue.SimpleQueue):
        def get(self, timeout):
            clock.ns += STILL_NS - 1
            looks.append(turns.still)
            if len(looks) < 3:
                raise queue.Empty
            return "work"

    assert (turns.next(Empty()), looks) == ("work", [False] * 3)


def test_the_manager_is_told_twice_as_often_as_it_asks(keeper, listening, clock):
    keeper.watch("inbox", Turns(clock.mono_ns))
    pings = []
    for _ in range(8):
        keeper.turn()
        pings.append(listening.told())
        clock.ns += PING_NS // 2
    assert pings == [["WATCHDOG=1"], []] * 4


def test_only_while_every_thread_goes_round_and_by_name_which_does_not(keeper, listening, clock):
    threads = {name: Turns(clock.mono_ns) for name in ("inbox", "sealer", "streams")}
    for name, thread in threads.items():
        keeper.watch(name, thread)
        thread.turn()
    for name in threads:
        for _ in range(4):
            clock.ns += PING_NS
            for other in threads.keys() - {name}:
                threads[other].turn()
            keeper.turn()
        assert listening.told() == [f"STATUS=stands still: {name}"]
        assert keeper.told.pop() == (name,)
        threads[name].turn()
        keeper.turn()
        assert listening.told() == ["STATUS=goes on", "WATCHDOG=1"]
        assert (keeper.told.pop(), keeper.told) == ((), [])


def test_it_says_when_the_service_is_up_and_when_it_ends(keeper, listening, clock):
    keeper.ready("serves its pages")
    keeper.end()
    keeper.end()
    keeper.turn()
    assert listening.told() == ["READY=1", "STATUS=serves its pages", "STOPPING=1"]


@pytest.mark.parametrize(
    ("changed", "ping_ns"),
    [
        ({}, PING_NS),
        ({"WATCHDOG_PID": "{own}"}, PING_NS),
        ({"WATCHDOG_PID": "{other}"}, 0),
        ({"WATCHDOG_USEC": ""}, 0),
        ({"WATCHDOG_USEC": "0"}, 0),
        ({"WATCHDOG_USEC": "soon"}, 0),
    ],
)
def test_it_pings_only_a_manager_that_asks_this_very_process(environ, changed, ping_ns):
    pids = {"own": os.getpid(), "other": os.getpid() + 1}
    asks = {key: value.format(**pids) for key, value in changed.items()}
    assert Manager({**environ, **asks}).ping_ns == ping_ns


def test_a_socket_without_a_file_is_found_by_its_name(tmp_path):
    name = f"headsweep-{tmp_path.name}-{os.getpid()}"
    with closing(Listening(f"\0{name}")) as listening:
        Manager({"NOTIFY_SOCKET": f"@{name}"}).tell("READY=1")
        assert listening.told() == ["READY=1"]


def test_a_manager_that_takes_nothing_holds_nobody_up(environ, address):
    manager = Manager(environ)
    manager.tell("READY=1")  # it has gone
    with closing(Listening(address)) as listening:
        for _ in range(2000):  # more than its queue takes: unix(7), max_dgram_qlen
            manager.tell("WATCHDOG=1")
        assert 0 < len(listening.told()) < 2000


def test_nobody_is_told_where_nobody_asked():
    manager = Manager({})
    manager.tell("READY=1")
    assert manager.ping_ns == 0


def test_health_names_every_thread_that_stands_still(clock):
    hub = Hub((), clock.mono_ns)
    hub.hold(("sealer", "told-trends"))
    assert (hub.health()["ok"], hub.health()["held"]) == (False, ["sealer", "told-trends"])
    hub.hold(())
    assert hub.health()["ok"]
