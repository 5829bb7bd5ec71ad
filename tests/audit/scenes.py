"""Where an audit may stand, by living through a good many of them at the pure bench."""

from dataclasses import replace
from functools import cache

from daq.audit.state import MachineState
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.effects import Work
from daq.checks.sweep.plan import plan_of
from daq.checks.sweep.rings import NamedRing
from daq.metrology.rule import Rule
from daq.squaring.adjuster import Adjust
from daq.squaring.tightening import Tighten
from daq.words import POSITIONS
from tests.audit import morning
from tests.audit.bar import with_bar
from tests.audit.nod_bolts import BOLTS
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.audit.shapes import machine
from tests.audit.stations import BAD, FREE_MM, GOOD, VISE, offering, opened, read
from tests.audit.watched import PLAIN, Bars, Watched, hired

WORK = Work(cutter=80.0, pass_step=40.0, hole_depth=100.0, bore_diameter=50.0)


@cache
def scenes() -> tuple[MachineState, ...]:
    """Every state that one of these audits went through; a few hundred."""
    seen: list[MachineState] = []
    for live in LIVES:
        live(seen)
    return tuple(seen)


def whole(seen):
    """One axis after the other, bolt by bolt, with work named, and once more soon after."""
    bolts = {"tighten": Tighten(BOLTS, passes=3)}
    made = changed(machine(), machine={"work": WORK}, nod=bolts)
    m = hired(seen, made, shifts={"side": 0.004, "nod": -0.006}).start("after-angled-work")
    m.finish()
    hired_again = Machinist(m.bench, m.head).start("crash")
    hired_again.work("clear")
    m.bench.do("again", {"why": "a chip"})
    hired_again.work("clear")
    m.bench.do("cleared")
    m.bench.do("sign", {"done_by": "T", "last_good": "2026-01-05", "disposition": "none"})


def inches(seen):
    m = hired(seen, changed(PLAIN, gauge={"kind": "lever"}, both=COARSE))
    m.bench.unit = "in"
    m.start().finish()


COARSE = {"adjust": Adjust("rack", finish_raising="", lead=0.004)}
WORM = {"adjust": Adjust("worm", finish_raising="front", lead=0.01, backlash=0.05)}


def by_kind(seen):
    """Pushed by hand, shimmed, set on nothing, both axes loose at once; given up in the middle."""
    shims = Adjust("shim", bolt_spacing=250.0)
    hired(seen, changed(PLAIN, both={"adjust": Adjust("hand")})).start().finish()
    hired(seen, changed(PLAIN, both={"adjust": shims})).start("maintenance").finish()
    hired(seen, changed(PLAIN, both={"adjust": Adjust("none")})).start("check-only").finish()
    both = hired(seen, changed(PLAIN, machine={"loosen": "both"}, nod=WORM), nod_mm=1.2).start()
    both.work("tighten").bench.abandon("a hot job")


def judged_whole(seen):
    for name, limit in (("guarded", 0.025), ("simple", 0.025), ("guarded", 0.004)):
        rule = Rule(name, together="vector")
        made = changed(PLAIN, machine={"verdict": rule}, both={"limit": limit})
        hired(seen, made, 0.012, 0.012).start().finish()
    jointly = changed(PLAIN, machine={"verdict": Rule(together="jointly", coverage=0.9973)})
    hired(seen, jointly, 0.0, 0.0).start().finish()
    one = changed(PLAIN, nod={"one_sided": "front"}, side={"one_sided": "left", "limit": 0.05})
    hired(seen, one, 0.01, -0.01).start("practice").finish()


def eight_places(seen):
    made = changed(PLAIN, machine={"positions": tuple(POSITIONS), "seat": "table"})
    hired(seen, replace(made, plan=plan_of(tuple(POSITIONS)))).start().finish()


def two_gauges(seen):
    bar = Bars(with_bar(PLAIN, 120.0), seen)
    m = Machinist(bar, RigidHead(mill(), 0.0, -0.1)).start()
    bar.bar_sweep(m.head, 120.0)


def troubles(seen):
    """What a gauge, a knock and a person with wet hands can do to an audit."""
    m = hired(seen, changed(PLAIN, nod=WORM)).start().work("move")
    b = m.bench
    b.do("gauge-noted", {"code": "unit-changed"}, inch(b, m.face("front")))
    b.do("stopped", {}, [m.face("front")] * 10)
    b.do("answer", {"key": "turn-on"})
    b.do("zeroed", {}, [m.face("front")] * 12 + [0.0] * 6)
    b.do("restarted")
    b.do("prepared", {"serial_number": "P-1", "touched": True})
    b.abandon("no time")
    m = hired(seen, PLAIN).start().work("park")
    m.bench.do("touch")
    m.work("park")
    m.bench.take("front", m.face("front") + 0.3)
    m.bench.do("answer", {"key": "sweep-again"})
    m.bench.do("undo")
    m.bench.abandon("no time")
    m = hired(seen, PLAIN).start().work("check")
    m.bench.do("restarted")
    m.work("tighten")
    m.bench.do("gauge-fault", {"code": "unplugged"})
    m.bench.do("gauge-back", {"run": "run-2", "gauge": "arm"})
    m.bench.abandon("no time")


def inch(b, face_mm):
    b.unit = "in"
    return [face_mm] * 10


def off_scale(seen):
    b = Watched(PLAIN, seen).start()
    b.take("front", 1.2)
    b.do("off-scale", {"position": "right"})
    b.closer()
    b.abandon("no time")


def turned_round(seen):
    m = hired(seen, changed(PLAIN, machine={"seat": "ring"}), 0.0, 0.004).start()
    m.sweep()
    m.bench.do("again", {"turned": "ring"})
    m.work("final", "as-found")
    m.head.ring_deg = 180.0
    m.sweep()


def drifting(seen):
    """It does not come back: a steady drift as found, then something that moved."""
    m = hired(seen, PLAIN, 0.0, 0.03).start()
    drifting_sweep(m, "steady")
    m.work("final")
    drifting_sweep(m, "sweep-again", 0.003)
    m.bench.abandon("no time")


def drifting_sweep(m, answer, more_mm=0.001):
    """Each reading by so much more than the one before, and what is said to that."""
    for _ in range(5):
        m.step()
        m.head.zero_mm += more_mm
    m.bench.do("answer", {"key": answer})


def astray(seen):
    """Pivots far from where the file says: it goes the other way, and is turned by hand."""
    head = RigidHead(mill(nod=(-260.0, 0.0)), 0.0, -0.6)
    m = Machinist(Watched(PLAIN, seen), head).start()
    m.work("clear", "sign")


def swung_ram(seen):
    """A ram nobody said is swung: asked about, read again, denied, confirmed."""
    made = changed(PLAIN, both={"limit": 0.015})
    for answer in ("check-again", "knocked", "use"):
        m = Machinist(Watched(made, seen), RigidHead(mill(ram_deg=30.0), 0.3, -0.5)).start()
        m.work("surmise")
        m.bench.do("answer", {"key": answer})
        m.work("park")
        m.bench.abandon("no time")
    sure = changed(made, both={"coupling_doubt": 0.004})
    m = Machinist(Watched(sure, seen), RigidHead(mill(ram_deg=30.0), 0.0, -0.4)).start()
    m.work("final-ram")
    m.bench.do("answer", {"key": "not-sure"})
    m.bench.abandon("no time")


def other_checks(seen):
    """The kinds: begun again, found out, given up; a jaw tapped in."""
    for kind in GOOD:
        b = opened(Watched(offering(), seen), kind)
        read(b, GOOD[kind][:2])
        b.do("restarted")
        b.prepare(free=FREE_MM)
        b.do("touch")
        b.do("take", {}, [FREE_MM] * 10)
        read(b, [*GOOD[kind][:-1], GOOD[kind][-1] + 0.05])
        read(b, BAD[kind])
        b.do("again", {"why": "a chip"})
        read(b, BAD[kind])
        b.do("cleared")
        past = {"last_good": "2026-01-05", "disposition": "none"}
        b.do("sign", {"done_by": "T", **past})
        opened(b, kind)
        b.do("abandon", {"why": "no bar"})
    b = opened(Watched(offering({"vise": VISE}), seen), "vise")
    read(b, [1.0, 1.015, 1.03, 1.0])
    b.do("tapped", {"done": True})
    read(b, [1.03, 1.015, 1.0, 1.03])


def mornings(seen):
    """Nothing moved, and look closer."""
    b = morning.signed(Watched(morning.offering("best"), seen))
    morning.looked(b)
    morning.looked(b, nod=0.2)


def aside(seen):
    """Put aside with bolts loose, left so, put right and taken up."""
    m = hired(seen, PLAIN).start().work("move")
    b = m.bench
    b.do("put-aside", {"why": "a hot job"})
    b.do("rest", {"left": "as-is"})
    b.do("rest", {"left": "safe"})
    b.do("take-up")
    m.work("clear")


def by_key(seen):
    """A gauge that sends on its key, whose contact sticks."""
    b = Watched(PLAIN, seen)
    b.open("scheduled")
    b.do("prepared", {"serial_number": "P-1"})
    b.do("take", {}, [0.0])
    b.do("pushed", {}, [0.9])
    b.do("take", {}, [0.006])
    b.abandon("no time")


def by_power(seen):
    """Drawbar and head work by power; two people, air to vent."""
    kind = {"z": "powered", "drawbar": "power", "brake": "spring", "air": True, "people": 2}
    m = Machinist(Watched(changed(PLAIN, machine=kind), seen), RigidHead(mill(), 0.1, 0.1))
    m.bench.do("open", {"reason": "crash"})
    m.work("as-found")
    m.bench.do("abandon", {"why": "no time"})


def by_reason(seen):
    """Why it was opened, as far as that asks or shows anything of its own."""
    for reason in ("before-job", "bad-work", "moved"):
        b = Watched(PLAIN, seen)
        b.do("open", {"reason": reason})
        b.abandon("no time")
    b = Watched(PLAIN, seen)
    b.do("open", {"reason": "after-angled-work"})
    b.do("angled", {"still": True})
    b.abandon("no time")
    b = Watched(offering(), seen)
    b.do("open", {"reason": "crash"})
    b.do("bolt-moved", {"bolt": b.setup.machine.crash_bolts[0]})
    b.abandon("no time")


def marked(seen):
    """A named ring's mark is read wrong, then that of the spindle; each answer once."""
    ring = NamedRing("Ground ring", "the dot", key="ground")
    doubts = {"uncertainty": Doubts(wedge=0.010, spindle_axial=0.004), "spindle_mark": "the key"}
    b = Watched(replace(changed(PLAIN, machine=doubts), rings=(ring,)), seen)
    head = RigidHead(mill(wedge_mm=0.010, axial_mm=0.004), 0.0, 0.0)
    taught = (0.0, "ring", ""), (0.0, "arm", "")
    differ = (90.0, "ring", "misread"), (180.0, "arm", "changed"), (90.0, "ring", "not-half")
    for off_deg, turned, why in (*taught, *differ):
        head.ring_deg = head.arm_deg = off_deg
        m = Machinist(b, head).start("check-only", ring="ground", mark="right", spindle="right")
        m.work("clear")
        b.do("again", {"turned": turned})
        head.ring_deg += 180.0 * (turned == "ring")
        head.arm_deg += 180.0 * (turned == "arm")
        m.sweep()
        if why:
            b.do("differs", {"why": why})
        m.finish()


LIVES = (
    aside,
    by_key,
    by_power,
    by_reason,
    mornings,
    other_checks,
    whole,
    inches,
    by_kind,
    judged_whole,
    eight_places,
    two_gauges,
    troubles,
    off_scale,
    turned_round,
    drifting,
    astray,
    swung_ram,
    marked,
)
