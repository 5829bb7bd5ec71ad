"""What the setup page is told: files, readers, papers and the ledger's end."""

import dataclasses
import datetime
import threading

import pytest

from daq.audit.gauge_events import GaugeChecked
from daq.audit.state import MachineState, Shop
from daq.gauges.config import SerialLine
from daq.gauges.reader import PortReader, Reader
from daq.ledger import Ledger
from daq.service.files import load
from daq.service.lengths import length
from daq.service.setup import Setup, unit_of
from daq.words import Person, Shown, said
from tests.patience import PATIENCE_S
from tests.system.ttygauge import TtyGauge
from tests.words import en

GOOD = said(
    "gauge-checked",
    good="yes",
    span=Shown(0.003, "mm", 3),
    allowed=Shown(0.004, "mm", 3),
    unit="mm",
)
KIT = "5f0c3a52-8f7e-4d6c-9f53-2f1f6f0a7c11"
PASSED = GaugeChecked(
    "practice", "P-0417", KIT, "2023-05-04", 0.004, (), 0.003, None, None, True, GOOD
)


@pytest.fixture
def data(tmp_path, clock):
    with Ledger.open(tmp_path / "data", stamp=clock.stamp()):
        pass
    return tmp_path / "data"


def setup_of(files, data, clock, readers=None, checks=None):
    return Setup(files, readers or {}, Shop(gauges=checks or {}), data, clock)


def card(view, key):
    return next(gauge for gauge in view.gauges if gauge.key == key)


def facts(card):
    """Every fact of a card by its key, those in groups as well."""
    told = [*card.facts, *(fact for group in getattr(card, "groups", ()) for fact in group.facts)]
    assert len({fact.key for fact in told}) == len(told)
    return {fact.key: en(fact.value) for fact in told}


def group(card, key):
    return next(group for group in card.groups if group.key == key)


def test_the_files_are_told_in_their_own_units(config, data, clock):
    view = setup_of(load(config), data, clock).view()
    inch, metric = facts(card(view, "example-inch")), facts(card(view, "practice"))
    assert (inch["resolution"], inch["travel"], inch["max_error"]) == (
        "0.0001 in",
        "0.06 in",
        "0.0005 in",
    )
    assert (metric["resolution"], metric["travel"]) == ("0.001 mm", "12.7 mm")
    assert metric["calibration_due"] == "2028-03-31"
    assert inch["certificate"] == "C-2026-118"
    assert (inch["laboratory"], inch["calibrated_on"]) == (
        "The shop's own measuring room",
        "2026-03-31",
    )
    assert metric["certificate"] == "none in its file"
    (mill,) = view.machines
    assert facts(mill)["sweep_radius"] == "100 mm"
    assert facts(mill)["nod.limit"] == "±0.025 mm over 300 mm"
    assert facts(mill)["nod.tolerance"] == "this machine's file"
    assert facts(mill)["nod.pivot"] == "180 ± 40 mm away, 330 ± 75 mm up"
    assert "nod.wanted_lean" not in facts(mill)


def test_a_wanted_lean_is_told(config, data, clock):
    files = load(config)
    mill = files.machines["practice-mill"]
    nod = dataclasses.replace(mill.nod, wanted_lean=0.01 / 300)
    leaning = dataclasses.replace(files, machines={"m": dataclasses.replace(mill, nod=nod)})
    (found,) = setup_of(leaning, data, clock).view().machines
    assert facts(found)["nod.wanted_lean"] == "0.01 mm over 300 mm"


def test_what_was_learned_is_told(config, data, clock):
    files = load(config)
    known = dataclasses.replace(files.machines["practice-mill"].prior(), audits=2)
    shop = Shop({"practice-mill": MachineState("practice-mill", learned=known)})
    (told,) = Setup(files, {}, shop, data, clock).view().machines
    assert en(group(told, "learned").note) == "From 2 audits; after ± the standard uncertainty."
    assert facts(told)["learned.nod.pivot"] == "180.0 ± 40.0 mm"
    (unknown,) = setup_of(files, data, clock).view().machines
    assert en(group(unknown, "learned").note).startswith("Nothing yet")


def test_a_gauge_no_machine_names_is_told_as_not_read(config, data, clock):
    found = card(setup_of(load(config), data, clock).view(), "example-inch")
    assert (found.code, found.wire) == ("not-read", None)


def test_papers_and_check_are_told(config, data, clock):
    files = load(config)
    gauge = dataclasses.replace(
        files.gauges["practice"], calibration_due=datetime.date(2023, 1, 31)
    )
    files = dataclasses.replace(files, gauges={"practice": gauge})
    found = card(setup_of(files, data, clock, checks={"practice": PASSED}).view(), "practice")
    assert [w for w in found.warnings if "2023-01-31" in en(w)]
    assert (found.check.day, found.check.passed) == ("2023-05-04", True)
    assert (found.check.span, found.check.allowed) == ("0.003 mm", "0.004 mm")
    assert en(found.check.say) == "Good: its errors span 0.003 mm; allowed 0.004 mm."
    assert found.check.done_by == Person(KIT)
    other = dataclasses.replace(PASSED, serial_number="OTHER")
    assert (
        card(setup_of(files, data, clock, checks={"practice": other}).view(), "practice").check
        is None
    )


def test_the_ledgers_end_and_the_disks_room_are_told(config, data, clock):
    ledger = setup_of(load(config), data, clock).view().ledger
    assert ledger.rows == 1
    assert len(ledger.head) == 64
    assert en(ledger.room).endswith("GB free")
    assert ledger.problem is None


def test_the_end_is_the_writers_own(config, data, clock):
    with Ledger.open(data) as writer:
        ledger = setup_of(load(config), data, clock).view().ledger
        assert (ledger.rows, ledger.head) == (writer.seq, writer.head)


def test_a_ledger_that_is_gone_is_told(config, tmp_path, clock):
    ledger = setup_of(load(config), tmp_path, clock).view().ledger
    assert "there is no ledger here" in en(ledger.problem)
    assert (ledger.rows, ledger.head) == (0, "")


def test_the_wire_is_shown_as_it_came(config, data, clock, tmp_path):
    files = load(config)
    gauge = dataclasses.replace(files.gauges["practice"], line=SerialLine(str(tmp_path / "gauge")))
    well = threading.Event()
    reader = Reader(
        "practice",
        gauge,
        PortReader(gauge.line, gauge.line.url(data)),
        on_sample=lambda sample: None,
        on_status=lambda status: well.set(),
        new_run=lambda: "r1",
    )
    with TtyGauge(tmp_path / "gauge") as talking:
        talking.jump_to(1.25)
        reader.start()
        try:
            assert well.wait(PATIENCE_S)
            found = card(setup_of(files, data, clock, {"practice": reader}).view(), "practice")
        finally:
            reader.stop()
    assert (found.code, en(found.say)) == ("ok", "It talks and is well.")
    assert found.wire.good > 0
    assert found.wire.frames[-1].text == "+001.250 mm"
    assert bytes.fromhex(found.wire.frames[-1].hex) == b"+001.250 mm"


def test_who_is_on_the_same_port_is_named(config, data, clock):
    files = load(config)
    port = PortReader(files.gauges["practice"].line, "unused")
    calls = dict.fromkeys(("on_sample", "on_status", "new_run"), lambda *_: "r1")
    readers = {
        key: Reader(key, files.gauges[key], port, **calls) for key in ("practice", "example-inch")
    }
    view = setup_of(files, data, clock, readers).view()
    for key, other in (("practice", "example-inch"), ("example-inch", "practice")):
        assert facts(card(view, key))["port_beside"] == files.gauges[other].name
    assert "port_beside" not in facts(card(view, "example-bcd"))


def test_units_follow_the_resolution(config):
    gauges = load(config).gauges
    assert (unit_of(gauges["practice"]), unit_of(gauges["example-inch"])) == ("mm", "in")
    assert length(25.4, "in") == "1 in"
    assert length(0.0, "mm") == "0 mm"
    fine = dataclasses.replace(gauges["practice"], resolution=0.00005 * 25.4)
    assert length(fine.resolution, unit_of(fine)) == "0.00005 in"
