"""Gauges asked on one port: in turn, each answer to its asker, a silent one harming nobody."""

import os
import select
from dataclasses import dataclass, field
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.gauges.config import SerialLine
from daq.gauges.reader import PortReader
from daq.gauges.sending import InTurn, Sender
from daq.gauges.talk import Talk
from tests.gauges.conftest import NO_SYSFS, PATIENCE_S, QUICK, Heard, flowing_frame

MS = 1_000_000
S = 1000 * MS
TIMEOUT_MS = 50
KEYS = ("1", "2", "3")


def sender(key, **talk):
    told = {"mode": "asks", "interval": 0.1, "timeout": TIMEOUT_MS / 1000, "pause": 0.02}
    return Sender(Talk(**{**told, "request": key, **talk}), 0, shared=True)


@dataclass
class Line:
    """Gauges that answer with nothing but a number, by a clock of whole milliseconds."""

    late_ms: dict[str, list[int | None]]
    senders: dict[str, Sender] = field(default_factory=lambda: {k: sender(k) for k in KEYS})
    asked: dict[str, int] = field(default_factory=lambda: dict.fromkeys(KEYS, -1))
    counted: dict[str, list[tuple[int, int]]] = field(default_factory=lambda: {k: [] for k in KEYS})
    coming: list[tuple[int, str, int]] = field(default_factory=list)

    def run(self, until_ms):
        turns = InTurn(self.senders.values())
        for at in range(until_ms):
            if sent := turns.due(at * MS).decode():
                assert turns.wait_ns(at * MS, S) > 0
                self.asked[sent] += 1
                late = self.late_ms.get(sent) or [5]
                if (after := late.pop(0) if len(late) > 1 else late[0]) is not None:
                    self.coming.append((at + after, sent, self.asked[sent]))
            whose, came = turns.asked(at * MS), [one for one in self.coming if one[0] <= at]
            self.coming = [one for one in self.coming if one[0] > at]
            for key, each in self.senders.items():
                heard = came if whose in (None, each) else []
                for _, of, n in each.asker.take(heard, bool(heard), at * MS):
                    assert (of, n) == (key, self.asked[key]), "another's answer, or an old one"
                    self.counted[key].append((at, n))


# An answer may be as late as its time-out and the two of quiet behind it.
LATE = st.lists(st.one_of(st.none(), st.integers(1, 3 * TIMEOUT_MS - 1)), max_size=20)


@given(st.fixed_dictionaries(dict.fromkeys(KEYS, LATE)))
@settings(max_examples=15, derandomize=True, deadline=None)
def test_every_answer_that_counts_is_its_askers_newest(late_ms):
    line = Line({key: [*late, 5] for key, late in late_ms.items()})
    line.run(4000)
    assert all(each.asker.missing >= 0 for each in line.senders.values())


def test_all_are_asked_at_their_interval():
    line = Line({})
    line.run(1101)
    assert [len(found) for found in line.counted.values()] == [10, 10, 10]


def test_a_silent_one_is_asked_seldom_and_the_others_stay_fresh():
    line = Line({"2": [None]})
    line.run(20_000)
    for key in ("1", "3"):
        times = [at for at, _ in line.counted[key]]
        gaps = [after - before for before, after in pairwise(times)]
        assert max(gaps) < 100 + 3 * TIMEOUT_MS + 20  # the interval, and what it costs
        assert len(times) > 180
    assert line.counted["2"] == []
    assert line.senders["2"].asker.missing == 2 + 20 // 5  # first three in a row, then every 5 s


def test_one_that_comes_back_is_heard_again():
    line = Line({"2": [None] * 4 + [5]})
    line.run(20_000)
    assert len(line.counted["2"]) > 50
    assert line.senders["2"].asker.missing == 0


def test_start_up_commands_do_not_cut_into_each_other():
    streams = {"mode": "streams", "interval": 0.1, "step": 0.05}
    made = [Sender(Talk(**streams, start=(f"{k}a", f"{k}b")), 0, shared=True) for k in KEYS[:2]]
    turns = InTurn(made)
    sent = [(at, data) for at in range(400) if (data := turns.due(at * MS))]
    assert sent == [(0, b"1a"), (50, b"1b"), (100, b"2a"), (150, b"2b")]
    assert turns.asked(0) is None


@pytest.mark.parametrize("silent", [False, True])
def test_on_a_terminal(make_reader, far_end, silent):
    """Answers that say nothing of whose they are."""
    heard = {key: Heard() for key in KEYS[:2]}
    heard["1"].stand()
    port = PortReader(
        SerialLine("unused"), str(far_end.path), now_ns=heard["1"].now_ns, retry=QUICK,
        sysfs=NO_SYSFS,
    )  # fmt: skip
    readers = {}
    talk = {"mode": "asks", "interval": "0.5 s", "timeout": "0.1 s", "pause": "10 ms"}
    for key, each in heard.items():
        readers[key] = make_reader(
            port, gauge=key, heard=each, talk={**talk, "request": rf"{key}\r"}
        )
    port.start()
    clock = heard["1"]
    clock.opened()
    far_end.send(b"\r\n")
    taken = {key: [] for key in heard}
    while min(map(len, taken.values())) < (0 if silent else 3) or len(taken["1"]) < 3:
        clock.goes_on(50 * MS)
        if not select.select([far_end.master], [], [], 0.0)[0]:
            continue
        key = os.read(far_end.master, 100).decode().strip()
        if silent and key == "2":
            continue
        value = float(key) + len(taken[key]) / 1000
        far_end.send(flowing_frame(value))
        taken[key].append(value)
        assert heard[key].samples.get(timeout=PATIENCE_S).value_mm == value
    assert all(each.samples.empty() for each in heard.values())
    assert [reader.wire.discarded for reader in readers.values()] == [0, 0]
