"""What a gauge's papers say against it reaches the snapshot and the audit's opening."""

import dataclasses
import datetime

import pytest

from daq.audit.codec import decode
from daq.audit.gauge_events import GaugeChecked
from daq.audit.parts import CheckPoint
from daq.audit.recompute import differences
from daq.audit.state import Shop
from daq.gauges.ring import Ring
from daq.ledger import Ledger
from daq.service.files import load, with_check
from daq.service.hub import Hub, Served
from daq.service.shopfloor import Shopfloor
from daq.service.wired import wired
from daq.words import Command, GaugeStatus, said
from tests.words import en

MILL = "practice-mill"
FAILED = GaugeChecked(
    "practice",
    "P-0417",
    "Kit",
    "2023-05-04",
    0.004,
    (),
    0.006,
    None,
    None,
    False,
    said("gauge-checked"),
)
STEPPED = dataclasses.replace(
    FAILED,
    points=tuple(
        CheckPoint(mm, mm + off, "up") for mm, off in ((0.0, 0.0), (0.1, 0.002), (0.2, 0.001))
    ),
)
BEFORE = datetime.date(2023, 11, 14)  # the clock's day in these tests


@pytest.fixture
def rig(tmp_path, config, clock):
    class Rig:
        def __init__(self, gauges=None, checks=None):
            shop = load(config)
            self.hub = Hub((Served(MILL, "Mill", "practice", 1000),), clock.mono_ns)
            self.ledger = Ledger.open(tmp_path / "data", stamp=clock.stamp())
            state = Shop(gauges=checks or {})
            used = gauges or shop.used_gauges
            floor = Shopfloor(shop.audit_setup, {"practice": Ring()})
            self.decider = wired(self.ledger, state, self.hub, clock, "test", used, floor, {})

        def codes(self):
            return [(f["code"], f.get("kind")) for f in self.hub.snapshot(MILL).faults]

    made = []

    def make(**given):
        made.append(Rig(**given))
        return made[-1]

    yield make
    for each in made:
        each.decider.close("over")


def due(config, day):
    gauge = load(config).gauges["practice"]
    return {"practice": dataclasses.replace(gauge, calibration_due=day)}


def test_an_overdue_gauge_is_shown_and_stays_shown_with_a_fault(rig, config):
    made = rig(gauges=due(config, datetime.date(2023, 11, 13)))
    assert made.codes() == [("overdue", "warning")]
    assert "2023-11-13" in en(made.hub.snapshot(MILL).faults[0]["say"])
    made.decider.gauge_status(GaugeStatus("practice", "silent", "It is silent.", "r", 0, 0, 0))
    assert made.codes() == [("silent", None), ("overdue", "warning")]


def test_a_calibration_that_runs_out_overnight_is_shown_in_the_morning(rig, config, clock):
    made = rig(gauges=due(config, BEFORE))
    assert made.codes() == []
    clock.ns += 24 * 3600 * 1_000_000_000
    made.decider.tick()
    assert made.codes() == [("overdue", "warning")]


def test_a_calibration_still_to_come_is_shown_once_the_clock_is_set(
    rig, config, clock, monkeypatch
):
    gauge = load(config).gauges["practice"]
    ahead = dataclasses.replace(gauge, calibrated_on=BEFORE + datetime.timedelta(days=1))
    made = rig(gauges={"practice": ahead})
    assert made.codes() == []
    stamp = clock.stamp
    monkeypatch.setattr(clock, "stamp", lambda: dataclasses.replace(stamp(), utc_trusted=True))
    clock.ns += 10_000_000_000
    made.decider.tick()
    assert made.codes() == [("calibrated-ahead", "warning")]
    clock.ns += 24 * 3600 * 1_000_000_000
    made.decider.tick()
    assert made.codes() == []


def test_a_failed_check_is_shown(rig):
    made = rig(checks={"practice": FAILED})
    assert made.codes() == [("check-failed", "warning")]


def test_what_the_gauge_itself_warns_of_is_shown(rig):
    made = rig()
    made.decider.gauge_status(
        GaugeStatus("practice", "ok", "", "r", 9, 0, 5, warnings=("Its battery is weak.",))
    )
    assert made.codes() == [("gauge", "warning")]


def test_an_audit_keeps_the_gauges_papers_and_its_latest_check(rig):
    made = rig(checks={"practice": FAILED})
    ack = submit(made)
    assert ack.accepted
    opened = decode(next(e for e in made.ledger.events() if e.type == "AuditOpened"))
    gauge = opened.setup.gauge
    assert (gauge.checked_on, gauge.check_passed) == ("2023-05-04", False)
    assert gauge.calibration_due == "2028-03-31"
    assert list(differences(made.ledger.events(), made.ledger.chunk)) == []


CERTIFICATE = """
[certificate]
number = "C-7"
uncertainty = "0.0012 mm"
date = 2022-11-14
condition = "20 deg C, vertical"
drift = "0.0004 mm"
"""


def test_the_certificate_in_force_is_kept_with_the_day_and_decided_again_from_it(rig, config):
    """A year lies between its certificate and the audit: by the row's stamp, not by a clock."""
    path = config / "gauges" / "practice.toml"
    path.write_text(path.read_text(encoding="utf-8") + CERTIFICATE, encoding="utf-8")
    made = rig(checks={"practice": STEPPED})
    assert submit(made).accepted
    setup = decode(next(e for e in made.ledger.events() if e.type == "AuditOpened")).setup
    assert (setup.gauge.certificate, setup.day) == ("C-7", "2023-11-14")
    assert setup.gauge.certificate_condition == "20 deg C, vertical"
    papers = setup.gauge.papers(setup.day)
    assert papers.u_mm == pytest.approx(0.0006)
    assert papers.gone_mm == pytest.approx(0.0004, rel=0.002)
    assert papers.span_error_mm == pytest.approx(0.002)
    assert setup.gauge.papers("2021-01-01").gone_mm == 0.0  # a clock that is behind
    assert list(differences(made.ledger.events(), made.ledger.chunk)) == []


def both_ways(*offs):
    """A check up and down that many times, each time off by so much besides."""
    way = ((0.0, "up", 0.0), (1.0, "up", 0.0), (0.0, "down", 0.003))
    points = [CheckPoint(mm, mm + off - back, up) for off in offs for mm, up, back in way]
    return dataclasses.replace(STEPPED, points=tuple(points))


BOTH_WAYS = both_ways(0.0, 0.002, -0.002)


def test_what_a_check_measured_is_kept_unless_the_machines_file_says_another_figure(rig, config):
    kept = with_check(load(config).audit_setup(MILL), {"practice": BOTH_WAYS}).gauge.measured
    assert (kept.day, kept.friction_mm) == ("2023-05-04", pytest.approx(0.0015))
    # Six degrees of freedom, what few repeats leave of 0.002 mm.
    assert kept.sd_mm == pytest.approx(0.002 * (6.0 / 4.0) ** 0.5)
    path = config / "machines" / f"{MILL}.toml"
    own = '[uncertainty]\nfriction = "0.0009 mm"\nrepeatability = "0.0011 mm"\n'
    text = path.read_text(encoding="utf-8")
    assert "[uncertainty]" not in text
    path.write_text(f"{text}\n{own}", encoding="utf-8")
    told = with_check(load(config).audit_setup(MILL), {"practice": BOTH_WAYS}).gauge.measured
    assert (told.friction_mm, told.sd_mm) == (None, None)
    made = rig(checks={"practice": BOTH_WAYS})
    assert submit(made).accepted
    assert list(differences(made.ledger.events(), made.ledger.chunk)) == []


def test_a_bench_that_repeats_better_than_is_assumed_does_not_narrow_what_the_arm_adds(config):
    setup = load(config).audit_setup(MILL)
    kept = with_check(setup, {"practice": both_ways(0.0, 0.0, 0.0)}).gauge.measured
    assert (kept.friction_mm, kept.sd_mm) == (pytest.approx(0.0015), None)


def submit(made):
    from concurrent.futures import Future

    reply = Future()
    made.decider.receive(Command("c1", MILL, "open", {"reason": "practice"}), 0, reply)
    return reply.result(0)


def test_another_gauges_check_is_not_kept(config):
    setup = load(config).audit_setup(MILL)
    other = dataclasses.replace(FAILED, serial_number="OTHER")
    assert with_check(setup, {"practice": other}) == setup
    assert with_check(setup, {}) == setup
    assert with_check(None, {"practice": FAILED}) is None


def test_the_files_papers_are_kept(config):
    path = config / "gauges" / "practice.toml"
    extra = 'certificate = "C-1"\nlaboratory = "Own room"\ncalibrated_on = 2027-03-31\n'
    path.write_text(extra + path.read_text(encoding="utf-8"), encoding="utf-8")
    gauge = load(config).audit_setup(MILL).gauge
    assert (gauge.certificate, gauge.laboratory) == ("C-1", "Own room")
    assert gauge.calibrated_on == "2027-03-31"
    assert gauge.checked_on is None
