"""Situations from cracking the bolts to the check after tightening them."""

from daq.squaring.adjuster import Adjust
from daq.squaring.tightening import Tighten
from daq.words import Position
from tests.audit.conftest import Bench
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.web.acts import NOD_MM, PIVOT_MM, REASON, at, audit, bench, checked, situation, tight

BOLTS = tuple(f"nod bolt {number}" for number in (1, 3, 2, 4))


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


@situation
def surmise() -> Bench:
    """What the nod did to the side fits a ram that is swung, of which nobody said a word."""
    head = RigidHead(mill(nod=(PIVOT_MM, 0.0), height_mm=330.0, ram_deg=30.0), 0.08, NOD_MM)
    return Machinist(bench(), head).start(REASON).work("surmise").bench


@situation
def final_ram() -> Bench:
    """The proving sweep fits a ram that is swung, of which nobody said a word."""
    setup = changed(bench().setup, machine={"plan": "quick"})
    head = RigidHead(mill(nod=(PIVOT_MM, 0.0), height_mm=330.0, ram_deg=30.0), 0.005, NOD_MM)
    return Machinist(Bench(setup), head).start(REASON).work("final-ram").bench


@situation
def stop_past() -> Bench:
    """Turned past the stop-at by what would leave nod out."""
    m = at("move")
    m.bench.do("stopped", {}, [round(m.bench.job.stop.stop_face_mm + 0.03, 3)] * 10)
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
    b.still = lambda samples: samples[-10:]
    m = audit(b)
    m.work("as-found")
    b.do("take", {"position": "front"}, [m.face("front") + 0.001 * (n % 2) for n in range(20)])
    b.do("gauge-noted", {"code": "number-stuck"}, [m.face("front")] * 160)
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


@situation
def crept() -> Bench:
    """Known from its first turn to stay where it is let go, it goes back by a lot once."""
    m = at("move")
    stop = m.bench.job.stop
    m.head.turn("nod", stop.position, stop.stop_face_mm - 0.1)
    m.bench.do("stopped", {"on_purpose": True}, [m.face(stop.position)] * 10)
    checked(m)
    m.work("move").work("check")
    m.head.swing("nod", -m.bench.job.head.story[-1].way * 0.02 / 200.0)
    return checked(m)


@situation
def stopped_past() -> Bench:
    """Turned a little too far, on purpose."""
    m = at("move")
    stop = m.bench.job.stop
    past_mm = 0.02 if stop.stop_face_mm > stop.base_face_mm else -0.02
    m.head.turn("nod", "front", stop.stop_face_mm + past_mm)
    m.bench.do("stopped", {"on_purpose": True}, [m.face("front")] * 10)
    return m.bench


@situation
def bumped() -> Bench:
    m = at("check")
    m.head.lift_mm -= 0.2
    m.head.shift("side", 0.1)
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
    """To a torque, with a wrench that has a number."""
    return bolted_by(torque=60.0, wrench="7")


@situation
def bolt_over() -> Bench:
    """The second bolt of the second pass moved the number by 0.012."""
    b = bolted_by()
    face_mm = b.job.bolts.first_face_mm
    for n in range(6):
        face_mm += 0.012 if n == 5 else 0.0
        b.do("bolt", {"bolt": BOLTS[n % len(BOLTS)]}, [face_mm] * 10)
    return b


@situation
def bolts_together() -> Bench:
    """The torque of an inch shop, its wrench named."""
    to = Tighten(torque=61.0, wrench="TW-114")
    return at("tighten", bench(machine={"unit": "in"}, nod={"tighten": to})).bench


@situation
def read_again() -> Bench:
    m = tight(at("tighten"))
    m.head.shift("nod", 0.15)
    return checked(m)


@situation
def tightened_too_far() -> Bench:
    """Read again, it is no other."""
    m = tight(at("tighten"))
    m.head.shift("nod", 0.15)
    checked(m)
    return checked(m)


@situation
def knocked_tight() -> Bench:
    """Before its own move the other axis is read, and does not stand as the first one left it."""
    m = tight(at("tighten", side_mm=0.4, pivot_mm=210.0))
    checked(m)
    m.head.shift("side", 0.15)
    asked = checked(m)
    asked.do("answer", {"key": "knocked"})
    return asked


@situation
def pulled_out() -> Bench:
    """Tightening put the nod out again: one more move."""
    m = tight(at("tighten", side_mm=0.0, shifts={"nod": 0.028}))
    checked(m)
    return m.work("park").bench
