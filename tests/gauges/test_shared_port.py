"""Several gauges on one port: one thread reads it, each gauge is heard as if it were alone."""

import random
import threading

import pytest

from daq.gauges.config import SerialLine
from daq.gauges.link import Link
from daq.gauges.reader import PortReader
from tests.gauges.conftest import NO_SYSFS, QUICK, FarEnd, Heard
from tests.gauges.test_reader_held import reading
from tests.gauges.tree import point
from tests.patience import until
from tests.words import en

S = 1_000_000_000
KEYS = ("C1", "C2", "C3")
SILENT = "Test gauge: frames come on its port, but none of its own: is its transmitter on, and"


def channel(name, **changes):
    layout = [f"text {name};", "sign", "number 3.3", "text ;", "flags"]
    frame = {"shape": "fields", "layout": layout, "terminator": "\r\n", "unit": "mm"}
    frame |= {"flags": {"OK": "", "LO": "weak-battery", "RF": "weak-link"}}
    return {"frame": frame, "talk": {"interval": "20 ms", "pause": "20 ms"}, **changes}


def wire(name, value_mm, flag="OK"):
    return f"{name};{value_mm:+08.3f};{flag}\r\n".encode()


class Shared:
    """One port, a reader and what it says for each gauge on it."""

    def __init__(self, make_reader, far_end, gauges):
        self.end = far_end
        self.heard = {key: Heard() for key in gauges}
        self.clock = self.heard[KEYS[0]]
        self.port = PortReader(
            SerialLine("unused"), str(far_end.path), now_ns=self.clock.now_ns, retry=QUICK,
            sysfs=NO_SYSFS,
        )  # fmt: skip
        self.readers = {
            key: make_reader(self.port, gauge=key, heard=self.heard[key], **changes)
            for key, changes in gauges.items()
        }

    def start(self):
        for reader in self.readers.values():
            reader.start()
        return {key: each.opened() for key, each in self.heard.items()}

    def say(self, *frames):
        for frame in frames:
            self.end.send(frame)

    def until(self, code):
        return {key: each.until(code) for key, each in self.heard.items()}


@pytest.fixture
def shared(make_reader, far_end):
    def make(gauges=None):
        return Shared(make_reader, far_end, gauges or {key: channel(key) for key in KEYS})

    return make


@pytest.mark.parametrize("count", [600, pytest.param(10_000, marks=pytest.mark.long)])
def test_every_value_comes_to_its_gauge_in_order(shared, count):
    one = shared()
    one.start()
    rng = random.Random(count)
    sent = [(rng.choice(KEYS), rng.randrange(-99_999, 99_999) / 1000) for _ in range(count)]
    came = b"\r\n" + b"".join(wire(*each) for each in sent)
    while came:  # as fast as it is read, which is faster than any line
        size = rng.randrange(1, 400)
        one.say(came[:size])
        came = came[size:]
    for key, each in one.heard.items():
        wanted = [value for name, value in sent if name == key]
        samples = [each.sample() for _ in wanted]
        assert [sample.value_mm for sample in samples] == wanted
        assert [sample.n for sample in samples] == list(range(len(wanted)))
        assert {(sample.gauge, sample.run) for sample in samples} == {(key, "run-1")}
        assert each.samples.empty()
    one.port.stop()
    assert {reader.status.bad for reader in one.readers.values()} == {0}
    assert [thread for thread in threading.enumerate() if thread.name.startswith("gauge-")] == []


def test_one_thread_reads_for_all(shared):
    one = shared()
    one.start()
    names = [thread.name for thread in threading.enumerate()]
    assert [name for name in names if name.startswith("gauge-")] == ["gauge-C1+C2+C3"]


def test_one_transmitter_that_is_silent_is_told_of_alone(shared):
    one = shared()
    one.start()
    one.say(b"\r\n", *(wire(key, 1) for key in KEYS))
    one.until("ok")
    one.clock.stand()
    for _ in range(8):
        one.clock.goes_on(S // 5)
        one.say(wire("C1", 2), wire("C3", 3))
        until(lambda: one.readers["C3"].ring.latest().mono_ns == one.clock.now_ns())
    status = one.heard["C2"].status()
    assert status.code == "other-channel"
    assert en(status.say).startswith(SILENT)
    assert one.readers["C2"].status.bad == 0
    assert [one.readers[key].status.code for key in ("C1", "C3")] == ["ok", "ok"]
    one.say(*(wire(key, 4) for key in KEYS))
    one.clock.goes_on(S // 5)
    assert one.heard["C2"].until("ok").run == "run-1"
    assert all(one.heard[key].statuses.empty() for key in ("C1", "C3"))


def test_all_silent_is_silence(shared):
    one = shared()
    one.start()
    one.say(b"\r\n", *(wire(key, 1) for key in KEYS))
    one.until("ok")
    one.clock.ahead_ns += 4 * S
    for status in one.until("silent").values():
        assert "silent for 4 s" in en(status.say)


def test_battery_and_link_are_each_gauges_own(shared):
    one = shared()
    one.start()
    one.say(b"\r\n", wire("C1", 1, "LO"), wire("C2", 1), wire("C3", 1, "RF"))
    told = {key: [en(each) for each in status.warnings] for key, status in one.until("ok").items()}
    assert told == {
        "C1": ["Test gauge: its battery is weak: change it before the next job."],
        "C2": [],
        "C3": ["Test gauge: its radio link is weak: clear the way to its receiver."],
    }


def test_a_port_that_goes_is_told_for_each_and_comes_back_for_each(shared, far_end):
    one = shared()
    before = one.start()
    for _ in range(5):
        one.say(b"\r\n", *(wire(key, 1) for key in KEYS))
        one.until("ok")
        one.say(wire("C1", 2)[:7])  # never to be joined to what comes next
        far_end.unplug()
        for status in one.until("unplugged").values():
            assert en(status.say) == "Test gauge has gone: is the cable plugged in?"
            assert str(far_end.path) in en(status.in_full)
        far_end.plug()
        runs = {key: each.opened() for key, each in one.heard.items()}
        assert all(runs[key] != before[key] for key in KEYS)
        before = runs
    one.port.stop()
    for reader in one.readers.values():
        assert {sample.value_mm for sample in reader.ring.since(None, 0).samples} == {1.0}


def test_a_busy_port_is_told_for_each(shared, far_end):
    other = Link(SerialLine("unused"), str(far_end.path), 0.1)
    one = shared()
    for reader in one.readers.values():
        reader.start()
    for status in one.until("busy").values():
        assert en(status.say) == "Test gauge: another program has its port open; close it there."
    other.close()
    for each in one.heard.values():
        each.opened()
    one.say(b"\r\n", *(wire(key, 1) for key in KEYS))
    one.until("ok")


def test_an_adapter_swapped_for_another_is_told_for_each_until_it_is_back(
    shared, far_end, tmp_path
):
    other = FarEnd(tmp_path / "other")
    other.plug()
    one = shared()
    one.start()
    one.say(b"\r\n", *(wire(key, 1) for key in KEYS))
    one.until("ok")
    point(far_end.path, other.node)
    for status in one.until("mixed-up").values():
        assert "leads to another device than before" in en(status.say)
    point(far_end.path, far_end.node)
    for each in one.heard.values():
        each.opened()
    one.say(b"\r\n", *(wire(key, 1) for key in KEYS))
    one.until("ok")
    other.unplug()


def test_a_thread_held_in_the_port_is_told_of_for_each(shared, monkeypatch):
    let_go = threading.Event()
    due = reading(monkeypatch, lambda: let_go.wait() and b"")
    one = shared()
    one.start()
    one.say(b"\r\n", *(wire(key, 1) for key in KEYS))
    one.until("ok")
    due.set()
    one.clock.ahead_ns += 5 * S
    until(lambda: {each.status.code for each in one.readers.values()} == {"stuck"})
    let_go.set()


def test_two_gauges_in_one_line(shared):
    def field(before, behind):
        layout = [*before, "sign", "number 3.3", *behind]
        frame = {"shape": "fields", "layout": layout, "terminator": "\r\n", "unit": "mm"}
        return {"frame": frame}

    one = shared({"C1": field(["text A="], ["any"]), "C2": field(["any", "text  B="], [])})
    one.start()
    one.say(b"\r\n", *(b"A=%+08.3f B=%+08.3f\r\n" % (k, -k) for k in range(20)))
    for key, sign in (("C1", 1), ("C2", -1)):
        found = [one.heard[key].sample() for _ in range(20)]
        assert [sample.value_mm for sample in found] == [sign * k for k in range(20)]
    assert one.heard["C1"].samples.empty()


def test_keys_of_others_are_no_fault(shared):
    one = shared({key: channel(key, talk={"mode": "key", "pause": "20 ms"}) for key in KEYS})
    one.start()
    one.until("ok")
    one.clock.stand()
    one.say(b"\r\n")
    for _ in range(5):
        one.say(wire("C1", 1))
        one.heard["C1"].sample()
        one.clock.goes_on(S)
    assert [reader.status.code for reader in one.readers.values()] == ["ok"] * 3
