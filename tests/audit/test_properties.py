"""What must not matter to an audit, and what must change with what, through its decisions."""

from dataclasses import dataclass, replace

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from daq.metrology.rule import Rule
from daq.squaring.adjuster import Adjust
from daq.words import PARKED
from tests.audit.conftest import Bench
from tests.audit.rigid import MIRROR, changed, told
from tests.audit.shapes import machine, scaled

FREE_UM = 100
MIDDLE_UM = 1600
FEW = settings(max_examples=40, deadline=None, derandomize=True)
um = st.integers(-400, 400)
WAYS = [
    ("front", "right", "back", "left"),
    ("right", "back", "left", "front"),
    ("back", "left", "front", "right"),
    ("left", "front", "right", "back"),
    ("front", "left", "back", "right"),
    ("left", "back", "right", "front"),
]


@dataclass(frozen=True)
class Read:
    """Half-differences in counts, and whether the surface is out of flat by a count."""

    side: int
    nod: int
    form: int = 0

    def um(self):
        base = {"front": self.nod, "back": -self.nod, "right": self.side, "left": -self.side}
        return {p: MIDDLE_UM + v + (self.form if p in MIRROR else 0) for p, v in base.items()}


heads = st.builds(Read, um, um, st.integers(-1, 1))


@dataclass(frozen=True)
class Came:
    """What came of a sweep, and of parking where the console says."""

    sides: tuple
    words: tuple
    chances: tuple
    guards: tuple
    next: tuple
    base: float | None = None
    stop: float | None = None
    past: float | None = None

    @property
    def change(self):
        return None if self.stop is None else self.stop - self.base


def came(b, done, faces, place=None):
    """Park for what is next, where it reads what the sweep read."""
    found = Came(
        sides=(done.results.side.d_mm, done.results.nod.d_mm),
        words=(done.results.side.word, done.results.nod.word),
        chances=(done.results.side.probability, done.results.nod.probability),
        guards=(done.results.side.guard_mm, done.results.nod.guard_mm),
        next=(done.next.step, done.next.axis),
    )
    if b.job.step != "park":
        return found
    at = (place or PARKED)[b.job.axis]
    (parked,) = b.take(at, faces[at])
    assert parked.question is None
    stop = parked.stop
    return replace(found, base=stop.base_face_mm, stop=stop.stop_face_mm, past=stop.past_mm)


def sweep(setup, faces, way=WAYS[0], free=FREE_UM / 1e3, up=1.0, unit="mm", place=None):
    """Open an audit, touch, sweep in that order and park."""
    b = Bench(setup)
    b.unit = unit
    b.start(free=free, up=up)
    found = ()
    for position in (*way, way[0]):
        found = b.take(position, faces[position])
    done = next(data for data in found if type(data).__name__ == "SweepDone")
    return b, came(b, done, faces, place)


def faces(read, sense=1, plus_um=0, scale=1.0):
    return {p: (sense * v + plus_um) / 1e3 * scale for p, v in read.um().items()}


def alike(one, other, *, scale=1.0, plus=0.0, sense=1.0, stop_mm=1e-7):
    """The same in everything but the numbers on the face."""
    assert other.words == one.words and other.next == one.next
    assert other.sides == pytest.approx([scale * mm for mm in one.sides], abs=1e-9)
    assert other.guards == pytest.approx([scale * mm for mm in one.guards], rel=1e-6)
    assert other.chances == pytest.approx(one.chances, abs=1e-7)
    if one.stop is None:
        assert other.stop is None
        return
    assert other.base == pytest.approx(sense * scale * one.base + plus, abs=1e-9)
    assert other.stop == pytest.approx(sense * scale * one.stop + plus, abs=stop_mm)


@FEW
@given(heads)
@example(Read(0, 0))
@example(Read(200, 200))
@example(Read(-6, 90))
def test_mirrored_left_for_right(read):
    """Lean, limits, wanted lean, pivot and coupling change their sides; the stop-at does not.

    For side the gauge then stands at the left.
    """
    setup = machine()
    side = setup.machine.side
    other_side = {
        "pivot_distance": -side.pivot_distance,
        "coupling": -side.coupling,
        "limit": side.limit_low,
        "limit_low": side.limit,
        "wanted_lean": -side.wanted_lean,
        "adjust": Adjust(finish_raising="right"),
    }
    mirrored = changed(setup, side=other_side, nod={"coupling": 0.02})
    _, one = sweep(setup, faces(read))
    _, other = sweep(
        mirrored,
        faces(replace(read, side=-read.side)),
        way=("front", "left", "back", "right"),
        place={"side": "left", "nod": "front"},
    )
    assert other.sides == pytest.approx([-one.sides[0], one.sides[1]], abs=1e-9)
    assert other.past == one.past
    alike(replace(one, sides=(-one.sides[0], one.sides[1])), other)


@FEW
@given(heads)
@example(Read(200, 200))
def test_an_inch_gauge_gives_the_same_lengths(read):
    """Only the numbers shown change: they are the same lengths in inches."""
    setup = machine()
    metric, one = sweep(setup, faces(read))
    inch, other = sweep(setup, faces(read), unit="in")
    assert other == one
    if one.stop is not None:
        said = [float(b.console["stop_at"]["value"]) for b in (metric, inch)]
        assert said[0] == pytest.approx(one.stop, abs=0.5001e-3)
        assert said[1] * 25.4 == pytest.approx(one.stop, abs=0.5001e-5 * 25.4)
    shown = [[float(axis["value"]) for axis in b.console["axes"]] for b in (metric, inch)]
    for mm, inches in zip(*shown, strict=True):
        assert inches * 25.4 == pytest.approx(mm, abs=0.5e-3 + 0.5e-4 * 25.4)
    assert [axis["word"] for axis in inch.console["axes"]] == list(one.words)


@FEW
@given(heads, st.sampled_from([way for way in WAYS[1:] if way[0] in ("front", "back")]))
def test_the_order_of_the_positions_does_not_matter(read, way):
    _, one = sweep(machine(), faces(read))
    _, other = sweep(machine(), faces(read), way=way)
    alike(one, other, stop_mm=settled(read))


def settled(read):
    """How near stop-ats agree: where readings contradict each other, within half a count.

    A spot that the gauge came back to tells more than one where it stands since the sweep.
    """
    return 5e-4 if read.form else 1e-7


@FEW
@given(heads, st.sampled_from([way for way in WAYS if way[0] in MIRROR]))
@example(Read(150, 80), WAYS[1])
def test_beginning_on_the_other_axis_gives_the_same_lean(read, way):
    """What changes is which axis has its spot read twice: how surely each is read."""
    setup = machine(both={"coupling": 0.0})
    front, one = sweep(setup, faces(read))
    right, other = sweep(setup, faces(read), way=way)
    assert other.sides == pytest.approx(one.sides, abs=1e-9)
    if other.next == one.next and one.stop is not None:
        assert other.stop == pytest.approx(one.stop, abs=settled(read))
    (was,), (now,) = told(front, "SweepDone"), told(right, "SweepDone")
    assert repeats(now.budgets.side) == pytest.approx(repeats(was.budgets.nod), rel=1e-6)
    assert repeats(now.budgets.nod) == pytest.approx(repeats(was.budgets.side), rel=1e-6)


def repeats(budget):
    """How much of the doubt is how well a spot reads the same again, mm."""
    (term,) = [term for term in budget.terms if term.code == "term-repeatability"]
    return term.u_mm


@FEW
@given(heads, st.integers(-5000, 5000))
def test_a_constant_on_every_reading_moves_only_the_face(read, plus):
    """The stop-at follows it; lean and verdict do not."""
    setup = machine()
    _, one = sweep(setup, faces(read))
    _, other = sweep(setup, faces(read, plus_um=plus), free=(FREE_UM + plus) / 1e3)
    alike(one, other, plus=plus / 1e3)


@FEW
@given(heads, st.sampled_from([0.5, 0.8, 1.25, 2.0]))
@example(Read(200, -200), 2.0)
def test_a_machine_of_another_size_gives_the_same_slopes(read, by):
    """Every length, the radius with the pivots and the readings, is scaled alike."""
    setup = machine()
    _, one = sweep(setup, faces(read))
    # What a hand can set does not grow with the machine; it matters where it is too close to call.
    assume("close" not in one.words)
    _, other = sweep(scaled(setup, by), faces(read, scale=by), free=FREE_UM / 1e3 * by)
    alike(one, other, scale=by)


@FEW
@given(st.builds(Read, um, um), st.sampled_from([0.5, 0.75, 1.5]))
@example(Read(150, 150), 1.5)
def test_the_same_head_swept_at_another_radius_leans_the_same(read, by):
    """Only the radius changes: differences and limits are longer, by the simple rule the word
    is the same, and the stop-at's change is (R + p)/(R' + p) of what it was."""
    simple = {"verdict": Rule(name="simple")}
    setup = machine(machine=simple, both={"pivot_height": 0.0, "coupling": 0.0})
    wider = changed(setup, machine={"sweep_radius": 100.0 * by})
    _, one = sweep(setup, faces(read))
    wide = {p: (MIDDLE_UM + by * (v - MIDDLE_UM)) / 1e3 for p, v in read.um().items()}
    _, other = sweep(wider, wide)
    assert other.sides == pytest.approx([by * mm for mm in one.sides], abs=1e-9)
    assert (other.words, other.next) == (one.words, one.next)
    if one.stop is not None:
        pivot = 150.0 if one.next[1] == "nod" else 8.0
        grows = (100.0 * by + pivot) / (100.0 + pivot)
        assert other.change == pytest.approx(grows * one.change, rel=1e-6, abs=1e-9)


@FEW
@given(heads)
@example(Read(200, 200))
def test_a_gauge_that_counts_down_shows_the_same_with_the_other_sign(read):
    setup = machine()
    down = changed(setup, gauge={"counts_up": False})
    upward, one = sweep(setup, faces(read))
    downward, other = sweep(down, faces(read, sense=-1), free=-FREE_UM / 1e3, up=-1.0)
    alike(one, other, sense=-1.0)
    if one.stop is not None:
        ways = [b.console["stop_at"]["way"] for b in (upward, downward)]
        assert set(ways) == {"up", "down"} or one.change == 0.0


@FEW
@given(heads)
@example(Read(200, 200))
def test_a_zero_between_sweeps_changes_no_lean(read):
    """The second sweep is read from another zero: lean, verdict and change are the same."""
    setup = machine()
    shown = faces(read)
    results = []
    for zeroed in (False, True):
        b = Bench(setup).start(free=FREE_UM / 1e3)
        first = b.sweep(**shown)
        assume(first.usable)
        b.do("again", {"why": "to be sure"})
        shift = shown["front"] if zeroed else 0.0
        if zeroed:
            b.do("zeroed", {}, [shown["front"]] * 12 + [0.0] * 5)
        now = {p: v - shift for p, v in shown.items()}
        done = b.sweep(**now)
        assert (done.results.side.d_mm, done.results.nod.d_mm) == pytest.approx(
            (first.results.side.d_mm, first.results.nod.d_mm), abs=1e-9
        )
        results.append(came(b, done, now))
    plain, zeroed = results
    alike(plain, zeroed, plus=-shown["front"])
