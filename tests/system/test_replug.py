"""Cables pulled under a sweep, and twin adapters exchanged: nothing lost, nothing mixed up."""

from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack

import pytest

from tests.cards import READY
from tests.progress import besides
from tests.rigs.adapters import Adapter, SerialTree
from tests.system.client import faults
from tests.system.daemon import headsweep
from tests.system.floor import Screen, furnish, papers, recorded
from tests.system.person import Person
from tests.system.shop import MACHINE
from tests.system.ttygauge import TtyGauge

SWEEP = {"front": 1.200, "right": 1.160, "back": 1.120, "left": 1.161}
AROUND = (*SWEEP, "front")
SETTLING = "A reading is being taken"
TWINS = {"near": 1.0, "far": 5.0}
"""Twin adapters, and what the gauge behind each reads in the air."""


def numbered(gauge):
    """A twin's file up to its port."""
    return f"{papers(gauge)}\n[line]\nport = "


FRAMES = r"""
[talk]
interval = "20 ms"
[frame]
shape = "text"
pattern = '(?P<sign>[+-])(?P<value>\d{3}\.\d{3}) (?P<unit>mm)'
"""


@pytest.fixture
def shop(shop):
    """A take waits as long as a cable may be out on a busy machine."""
    shop.set("shop.toml", "timeout_s", "15")
    return shop


def under_way(client):
    """Whether a take is settling; what is asked here is refused in any case."""
    return SETTLING in client.post("take", {"position": "above"}).body["reason"]


def pulled_while_settling(person, gauge, position, value_mm):
    """Take a reading whose cable goes before the number has come to rest, and comes back."""
    gauge.shake()
    with ThreadPoolExecutor(1) as hand:
        take = hand.submit(person.client.post, "take", {"position": position})
        while not under_way(person.client):
            pass
        gauge.unplug()
        person.client.until(faults)
        gauge.jump_to(value_mm)
        gauge.plug()
        return take.result()


def sound(shop):
    """The ledger's chain holds, and every decision comes out of its evidence again."""
    for action in ("verify", "recheck"):
        done = headsweep("ledger", action, "--data", shop.data)
        assert (done.returncode, besides(done.stderr)) == (0, "")


def test_ten_times_under_one_sweep(person, gauge, client, daemon, shop):
    person.start()
    pid, runs = daemon.pid, {client.live().run}
    for position in AROUND:
        value_mm = SWEEP[position]
        gauge.replug()
        runs.add(client.until_live(lambda live: live.fresh and live.run not in runs).run)
        answer = pulled_while_settling(person, gauge, position, value_mm)
        assert answer.status == 200, answer
        runs.add(client.until_live(lambda live: live.fresh and live.run not in runs).run)
    assert len(runs) == 1 + 2 * len(AROUND)
    assert client.console()["step"] == "park"
    assert (daemon.alive, daemon.pid) == (True, pid)
    readings = [e.data["reading"] for e in daemon.events("ReadingTaken")]
    assert [r["position"] for r in readings] == list(AROUND)
    assert [r["mean_mm"] for r in readings] == pytest.approx([SWEEP[p] for p in AROUND], abs=1e-9)
    assert {r["gauge"] for r in readings} == {"practice"}
    assert len({r["run"] for r in readings}) == len(AROUND)
    assert runs.issuperset(r["run"] for r in readings)
    _no_sample_lost_or_doubled(shop, readings)
    told = Counter(e.type for e in daemon.events())
    assert told["GaugeFault"] == told["GaugeBack"] == 2 * len(AROUND)
    sound(shop)


def _no_sample_lost_or_doubled(shop, readings):
    samples = recorded(shop, MACHINE, "ReadingTaken")
    assert max(Counter((s.run, s.n) for s in samples).values()) == 1
    for reading in readings:
        within = [s.n for s in samples if s.run == reading["run"]]
        # The first take looks further back, for the arm's flicks.
        first = within[0] if reading is readings[0] else reading["first_n"]
        assert first <= reading["first_n"]
        assert within == list(range(first, reading["last_n"] + 1))
        assert reading["last_n"] + 1 - reading["first_n"] == reading["count"]


@pytest.fixture
def tree(tmp_path):
    return SerialTree(tmp_path / "dev")


@pytest.fixture
def twins(tmp_path, tree):
    """Two gauges, each behind an adapter without a serial number, in sockets 1 and 2."""
    with ExitStack() as plugged:
        made = {}
        for socket, name in enumerate(TWINS, 1):
            made[name] = plugged.enter_context(TtyGauge(tmp_path / f"tty-{name}"))
            tree.plug(Adapter(tmp_path / f"tty-{name}"), socket)
        yield made


@pytest.fixture
def two(shop, tree, twins):
    """A shop in which each twin is found by its socket."""
    ports = {name: tree.by_path(socket) for socket, name in enumerate(TWINS, 1)}
    furnish(shop, {name: f'{numbered(name)}"{ports[name]}"\n{FRAMES}' for name in TWINS})
    return shop


@pytest.fixture
def people(two, twins, daemon):
    return {name: Person(Screen(daemon.client, name), gauge) for name, gauge in twins.items()}


def readied(people):
    """An audit on each machine, up to where every sample is evidence."""
    for name, person in people.items():
        person.gauge.move_to(TWINS[name])
        person.client.do("open", {"reason": "scheduled"})
        person.client.do("readied", READY)
        person.client.do("warmed", {"warm": True})
        person.client.do("prepared", {"serial_number": name})
        person.client.do("take")


def all_say(people, *codes):
    """Wait until each machine says this of its gauge; return the sentences."""
    said = []
    for person in people.values():
        snapshot = person.client.until(lambda s: [f["code"] for f in faults(s)] == [*codes])
        said += [fault["say"] for fault in faults(snapshot)]
    return said


def pushed_and_swept(people):
    for name, person in people.items():
        free_mm = TWINS[name]
        person.pushed(free_mm)
        for place, position in enumerate(AROUND):
            person.take(position, free_mm + 1.0 + (place % 4) / 1000)


def only_its_own(shop):
    """No gauge has a number of the other's in anything that was recorded."""
    for name, free_mm in TWINS.items():
        samples = recorded(shop, name)
        assert {s.gauge for s in samples} == {name}
        assert all(free_mm <= s.value_mm <= free_mm + 2.0 for s in samples)
        assert len({s.run for s in samples}) > 1


def test_twins_exchanged_behind_their_names_are_refused_until_put_back(people, tree, two, daemon):
    readied(people)
    for _ in range(2):
        runs = {name: person.client.live().run for name, person in people.items()}
        tree.exchange(tree.by_path(1), tree.by_path(2))
        for say in all_say(people, "mixed-up"):
            assert "leads to another device than before: were two gauges exchanged?" in say
        tree.exchange(tree.by_path(1), tree.by_path(2))
        all_say(people)
        for name, person in people.items():
            before = runs[name]
            person.client.until_live(lambda live, before=before: live.run != before)
    pushed_and_swept(people)
    only_its_own(two)
    codes = {e.data["code"] for e in daemon.events("GaugeFault")}
    assert codes == {"mixed-up"}
    sound(two)


def test_twins_pulled_live_and_put_into_each_others_sockets_are_refused(people, tree, two):
    readied(people)
    tree.swap(1, 2)
    for say in all_say(people, "mixed-up"):
        assert "Put them back" in say
    for name, person in people.items():
        assert not person.client.until_live(lambda live: not live.fresh).fresh
        assert person.client.post("pushed").status == 422, name
        assert person.client.console()["step"] == "touch-push", name
    tree.swap(1, 2)
    all_say(people)
    pushed_and_swept(people)
    only_its_own(two)
