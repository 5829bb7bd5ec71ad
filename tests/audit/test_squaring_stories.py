"""What a machinist lives through while squaring: a swung ram, off scale, shims, bolts, proofs."""

import math

import pytest

from daq.squaring.adjuster import Adjust
from daq.squaring.tightening import Tighten
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill, told

SWUNG = math.radians(15.0)
CHANGE_MM = 0.200
START_MM = CHANGE_MM * (1.0 + math.tan(SWUNG) ** 2)
"""Nod this far out is turned by 0.200: the rest is what side's move will bring."""
PAST = {"last_good": "2026-01-05", "disposition": "none made since"}
BOLTS = tuple(f"nod bolt {number}" for number in (1, 2, 3, 4))
OUT = {"front": 1.200, "right": 1.160, "back": 1.120, "left": 1.160}


def audit(**more):
    """A bench with limits of 0.025 over 300, the nod pivot 150 behind."""
    return Bench(changed(setup_of(limit=0.025, height=400.0), **more))


def nod_moved_on_a_swung_ram(b, card, side_mm=0.0, nod_mm=CHANGE_MM):
    """Nod is out on a ram swung 15 degrees; worked until its first pair check."""
    m = Machinist(b, RigidHead(mill(ram_deg=15.0), side_mm, nod_mm)).start(**card)
    m.work("check").step()
    m.step()
    return m, told(b, "CheckDone")[0]


@pytest.mark.parametrize(
    ("machine", "card"),
    [({}, {"ram_moved": True, "ram_angle": "15 deg"}), ({"ram_angle": SWUNG}, {})],
    ids=["said at the card", "in the file"],
)
def test_what_nod_does_to_side_on_a_swung_ram_is_predicted(machine, card):
    """tan 15° · 0.200 = 0.054 (plane trigonometry); an anticlockwise ram lowers the left."""
    b = audit(machine=machine)
    m, check = nod_moved_on_a_swung_ram(b, card, nod_mm=START_MM)
    assert START_MM - check.results.nod.d_mm == pytest.approx(CHANGE_MM, abs=0.001)
    assert check.results.side.d_mm == pytest.approx(-math.tan(SWUNG) * CHANGE_MM, abs=0.0005)
    assert m.head.true_mm("side") == pytest.approx(check.results.side.d_mm, abs=0.0015)
    assert (check.strange, check.said) == ("", None)
    m.work("clear")
    assert not any(sweep.elsewhere for sweep in told(b, "SweepDone"))
    assert not any(odd.strange for odd in told(b, "CheckDone"))
    assert all(parked.question is None for parked in told(b, "Parked"))
    signed = m.finish()
    assert (signed.verdict, signed.moves) == ("conforms", 2)


def test_a_lean_that_the_swung_nod_will_take_away_is_not_turned_out_by_hand():
    """Side 0.054 out, all of it what nod's move gives back: one move squares both."""
    b = audit(machine={"ram_angle": SWUNG})
    m, check = nod_moved_on_a_swung_ram(b, {}, side_mm=math.tan(SWUNG) * CHANGE_MM)
    assert check.results.side.word == "in" and check.results.side.d_mm == pytest.approx(
        0.0, abs=0.001
    )
    signed = m.finish()
    assert (signed.verdict, signed.moves) == ("conforms", 1)


def test_the_same_change_is_noticed_when_no_angle_was_told():
    b = audit()
    m, check = nod_moved_on_a_swung_ram(b, {})
    assert check.results.side.d_mm == pytest.approx(0.0, abs=0.001)
    m.work("final-ram")
    b.do("answer", {"key": "not-sure"})
    done = told(b, "SweepDone")[-1]
    assert done.elsewhere
    assert "a ram swung about 15°" in b.console["message"]["say"]
    assert done.results.side.d_mm == pytest.approx(-math.tan(SWUNG) * CHANGE_MM, abs=0.003)
    assert (done.results.side.word, b.job.step, b.job.axis) == ("out", "park", "side")


def nod_by(adjust):
    return audit(nod={"adjust": adjust})


SHIM = Adjust(kind="shim", bolt_spacing=250.0)


@pytest.mark.parametrize(
    ("front", "back", "said"),
    [
        (1.200, 1.120, "0.100 shim behind the lower bolts"),
        (1.120, 1.200, "0.100 shim behind the upper bolts"),
    ],
)
def test_a_head_with_shims_is_told_how_thick_and_where(front, back, said):
    """0.080 over 200 is 0.100 over bolts 250 apart (similar triangles)."""
    b = nod_by(SHIM).start()
    b.sweep(front=front, right=1.160, back=back, left=1.160)
    b.take("front", front)
    assert b.console["stop_at"] is None
    b.do("arm-out")
    b.do("joint-open")
    assert b.console["title"] == f"Put {said}."
    assert "turn" not in b.console["title"].lower()


def test_a_shim_follows_the_sweep_radius():
    """The same lean swept at 75 mm reads 0.060; the shim is the same."""
    b = Bench(changed(setup_of(limit=0.025, radius=75.0), nod={"adjust": SHIM})).start()
    b.sweep(front=1.190, right=1.160, back=1.130, left=1.160)
    b.take("front", 1.190)
    b.do("arm-out")
    b.do("joint-open")
    assert b.console["title"] == "Put 0.100 shim behind the lower bolts."


def test_an_axis_with_nothing_to_set_is_reported_only():
    b = nod_by(Adjust(kind="none")).start()
    done = b.sweep(**OUT)
    assert (done.results.nod.word, b.job.step) == ("out", "clear")
    assert b.console["notes"][0] == "Nod: report only."
    assert b.console["stop_at"] is None
    b.do("cleared")
    b.do("sign", {"done_by": "T", **PAST})
    assert b.shop.machine("mill").last.signed.verdict == "does-not-conform"


def test_beside_an_axis_with_nothing_to_set_the_other_is_squared():
    b = nod_by(Adjust(kind="none"))
    m = Machinist(b, RigidHead(mill(), 0.3, 0.08)).start().work("clear")
    assert {move.axis for move in told(b, "Moved")} == {"side"}
    assert b.console["notes"][0] == "Nod: report only."
    assert [result.word for result in m.finish().as_left.values()] == ["in", "out"]


def bolting(b):
    """Nod squared from 0.080 and loose, the gauge parked at the front at 1.100."""
    b.start()
    b.sweep(**OUT)
    b.take("front", 1.200)
    b.do("loosened", {}, [1.200] * 10)
    b.do("stopped", {}, [1.100] * 10)
    b.take("back", 1.100)
    b.take("front", 1.100)
    assert b.job.step == "tighten"
    return b


def pull(b, bolt, value):
    """One bolt pulled up a step, which leaves the gauge at this number."""
    return b.do("bolt", {"bolt": bolt}, [value] * 10)


def test_a_bolt_that_moves_the_head_too_far_is_named():
    b = bolting(audit(nod={"tighten": Tighten(BOLTS, passes=1)}))
    assert b.aim.stop_face_mm == pytest.approx(1.100, abs=1e-9)
    assert [pull(b, BOLTS[i], 1.100)[0].over for i in (0, 1)] == [False, False]
    assert b.console["message"] is None
    (pulled,) = pull(b, BOLTS[2], 1.112)
    assert (pulled.bolt, pulled.over) == ("nod bolt 3", True)
    assert pulled.shift_face_mm == pytest.approx(0.012, abs=1e-9)
    said = b.console["message"]["say"]
    assert said.startswith("Nod bolt 3 moved the head by 0.012; allowed is 0.005.")
    pulled, tight = pull(b, BOLTS[3], 1.113)
    assert not pulled.over and type(tight).__name__ == "Tightened"


def test_there_is_no_verdict_between_tightening_and_a_full_sweep():
    b = bolting(audit(nod={"tighten": Tighten(BOLTS, passes=1)}))
    for bolt in BOLTS:
        pull(b, bolt, 1.100)
        assert b.console["verdict"] is None
    for place in ("front", "back"):
        assert b.job.step == "check" and b.console["verdict"] is None
        assert b.refused("sign", {"done_by": "T", **PAST}).code == "not-this-step"
        b.take(place, 1.100)
    assert b.job.step == "final" and b.console["verdict"] is None
    assert b.refused("cleared").code == "not-this-step"
    b.sweep(front=1.101, right=1.100, back=1.100, left=1.101)
    assert b.console["verdict"]["word"] == "in"
