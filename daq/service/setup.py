"""The setup page's view: what the files say, how the readers are doing, where the ledger ends."""

import datetime
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from daq.audit.gauge_events import GaugeChecked
from daq.audit.setup import MachineSetup
from daq.audit.state import MachineState, Shop
from daq.gauges.config import GaugeConfig
from daq.gauges.reader import Reader
from daq.gauges.wire import BytesShown, Wire
from daq.ledger.errors import LedgerError
from daq.ledger.growth import SOON_DAYS, days_left
from daq.ledger.room import room
from daq.ledger.view import LedgerView
from daq.service import fitness, learned_facts, machine_facts, shop_facts
from daq.service.clock import Clock
from daq.service.committed import Committed
from daq.service.delivery.courier import WayOut
from daq.service.files import ShopFiles
from daq.service.lengths import length, number
from daq.words import Person, Said, Stamp, Unit, said
from daq.words.setup import (
    CheckCard,
    Fact,
    FileCard,
    GaugeCard,
    LedgerCard,
    MachineCard,
    RawBytes,
    SetupView,
    WireCard,
)


@dataclass
class Setup:
    """Answers the setup page; any thread may ask. It follows the ledger.

    `shop` is the latest fold, `data` the folder with the ledger. `problem`: why that cannot be
    used, where it cannot. `ways`: how those out of the shop are doing, by name.
    """

    files: ShopFiles
    readers: Mapping[str, Reader]
    shop: Shop
    data: Path
    clock: Clock
    problem: Said | None = None
    ways: Callable[[], Mapping[str, WayOut]] = dict

    def committed(self, what: Committed) -> None:
        """Follow."""
        self.shop = what.after

    def view(self) -> SetupView:
        """Everything as it is now."""
        today = fitness.day(self.clock.stamp())
        shop = self.shop
        used_first = sorted(self.files.gauges.items(), key=lambda each: each[0] not in self.readers)
        return SetupView(
            tuple(
                _gauge(key, gauge, self.readers.get(key), shop.gauges.get(key), today)
                for key, gauge in used_first
            ),
            tuple(
                _machine(machine, shop.machine(key)) for key, machine in self.files.machines.items()
            ),
            self._ledger(),
            shop_facts.card(self.files, self.ways()),
            tuple(FileCard(str(each.path), each.problems) for each in self.files.amiss),
        )

    def _ledger(self) -> LedgerCard:
        card = ledger_card(self.data, self.clock.stamp())
        return card if self.problem is None else replace(card, problem=self.problem)


def _machine(machine: MachineSetup, state: MachineState) -> MachineCard:
    learned = learned_facts.group(machine, state.learned)
    return MachineCard(
        state.machine,
        machine.name,
        tuple(machine_facts.facts(machine)),
        (*machine_facts.groups(machine), learned),
    )


def ledger_card(data: Path, now: Stamp) -> LedgerCard:
    """Where the ledger in a data folder ends, whether its disk has room, and for how long."""
    left = room(data)
    free = said("room-free", size=f"{left.free_bytes / 1e9:.1f} GB")
    try:
        with LedgerView.open(data) as view:
            last, days = view.last(), days_left(view, left.free_bytes, now)
    except LedgerError as error:
        return LedgerCard(0, "", free, error.said)
    rows, head = last or (0, b"")
    problem = left.say
    if days is not None:
        free = said("room-lasts", free=free, days=days)
        if days < SOON_DAYS:
            problem = problem or said("room-soon-gone", days=days)
    return LedgerCard(rows, head.hex(), free, problem)


def _gauge(
    key: str,
    gauge: GaugeConfig,
    reader: Reader | None,
    check: GaugeChecked | None,
    today: tuple[datetime.date, bool],
) -> GaugeCard:
    warnings = tuple(each["say"] for each in fitness.warnings(gauge, check, *today))
    code, say, wire = "not-read", said("named-by-no-machine"), None
    facts = list(gauge_facts(gauge))
    if reader is not None:
        if reader.beside:
            beside = ", ".join(reader.beside)
            facts.append(Fact("port_beside", said("file-port-beside"), beside))
        status = reader.status
        say = status.in_full or status.say or said("gauge-is-well")
        code, wire = status.code, _wire(reader.wire)
        warnings += status.warnings
    return GaugeCard(
        key=key,
        name=gauge.name,
        code=code,
        say=say,
        warnings=warnings,
        facts=tuple(facts),
        check=_check(gauge, fitness.of_gauge(gauge, check)),
        wire=wire,
    )


def _wire(wire: Wire) -> WireCard:
    frames = tuple(_raw(frame) for frame in wire.frames)
    last = None if wire.last is None else _raw(wire.last)
    last_bad = None if wire.last_bad is None else _raw(wire.last_bad)
    return WireCard(wire.good, wire.bad, wire.damaged, frames, last, last_bad)


def _raw(shown: BytesShown) -> RawBytes:
    return RawBytes(shown.hex, shown.text)


def _check(gauge: GaugeConfig, check: GaugeChecked | None) -> CheckCard | None:
    if check is None:
        return None
    unit = unit_of(gauge)
    return CheckCard(
        day=check.day,
        passed=check.passed,
        span=length(check.span_mm, unit),
        allowed=length(check.max_error_mm, unit),
        done_by=Person(check.done_by),
        say=check.said,
    )


def unit_of(gauge: GaugeConfig) -> Unit:
    """The unit a gauge was made for: the one in which its resolution takes fewer digits."""

    def digits(unit: Unit) -> int:
        return len(number(gauge.resolution, unit).replace(".", "").strip("0"))

    return "in" if digits("in") < digits("mm") else "mm"


def gauge_facts(gauge: GaugeConfig) -> Iterable[Fact]:
    """What a gauge's file says of it, in the order people ask."""
    unit, line = unit_of(gauge), gauge.line
    calibrated = gauge.certified_on
    yield Fact("serial_number", said("file-serial-number"), gauge.serial_number)
    none = said("file-no-certificate")
    yield Fact("certificate", said("file-certificate"), gauge.certificate.number or none)
    if gauge.laboratory:
        yield Fact("laboratory", said("file-laboratory"), gauge.laboratory)
    if calibrated is not None:
        yield Fact("calibrated_on", said("file-calibrated-on"), calibrated.isoformat())
    due = gauge.calibration_due.isoformat()
    yield Fact("calibration_due", said("file-calibration-due"), due)
    yield Fact("resolution", said("file-resolution"), length(gauge.resolution, unit))
    yield Fact("travel", said("file-travel"), length(gauge.travel, unit))
    yield Fact("max_error", said("file-max-error"), length(gauge.max_error, unit))
    counts = "up" if gauge.counts_up else "down"
    yield Fact("counts_up", said("file-counts"), said("file-counts-way", way=counts))
    framing = said(
        "file-line-is", baud=line.baud, bits=line.bits, parity=line.parity, stop=line.stop
    )
    yield Fact("port", said("file-port"), line.port)
    yield Fact("line", said("file-line"), framing)
