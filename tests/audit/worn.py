"""A machine whose head slowly goes: a long run of audits with everything that may be odd in one.

Invented numbers of no machine; the trend is made of them by the room that makes every trend.
"""

import datetime
import random
from dataclasses import replace

from daq.audit.history import NO_SUMS, History, SignedAudit
from daq.audit.parts import AxisResult, AxisShift
from daq.audit.pivots import PivotKnown
from daq.audit.setup import MachineSetup
from daq.audit.state import MachineState
from daq.audit.trend import Page, trend
from daq.metrology.rule import Limits
from daq.words import Both, Shown, said
from daq.words.trend import TrendView
from tests.audit.conftest import setup_of

MACHINE: MachineSetup = setup_of(limit=0.025).machine
DIAMETER_MM = 200.0
FIRST = datetime.date(2025, 1, 6)
BEYOND = said("off-scale-beyond", position="back", by=Shown(1.2, "mm", 1), unit="mm")
ODD = {4: "crash", 9: "after-angled-work", 14: "off-scale", 19: "unsure"}
"""Which of them, counted from the oldest, is odd, and how."""


def ident(n: int) -> str:
    """An audit's id."""
    return f"7cacbc0c-5f0e-4d3a-9d1b-{n:012d}"


def _result(error_mm: float) -> AxisResult:
    limit = 0.025 * DIAMETER_MM / 300.0
    return AxisResult(error_mm, error_mm, limit, "in" if abs(error_mm) < limit else "out")


def audit(n: int, found_mm: float, left_mm: float, shift_mm: float, doubt_mm: float) -> SignedAudit:
    """An audit of a week; its nod is found so far out over the sweep, its side a third of that."""
    odd = ODD.get(n, "")
    allowed = Limits(-0.025 * DIAMETER_MM / 300.0, 0.025 * DIAMETER_MM / 300.0)
    found = Both(_result(found_mm / 3.0), _result(0.4 if odd == "crash" else found_mm))
    return SignedAudit(
        audit=ident(n),
        short=f"A-{n:04d}",
        seq=100 + n,
        utc_us=n,
        utc_trusted=odd != "unsure",
        day=(FIRST + datetime.timedelta(7 * n)).isoformat(),
        reason=odd if odd in ("crash", "after-angled-work") else "scheduled",
        diameter_mm=DIAMETER_MM,
        as_found=None if odd == "off-scale" else found,
        as_left=Both(_result(left_mm), _result(-left_mm)),
        word="in",
        moves=2,
        limits=Both(allowed, allowed),
        pivots=Both(
            PivotKnown(2.0, doubt_mm / 5.0, n), PivotKnown(151.0 + 9.0 * shift_mm, doubt_mm, n)
        ),
        shifts=(AxisShift("nod", shift_mm), AxisShift("side", -shift_mm / 2.0)),
        off_scale=BEYOND if odd == "off-scale" else None,
        previous=None if n == 0 else 99 + n,
    )


def audits(count: int) -> tuple[SignedAudit, ...]:
    """So many, oldest first: from the middle on the nod goes a little further each week."""
    chance = random.Random(7)
    return tuple(
        audit(
            n,
            chance.gauss(0.0, 0.003) + 0.012 * max(0.0, n / count - 0.5),
            chance.gauss(0.0, 0.0012),
            chance.gauss(0.002, 0.001),
            40.0 / (1.0 + n) ** 0.5,
        )
        for n in range(count)
    )


def view(count: int, unit: str = "mm") -> TrendView:
    """The trend of so many, all shown."""
    history = History()
    shown = audits(count)
    for each in shown:
        history = history.then(each)
    machine = replace(MACHINE, unit=unit)
    learned = replace(machine.prior(), audits=count) if count else None
    state = MachineState("mill", history=history, learned=learned)
    return trend(state, machine, "2029-06-01", Page(shown, NO_SUMS, None))
