"""Situations before anything is turned, and from the proving sweep on."""

from dataclasses import replace

from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.rings import NamedRing
from daq.metrology.rule import Rule
from tests.audit.conftest import Bench
from tests.audit.rigid import Machinist, RigidHead, mill
from tests.cards import READY
from tests.web.acts import REASON, at, bench, situation

RING = NamedRing("Ground ring no. 2", "the engraved dot", key="ground")


@situation
def idle() -> Bench:
    return bench()


@situation
def levelled() -> Bench:
    b = bench()
    b.do("open", {"reason": "moved"})
    return b


@situation
def crashed() -> Bench:
    b = bench()
    b.do("open", {"reason": "crash"})
    b.do("bolt-moved", {"bolt": b.setup.machine.crash_bolts[0]})
    return b


@situation
def angled() -> Bench:
    b = bench()
    b.do("open", {"reason": REASON})
    return b


@situation
def set_back() -> Bench:
    b = angled()
    b.do("angled", {"still": True})
    return b


@situation
def table() -> Bench:
    b = angled()
    b.do("angled", {"still": False})
    return b


@situation
def power() -> Bench:
    b = table()
    b.do("readied", READY)
    return b


@situation
def power_ring_warm() -> Bench:
    b = bench(machine={"seat": "ring"})
    b.do("open", {"reason": REASON})
    b.do("angled", {"still": False})
    b.do("readied", {**READY, "temperatures": "18 / 20 / 23 °C"})
    return b


@situation
def prepare() -> Bench:
    return power().powered()


@situation
def prepare_marked() -> Bench:
    """How ring and arm stand is asked by their marks."""
    b = bench(machine={"spindle_mark": "the long drive key", "ring": "ground"})
    b.setup = replace(b.setup, rings=(RING,))
    b.do("open", {"reason": "scheduled"})
    return b.powered()


def powered(**more) -> Bench:
    """A machine whose head and drawbar move by power, with the drawbar's card to come."""
    b = bench(machine={"z": "powered", "drawbar": "power", "air": True, "people": 2, **more})
    b.do("open", {"reason": "crash"})
    b.do("bolts-tried", {})
    b.do("readied", READY)
    b.do("warmed", {"warm": False})
    return b


@situation
def power_arm() -> Bench:
    return powered()


@situation
def power_height() -> Bench:
    b = powered()
    b.do("arm-fitted")
    return b


@situation
def prepare_powered() -> Bench:
    return powered(brake="spring").powered()


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
def touch_not_back() -> Bench:
    b = touch_push()
    b.do("pushed", {}, [0.0, 0.8, *[0.006] * 10])
    return b


@situation
def touch_back() -> Bench:
    b = touch_free()
    b.do("take", {}, [0.0])
    b.do("pushed", {}, [0.9])
    return b


@situation
def flick_not_back() -> Bench:
    b = touch_push()
    b.do("pushed", {}, [0.0, 0.8, *[0.0] * 10])
    flicked = [at for rest in (1.0, 1.0, 1.0, 1.006) for at in (*[rest] * 25, 1.08, 0.95)]
    b.do("take", {"position": "front"}, [*flicked[:-2], *[1.006] * 5])
    return b


@situation
def as_found() -> Bench:
    m = at("as-found")
    for _ in range(3):
        m.step()
    return m.bench


def drifted(m: Machinist) -> Bench:
    """A sweep that does not come back by 4 µm."""
    for _ in range(5):
        m.step()
        m.head.zero_mm += 0.001
    return m.bench


@situation
def as_found_drift() -> Bench:
    return drifted(at("as-found"))


@situation
def final_drift() -> Bench:
    return drifted(at("final"))


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
def park_doubtful() -> Bench:
    """What this gauge can tell leaves little of the limit, and a turned ring more."""
    rule = {"verdict": Rule("guarded", coverage=0.95)}
    return at("park", bench(machine=rule, both={"limit": 0.008})).bench


@situation
def park_hopeless() -> Bench:
    """It leaves nothing."""
    rule = {"verdict": Rule("guarded", coverage=0.95)}
    return at("park", bench(machine=rule, both={"limit": 0.004})).bench


@situation
def clear_doubtful() -> Bench:
    """Too close to call, and a turned ring would tell."""
    rule = {"verdict": Rule("guarded", coverage=0.95)}
    made = bench(machine=rule, both={"limit": 0.008})
    return at("clear", made, side_mm=0.0035, nod_mm=0.001).bench


@situation
def final_close() -> Bench:
    """Too close to call: to the right less may be low than to the left, the back not at all."""
    axes = {"side": {"limit": 0.015, "limit_low": 0.025}, "nod": {"one_sided": "front"}}
    rule = {"verdict": Rule("guarded", coverage=0.95)}
    m = at("park", bench(machine=rule, **axes), side_mm=0.004, nod_mm=0.016)
    m.bench.do("stop-here", {"why": "as good as this gauge can tell"})
    return m.work("clear").bench


@situation
def differs() -> Bench:
    """The ring's mark points elsewhere than was said, and its wedge is plain to see."""
    b = bench(machine={"uncertainty": Doubts(wedge=0.008)})
    b.setup = replace(b.setup, rings=(RING,))
    head = RigidHead(mill(wedge_mm=0.008, height_mm=330.0), 0.0, 0.0)
    for turned_deg in (0.0, 90.0):
        head.ring_deg = turned_deg
        m = Machinist(b, head).start(REASON, ring="ground", mark="right").work("clear")
        b.do("again", {"turned": "ring"})
        head.ring_deg += 180.0
        m.sweep()
        if not turned_deg:
            m.finish()
    return b


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
