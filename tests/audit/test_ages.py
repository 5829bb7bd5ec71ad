"""No number on the screens of an audit passes for one of now when it is not."""

import itertools
from dataclasses import dataclass, field, replace

import pytest

from daq.audit.codec import decode
from daq.audit.input import Refused
from daq.checks.sweep.plan import plan_of
from daq.squaring.tightening import Tighten
from daq.words import AXES
from tests.audit.conftest import Bench
from tests.audit.nod_bolts import BOLTS
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.audit.shapes import machine

WORKED = ("Loosened", "Moved", "BoltPulled", "Tightened")
KINDS = {
    "alike": {},
    "both loose": {"machine": {"loosen": "both"}},
    "three places": {"machine": {"positions": ("front", "right", "left")}},
    "bolt by bolt": {"nod": {"tighten": Tighten(BOLTS, passes=2)}},
}


@dataclass
class Last:
    """When each thing last happened, told from the record alone; 0 is never."""

    read: dict = field(default_factory=dict)
    swept: int = 0
    checked: dict = field(default_factory=dict)
    worked: dict = field(default_factory=lambda: dict.fromkeys(AXES, 0))
    disturbed: int = 0
    spared: str = ""

    def hear(self, event, data):
        now = event.seq
        if event.type in ("ReadingTaken", "Parked", "BaseRead"):
            self.read[data.reading.position] = now
        if event.type == "SweepDone" and data.usable:
            self.swept = now
        if event.type == "CheckDone":
            self.checked[data.axis] = now
        if event.type in WORKED:
            self.worked[data.axis] = now
        if event.type == "BroughtCloser":
            self.worked = dict.fromkeys(AXES, now)
        zero = event.type in ("Zeroed", "GaugeBack", "Restarted")
        zero = zero or (event.type == "FreeRead" and bool(self.swept))
        unit = event.type == "GaugeNoted" and data.unit is not None
        if zero or unit or event.type in (*WORKED, "BroughtCloser"):
            self.disturbed = now


def last(bench, read):
    """What the record says, less what was taken back; `read`: what of it was read before."""
    read += map(decode, bench.events[len(read) :])
    rows = list(zip(bench.events, read, strict=True))
    gone = {seq for event, data in rows if event.type == "Voided" for seq in data.voids}
    found = Last()
    for event, data in rows:
        if event.seq not in gone:
            found.hear(event, data)
    return found


def passing_for_now(bench, read):
    """Each number shown as if it were of now, though something came after it was read."""
    seen, view, found = last(bench, read), bench.console, []
    hands = [(step, bench.job.axis) for step in ("move", "tighten")]
    for spot in view["circle"]:
        if spot["value"] and not spot.get("age") and view["step"] in ("move", "tighten"):
            found.append(f"{view['step']}: {spot['position']} {spot['value']} under the hands")
        if spot["value"] and not spot.get("age") and seen.read[spot["position"]] < seen.disturbed:
            found.append(f"{view['step']}: {spot['position']} {spot['value']}")
    for axis in view["axes"]:
        own = seen.worked[axis["axis"]]
        if axis["value"] and not axis.get("age") and seen.swept < max(seen.worked.values()):
            found.append(f"{view['step']}: {axis['axis']} {axis['value']} without its age")
        if axis["word"] and (view["step"], axis["axis"]) in hands:
            found.append(f"{view['step']}: {axis['axis']} called {axis['word']} under the hands")
        if axis["word"] and max(seen.swept, seen.checked.get(axis["axis"], 0)) < own:
            found.append(f"{view['step']}: {axis['axis']} called {axis['word']}")
    numbers = view["numbers"]
    if numbers and not numbers.get("age") and seen.swept < max(seen.worked.values()):
        found.append(f"{view['step']}: numbers of sweep {numbers['sweep']}")
    return found


def zero(m):
    if not m.bench.job.circle.known:
        raise Refused("may-hang-in-the-air")
    before = m.face(m.place)
    m.bench.do("zeroed", {}, [before] * 12 + [0.0] * 5)
    m.plus_mm = round(m.plus_mm - before, 3)


def unit(m):
    other = "in" if m.bench.unit == "mm" else "mm"
    was, m.bench.unit = m.bench.unit, other
    try:
        m.bench.do("gauge-noted", {"code": "unit-changed"}, [m.face(m.place)] * 10)
    except Refused:
        m.bench.unit = was
        raise


def away(m):
    m.bench.do("gauge-fault", {"code": "unplugged"})
    m.bench.do("gauge-back", {"run": "run-1", "gauge": m.bench.setup.gauge.key})


def touch(m):
    m.bench.do("touch")
    m.bench.do("take", {}, [m.plus_mm] * 10)


def undo(m):
    m.bench.do("undo")


def restart(m):
    m.bench.do("restarted")


TROUBLES = {
    "none": None,
    "zero": zero,
    "unit": unit,
    "away": away,
    "touch": touch,
    "undo": undo,
    "restart": restart,
}


FEW = {("both loose", "touch"), ("three places", "away"), ("bolt by bolt", "undo")}
"""Of the other kinds one trouble each; all of them are long."""


def case(kind, trouble):
    short = kind == "alike" or (kind, trouble) in FEW
    return pytest.param(kind, trouble, marks=() if short else pytest.mark.long)


@pytest.mark.parametrize(
    ("kind", "trouble"), list(itertools.starmap(case, itertools.product(KINDS, TROUBLES)))
)
def test_no_number_passes_for_one_of_now_at_any_step_of_an_audit(kind, trouble):
    """The trouble comes at every place of the audit where it can, once at each."""
    setup = changed(machine(), **KINDS[kind])
    setup = replace(setup, plan=plan_of(setup.machine.positions))
    head = RigidHead(mill(nod=(170.0, -0.02), side=(-6.0, 0.03)), 0.32, -0.41)
    m = Machinist(Bench(setup), head, shifts={"side": 0.03, "nod": -0.03}, plus_mm=0.7).start()
    b, come, found, read = m.bench, set(), [], []
    for _ in range(400):
        if b.job.step in ("clear", "sign"):
            break
        m.step()
        found += passing_for_now(b, read)
        place = (b.job.step, b.job.axis, b.job.moves.made > 1, len(b.job.reads.taken))
        if TROUBLES[trouble] and place not in come:
            come.add(place)
            try:
                TROUBLES[trouble](m)
            except Refused:
                continue
            found += passing_for_now(b, read)
    assert b.job.step in ("clear", "sign"), b.console["title"]
    assert any(event.type == "Tightened" for event in b.events)
    assert not found, "\n".join(found)
