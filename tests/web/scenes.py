"""Every situation a screen can stand at, made by running audits at the pure bench.

Nothing here is worded or counted by hand: what stands on a page is what the product says. The
live number, and what becomes of a press or of the recording, come from the service's own hub.
"""

import uuid
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any, Literal

from daq.audit.views import Aim, aim
from daq.audit.views.console import console
from daq.audit.views.wall import wall
from daq.checks.sweep.effects import Work
from daq.checks.sweep.plan import plan_of
from daq.metrology.rule import Rule
from daq.says import language
from daq.service.hub import Hub, Served
from daq.squaring.adjuster import Adjust
from daq.squaring.tightening import Tighten
from daq.units import show
from daq.words import POSITIONS, Live, Position, Sample, Snapshot
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill

MACHINE = "practice-mill"
NAME = "Practice mill"
BOLTS = tuple(f"nod bolt {number}" for number in (1, 3, 2, 4))
PIVOT_MM = 180.0
REASON = "after-angled-work"
FRESH_MS = 1000
NOD_MM = -0.5
"""How far out the nod is in most situations, across the sweep."""

SITUATIONS: dict[str, Callable[[], Bench]] = {}
"""How each situation is come to, by its name."""


class Numbered(Bench):
    """A bench whose commands, and so whose audits, have the same names every time."""

    def do(self, kind, payload=None, values=(), command_id=None):
        """Post a command; see `Bench`."""
        made = str(uuid.UUID(int=len(self.inputs) + 1, version=4))
        return super().do(kind, payload, values, command_id or made)


def bench(**more) -> Numbered:
    """The practice mill as its files say, besides `more`."""
    setup = changed(
        setup_of(limit=0.025, nod_pivot=PIVOT_MM, height=330.0, gauge="practice"),
        machine={"name": NAME, "work": Work(80.0, pass_step=60.0, hole_depth=100.0)},
        gauge={"name": "Practice gauge", "serial_number": "P-0417"},
    )
    return Numbered(changed(setup, **more), MACHINE)


def audit(made: Bench, side_mm=0.08, nod_mm=NOD_MM, pivot_mm=PIVOT_MM, **hands) -> Machinist:
    """An audit of a head that leans so, opened and touched; who does it."""
    head = RigidHead(mill(nod=(pivot_mm, 0.0), height_mm=330.0), side_mm, nod_mm)
    return Machinist(made, head, **hands).start(REASON)


def at(step: str, made: Bench | None = None, **head) -> Machinist:
    """The audit worked as far as a step."""
    return audit(made or bench(), **head).work(step)


def situation(made: Callable[[], Bench]) -> Callable[[], Bench]:
    """Keep a situation under its function's name."""
    SITUATIONS[made.__name__.rstrip("_").replace("_", "-")] = made
    return made


@situation
def idle() -> Bench:
    return bench()


@situation
def prepare() -> Bench:
    b = bench()
    b.do("open", {"reason": REASON})
    return b


@situation
def touch_free() -> Bench:
    b = prepare()
    b.do("prepared", {"serial_number": "P-0417"})
    return b


@situation
def touch_push() -> Bench:
    b = touch_free()
    b.do("take", {}, [0.0] * 10)
    return b


@situation
def as_found() -> Bench:
    m = at("as-found")
    for _ in range(3):
        m.step()
    return m.bench


@situation
def park() -> Bench:
    return at("park").bench


@situation
def big_nod() -> Bench:
    return at("park", nod_mm=1.5).bench


@situation
def question() -> Bench:
    """Parked at the front it reads what the back did: the circle was walked the wrong way."""
    m = at("park")
    m.bench.take("front", m.face("back"))
    return m.bench


@situation
def loosen() -> Bench:
    return at("loosen").bench


@situation
def move() -> Bench:
    return at("move").bench


def short_travel(finish: Position) -> Bench:
    """A gauge that runs out of travel, a worm whose last turn must raise that side."""
    nod = {"adjust": Adjust("worm", finish_raising=finish, lead=0.01)}
    return bench(gauge={"travel": 1.45}, nod=nod)


@situation
def loosen_warned() -> Bench:
    return at("loosen", short_travel("front")).bench


@situation
def move_past() -> Bench:
    return at("move", short_travel("front")).bench


@situation
def stop_far() -> Bench:
    """Pressed before anything was turned."""
    m = at("move")
    m.bench.do("stopped", {}, [m.face(m.place)] * 10)
    return m.bench


def to_zero(m: Machinist) -> Bench:
    """The number goes to zero from one moment to the next."""
    m.bench.do("zeroed", {}, [m.face(m.place)] * 12 + [0.0] * 5)
    return m.bench


@situation
def zeroed() -> Bench:
    return to_zero(audit(bench(), plus_mm=0.1).work("loosen"))


@situation
def zeroed_or_lifted() -> Bench:
    """In the air it reads zero, too."""
    return to_zero(at("move"))


@situation
def stuck() -> Bench:
    """A number that flickered before stands still."""
    b = bench()
    b._still = lambda samples: samples[-10:]
    m = audit(b)
    m.work("as-found")
    b.do("take", {"position": "front"}, [m.face("front") + 0.001 * (n % 2) for n in range(20)])
    b.do("gauge-noted", {"code": "stuck"}, [m.face("front")] * 160)
    return b


@situation
def check() -> Bench:
    return at("check").bench


@situation
def moved() -> Bench:
    """Turned the other way, on purpose."""
    m = at("move")
    stop = m.bench.job.stop
    m.head.turn("nod", "front", 2.0 * stop.base_face_mm - stop.stop_face_mm)
    m.bench.do("stopped", {"on_purpose": True}, [m.face("front")] * 10)
    return m.bench


def checked(m: Machinist) -> Bench:
    """Both readings of a check."""
    m.step()
    m.step()
    return m.bench


@situation
def bumped() -> Bench:
    m = at("check")
    m.head.lift_mm -= 0.04
    m.head.shift("side", 0.03)
    return checked(m)


@situation
def wrong_adjuster() -> Bench:
    m = at("move", side_mm=0.2, nod_mm=0.0)
    stop = m.bench.job.stop
    m.head.turn("nod", stop.position, stop.stop_face_mm)
    m.bench.do("stopped", {}, [m.face(stop.position)] * 10)
    return checked(m)


@situation
def reversed_() -> Bench:
    return checked(at("check", side_mm=0.0, nod_mm=0.05, pivot_mm=-250.0))


@situation
def astray() -> Bench:
    radius_mm = 145.0
    b = bench(machine={"sweep_radius": radius_mm})
    head = RigidHead(mill(radius_mm, nod=(-20.0, 0.0), height_mm=330.0), 0.0, -0.122)
    return checked(Machinist(b, head).start(REASON).work("check"))


def bolted_by(**tighten) -> Bench:
    """The nod loose and squared, its bolts to be pulled up one by one."""
    return at("tighten", bench(nod={"tighten": Tighten(BOLTS, **tighten)})).bench


@situation
def bolt_first() -> Bench:
    return bolted_by()


@situation
def bolt_over() -> Bench:
    """The second bolt of the second pass moved the number by 0.012."""
    b = bolted_by()
    face_mm = b.job.tight_face_mm
    for n in range(6):
        face_mm += 0.012 if n == 5 else 0.0
        b.do("bolt", {"bolt": BOLTS[n % len(BOLTS)]}, [face_mm] * 10)
    return b


@situation
def bolts_together() -> Bench:
    return at("tighten").bench


def tight(m: Machinist) -> Machinist:
    """The nod squared and tight, its check to come."""
    m.work("tighten").step()
    return m


@situation
def read_again() -> Bench:
    m = tight(at("tighten"))
    m.head.shift("nod", 0.15)
    return checked(m)


@situation
def knocked_tight() -> Bench:
    """Before its own move the other axis is read, and does not stand as the first one left it."""
    m = tight(at("tighten", side_mm=0.4, pivot_mm=210.0))
    checked(m)
    m.head.shift("side", 0.15)
    return checked(m)


@situation
def pulled_out() -> Bench:
    """Tightening put the nod out again: one more move."""
    m = tight(at("tighten", side_mm=0.0, shifts={"nod": 0.028}))
    checked(m)
    return m.work("park").bench


@situation
def final() -> Bench:
    m = at("final")
    m.step()
    return m.bench


@situation
def apart() -> Bench:
    m = at("final")
    m.head.lift_mm -= 0.04
    m.head.shift("side", 0.05)
    m.sweep()
    return m.bench


@situation
def clear() -> Bench:
    return at("clear").bench


@situation
def clear_out() -> Bench:
    """Left as it is, out, where only the left side may be low."""
    m = at("park", bench(side={"one_sided": "left"}))
    m.bench.do("stop-here", {"why": "no time"})
    m.work("clear")
    return m.bench


@situation
def final_close() -> Bench:
    """Too close to call: to the right less may be low than to the left, the back not at all."""
    axes = {"side": {"limit": 0.015, "limit_low": 0.025}, "nod": {"one_sided": "front"}}
    rule = {"verdict": Rule("guarded", coverage=0.95)}
    m = at("park", bench(machine=rule, **axes), side_mm=0.004, nod_mm=0.016)
    m.bench.do("stop-here", {"why": "closer than this cannot be told"})
    return m.work("clear").bench


@situation
def sign() -> Bench:
    m = at("clear")
    m.bench.do("cleared")
    return m.bench


@situation
def sign_close() -> Bench:
    """A gauge too coarse for the tolerance, and two sweeps of which one is to count."""
    m = at("clear", bench(nod={"limit": 0.003}), side_mm=0.0, nod_mm=0.001)
    m.bench.do("again", {"why": "the ring was not wiped"})
    m.work("clear")
    m.bench.do("cleared")
    return m.bench


@situation
def signed() -> Bench:
    m = at("clear")
    m.finish()
    return m.bench


@situation
def closer() -> Bench:
    m = at("as-found")
    m.step()
    m.bench.do("off-scale", {"position": m.bench.console["do"]["position"]}, [0.0] * 10)
    return m.bench


@situation
def unsafe() -> Bench:
    b = closer()
    b.do("abandon", {"why": "no time"})
    return b


@situation
def restarted() -> Bench:
    m = at("move")
    m.bench.do("restarted")
    return m.bench


@situation
def shim() -> Bench:
    """In inches, with eight spots, the longest names of the example files, and a shim to put in."""
    spots = tuple(POSITIONS)
    side = {"bolts": "the four face bolts", "adjuster": "the worm on the right of the head"}
    nod = {
        "bolts": "the two nod bolts",
        "adjuster": "shims under the knuckle",
        "adjust": Adjust("shim", bolt_spacing=200.0),
    }
    machine = {"name": "Ram mill", "unit": "in", "positions": spots}
    b = bench(machine=machine, gauge={"resolution": 0.0005 * 25.4}, side=side, nod=nod)
    b.setup = replace(b.setup, plan=plan_of(spots))
    b.unit = "in"
    return at("move", b).bench


@cache
def made(name: str) -> Bench:
    """The bench of a situation, run once."""
    return SITUATIONS[name]()


def scene(name: str, seq: int = 41) -> Snapshot:
    """A situation as the screens get it."""
    return Screen(made(name)).publish(seq)


def view(name: str) -> dict[str, Any]:
    """What the console shows of a situation."""
    return dict(scene(name).pages["console"])


class Screen:
    """A situation as the service's hub shows it; `ns` is the hub's clock."""

    def __init__(self, stands: Bench, *, keyed: bool = False) -> None:
        """Take the bench as it stands; `keyed`: its gauge sends on its own key."""
        self.bench = stands
        self.state = stands.shop.machine(MACHINE)
        self.gauge = stands.setup.gauge.key
        self.ns = 1_000_000_000_000
        served = Served(MACHINE, NAME, self.gauge, None if keyed else FRESH_MS)
        self.hub = Hub((served,), lambda: self.ns)
        self.n = 100

    @property
    def aim(self) -> Aim:
        """What the number is held against."""
        found = aim(self.state)
        assert found is not None
        return found

    def publish(self, seq: int = 41, **more: Any) -> Snapshot:
        """The snapshot under this number, and whatever else it is to carry."""
        pages = {"wall": wall(self.state, NAME), "console": console(self.state, NAME)}
        told = language().told(pages)
        shown = Snapshot(MACHINE, seq, "ab12" * 16, told, (), {"ok": True, "say": ""})
        self.hub.publish(replace(shown, **more), aim(self.state), self.gauge)
        return self.hub.snapshot(MACHINE)

    def reads(self, *faces_mm: float, unit: Literal["mm", "in"] | None = None) -> Live:
        """What the screens are sent once the gauge has shown these numbers."""
        unit = unit or self.bench.unit
        for face_mm in faces_mm:
            self.n += 1
            text = show(face_mm, unit, 3 if unit == "mm" else 4)
            given = (self.gauge, "run-1", self.n, self.ns, text, unit, face_mm, (), text.encode())
            self.hub.on_sample(Sample(*given))
        return self.hub.live(MACHINE)
