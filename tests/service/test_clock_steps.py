"""A clock that is set while the service runs, or was set while nothing did: recorded, and told."""

import time
from datetime import UTC, datetime

import apsw
import pytest

from daq.audit.apply import fold
from daq.audit.recompute import differences
from daq.ledger import Ledger, LedgerView
from daq.ledger.verify import verify
from daq.words import Stamp
from tests.ledger.tap import tapped
from tests.service.rig import Rig
from tests.words import en

DAY_S, HOUR_S = 86400, 3600
NOW_S = 1_790_000_000  # September 2026


class SetClock:
    """A clock that counts on and can be set."""

    def __init__(self, utc_s=NOW_S, *, boot="boot-1", trusted=True):
        self.ns = 5_000_000_000
        self.ahead_s = utc_s - 5
        self.boot, self.trusted = boot, trusted

    def mono_ns(self):
        return self.ns

    def stamp(self):
        us = self.ns // 1000 + self.ahead_s * 1_000_000
        return Stamp(self.ns, us, self.boot, self.trusted)

    def set_to(self, utc_s):
        self.ahead_s = utc_s - self.ns // 10**9


@pytest.fixture
def start(tmp_path, config, sample):
    """A service on the same data folder, by this clock; the one before it is closed."""
    rigs = []

    def begin(clock):
        if rigs:
            rigs.pop().decider.close("over")
        rigs.append(Rig(tmp_path / "data", config, clock, sample))
        rigs[0].decider.shop = fold(rigs[0].ledger.events())
        return rigs[0]

    yield begin
    for rig in rigs:
        rig.decider.close("over")


def turn(rig, times=4, every_ns=100_000_000):
    for _ in range(times):
        rig.clock.ns += every_ns
        rig.decider.tick()


def steps(rig):
    with LedgerView.open(rig.ledger.path.parent) as view:
        return [event for event in view.events() if event.type == "ClockStepped"]


def foot(rig):
    pages = rig.hub.snapshot("practice-mill").pages
    assert pages["wall"].cautions == pages["console"].cautions
    return " ".join(map(en, pages["wall"].cautions))


def at(year, *more):
    return int(datetime(year, *(more or (1, 1)), tzinfo=UTC).timestamp())


@pytest.mark.parametrize(
    ("to_s", "told"),
    [
        (NOW_S - 14 * DAY_S, "set back by 14 days"),
        (NOW_S + HOUR_S, "set on by 60 minutes"),
        (at(1970), "set back by 20718 days"),
        (at(2038, 1, 20), "set on by 4138 days"),
        (at(2226), "set on by 72"),
    ],
)
def test_a_step_is_recorded_once_and_told_and_so_is_the_way_back(start, to_s, told):
    rig = start(SetClock())
    turn(rig)
    assert steps(rig) == [] and "clock" not in foot(rig)
    rig.clock.set_to(to_s)
    turn(rig, 20)
    (event,) = steps(rig)
    assert (event.machine, event.audit, event.actor) == ("", "", "service")
    by_us = event.data["after_us"] - event.data["before_us"]
    assert abs(by_us - (to_s - NOW_S) * 10**6) < 2_000_000
    assert told in foot(rig)
    assert rig.post("open", {"reason": "practice"}, "c1").result(0).accepted
    rig.clock.set_to(NOW_S + 60)
    turn(rig, 20)
    assert len(steps(rig)) == 2
    turn(rig, 2, every_ns=HOUR_S * 10**9)
    assert "clock" not in foot(rig), "an hour later it is an old story"
    folder = rig.ledger.path.parent
    assert verify(folder).ok
    with LedgerView.open(folder) as view:
        assert [e.stamp.mono_ns for e in view.events()] == sorted(
            e.stamp.mono_ns for e in view.events()
        )
        assert list(differences(view.events(), view.chunk)) == []


@pytest.mark.parametrize("by_ppm", [500, -500])
def test_a_clock_that_is_only_corrected_has_not_been_set(start, by_ppm):
    """500 ppm: as fast as the kernel corrects a clock, adjtimex(2)."""
    rig = start(SetClock())
    for n in range(1, 200):
        rig.clock.ahead_s = NOW_S - 5 + n * 30 * by_ppm / 1e6
        turn(rig, 1, every_ns=30_000_000_000)
    assert steps(rig) == []


def test_a_look_cut_in_two_is_no_step(start):
    """The process stood still between the two clocks: one stamp is off, the next is not."""
    rig = start(SetClock())
    turn(rig)
    rig.clock.ahead_s += 40
    turn(rig, 1)
    rig.clock.ahead_s -= 40
    turn(rig, 5)
    assert steps(rig) == []


def test_a_start_before_the_last_row_is_recorded_once(start):
    turn(start(SetClock()))
    rig = start(SetClock(NOW_S - 14 * DAY_S, boot="boot-2", trusted=False))
    turn(rig, 5)
    (event,) = steps(rig)
    assert event.data["after_us"] < event.data["before_us"]
    assert "it says 2026-09-07, and the record goes up to 2026-09-21" in foot(rig)
    rig = start(SetClock(NOW_S - 13 * DAY_S, boot="boot-3", trusted=False))
    turn(rig, 5)
    assert len(steps(rig)) == 1, "that is later than the last row"
    assert "the record goes up to 2026-09-21" in foot(rig)
    rig.clock.trusted = True
    rig.clock.set_to(NOW_S + DAY_S)
    turn(rig, 5)
    assert len(steps(rig)) == 2 and "set on by 14 days" in foot(rig)


def test_set_between_two_starts_of_one_boot(start):
    clock = SetClock()
    turn(start(clock))
    clock.set_to(NOW_S + DAY_S)
    rig = start(clock)
    turn(rig, 3)
    (event,) = steps(rig)
    assert 86_300 < (event.data["after_us"] - event.data["before_us"]) / 1e6 < 86_500


def test_a_clock_nobody_set_is_told_where_a_date_matters(start):
    rig = start(SetClock(trusted=False))
    turn(rig)
    assert "may be wrong" in foot(rig) and steps(rig) == []
    rig.post("open", {"reason": "practice"}, "c1")
    turn(rig)
    assert "may be wrong" not in foot(rig), "the bolts are not dated"
    rig.clock.trusted = True
    rig.post("abandon", {"why": "x"}, "c2")
    turn(rig)
    assert "may be wrong" not in foot(rig)


def test_a_flapping_clock_does_not_fill_the_record(start):
    rig = start(SetClock())
    for n in range(200):
        rig.clock.set_to(NOW_S + (n % 2) * DAY_S)
        turn(rig, 3)
    assert len(steps(rig)) == 8
    rig.clock.ns += HOUR_S * 10**9
    rig.clock.set_to(NOW_S - DAY_S)
    turn(rig, 3)
    assert len(steps(rig)) == 9 and steps(rig)[-1].data["more"] > 180


def test_a_step_that_cannot_be_recorded_yet_waits(tmp_path, config, sample):
    with tapped() as tap:
        rig = Rig(tmp_path / "data", config, SetClock(), sample)
        turn(rig)
        tap.arm(1, for_ever=True, error=apsw.FullError, only="write")
        rig.clock.set_to(NOW_S + DAY_S)
        turn(rig, 3)
        assert steps(rig) == []
        tap.disarm()
        turn(rig, 3)
        assert len(steps(rig)) == 1
        rig.decider.close("over")
    Ledger.open(tmp_path / "data").close()


OPEN, ABANDON = ("open", {"reason": "practice"}), ("abandon", {"why": "x"})

ZONES = {
    "Europe/Berlin": ((2026, 3, 29, 1), (2026, 10, 25, 1)),
    "America/New_York": ((2026, 3, 8, 7), (2026, 11, 1, 6)),
    "Australia/Lord_Howe": ((2026, 10, 3, 15, 30), (2026, 4, 4, 15)),
}
"""Both changes of each, UTC, as the IANA time zone database has them (from memory)."""


@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("change", [0, 1])
def test_a_change_to_or_from_summer_time_is_no_step(start, monkeypatch, zone, change):
    monkeypatch.setenv("TZ", zone)
    time.tzset()
    change_s = at(*ZONES[zone][change])
    before, after = (time.localtime(change_s + by).tm_gmtoff for by in (-1, 1))
    assert before != after
    rig = start(SetClock(change_s - 30))
    accepted = []
    for n in range(8):
        turn(rig, 2, every_ns=5_000_000_000)
        kind, payload = (OPEN, ABANDON)[n % 2]
        accepted += rig.post(kind, payload, f"c{n}").result(0).seqs
    assert accepted == [2, 3, 4, 5, 6, 7, 8, 9]
    assert steps(rig) == []
    monkeypatch.undo()
    time.tzset()
