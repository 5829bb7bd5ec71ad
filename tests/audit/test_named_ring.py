"""A ring with a mark: turned once, its wedge is known in later audits, on any machine."""

import math
import shutil
from dataclasses import replace

import pytest

from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.rings import NamedRing
from daq.service.files import load, shipped
from daq.settings import SettingsError
from daq.words import POSITIONS
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.words import en

RING = NamedRing("Ground ring", "the dot", key="ground")
WEDGE = 0.003


def made(**changes):
    setup = changed(setup_of(limit=0.030), machine={"uncertainty": Doubts(), "seat": "ring"})
    return replace(setup, rings=(RING,), **changes)


def laid(head, mark):
    """The ring lies with its mark there; its high side is 35° on from the mark."""
    head.ring_deg = POSITIONS[mark]


def audit(bench, head, mark, *, really="", reason="check-only", turn=True, why="misread"):
    """A sweep, and one with the ring turned; signed. The sweeps done.

    `why`: the answer to what differs from what was known; "" for none.
    """
    laid(head, really or mark)
    m = Machinist(bench, head).start(reason=reason, ring="ground", mark=mark)
    sweeps = [m.sweep()]
    if turn:
        m.bench.do("again", {"turned": "ring"})
        head.ring_deg += 180.0
        sweeps.append(m.sweep())
    if bench.job.step == "differs":
        if not why:
            return sweeps
        bench.do("differs", {"why": why})
    if sweeps[-1].usable:
        m.work("sign")
        m.bench.do("sign", {"done_by": "Ann"})
    return sweeps


def u_of(sweep, code):
    return {t.code: t.u_mm for t in sweep.budgets.side.terms}[code]


def test_turned_once_the_wedge_is_taken_out_of_later_audits_wherever_the_mark_points():
    head = RigidHead(mill(wedge_mm=WEDGE), 0.010, -0.004)
    bench = Bench(made())
    plain, turned = audit(bench, head, "front")
    assert turned.taught is not None and turned.taught.now.pairs == 1
    for mark in ("right", "back", "left"):
        (later,) = audit(bench, head, mark, turn=False)
        assert (later.results.side.d_mm, later.results.nod.d_mm) == (
            pytest.approx(0.010, abs=0.0012),
            pytest.approx(-0.004, abs=0.0012),
        )
        assert u_of(later, "term-wedge") < u_of(plain, "term-wedge") - 0.0003
        assert later.added[0].learned == turned.taught.now.audit


def test_where_nobody_says_where_the_mark_points_the_bound_stands():
    head = RigidHead(mill(wedge_mm=WEDGE), 0.010, -0.004)
    bench = Bench(made())
    plain, _ = audit(bench, head, "front")
    m = Machinist(bench, head).start(reason="check-only", ring="ground")
    later = m.sweep()
    assert later.added == () and u_of(later, "term-wedge") == u_of(plain, "term-wedge")


def test_a_second_pair_makes_it_surer_and_practice_teaches_nothing():
    head = RigidHead(mill(wedge_mm=WEDGE), 0.0, 0.0)
    bench = Bench(made())
    _, first = audit(bench, head, "front")
    _, second = audit(bench, head, "right")
    assert second.taught.now.pairs == 2
    assert second.taught.now.u < first.taught.now.u
    _, practised = audit(bench, head, "front", reason="practice")
    assert practised.taught is None and bench.shop.rings["ground"] == second.taught.now


@pytest.fixture
def thick():
    """A ring whose wedge is plain to see, and its machine."""
    doubts = {"uncertainty": Doubts(wedge=0.005)}
    return RigidHead(mill(wedge_mm=0.005), 0.0, 0.0), Bench(changed(made(), machine=doubts))


def test_a_wedge_that_is_not_as_known_is_a_question_with_three_answers(thick):
    head, bench = thick
    _, first = audit(bench, head, "front")
    _, turned = audit(bench, head, "front", really="right", why="")
    assert turned.taught is None and turned.usable and bench.job.step == "differs"
    console = bench.console
    assert console["title"] == "The ring's wedge is not as known. Why?"
    assert console["detail"] == ""
    told = console["message"]["say"]
    assert first.taught.now.audit in told and "Ground ring" in told
    assert [(a["payload"], a["primary"]) for a in console["actions"] if a["kind"] == "differs"] == [
        ({"why": "misread"}, True),
        ({"why": "changed"}, False),
        ({"why": "not-half"}, False),
    ]


@pytest.mark.parametrize(("really", "code"), [("right", "differs"), ("back", "differs-other-way")])
def test_a_mark_misread_teaches_nothing_and_is_not_taken_for_known(thick, really, code):
    head, bench = thick
    _, first = audit(bench, head, "front")
    plain, turned = audit(bench, head, "front", really=really, why="")
    (told,) = [f for f in turned.findings if f.code.startswith("differs")]
    assert told.code == code and "Ground ring" in en(told.said)
    bench.do("differs", {"why": "misread"})
    assert abs(plain.results.side.d_mm) + abs(plain.results.nod.d_mm) > 0.004
    assert abs(turned.results.side.d_mm) < 0.001 and abs(turned.results.nod.d_mm) < 0.001
    bench.do("again", {"why": "once more", "arm": "in"})
    again = Machinist(bench, head).sweep()
    assert again.added == ()
    Machinist(bench, head).work("sign")
    bench.do("sign", {"done_by": "Ann"})
    assert bench.shop.rings["ground"] == first.taught.now


def test_a_ring_that_changed_is_learned_anew(thick):
    head, bench = thick
    audit(bench, head, "front")
    _, turned = audit(bench, head, "front", really="right", why="changed")
    known = bench.shop.rings["ground"]
    assert known == turned.differs.now and known.pairs == 1
    (later,) = audit(bench, head, "left", really="front", turn=False)
    assert abs(later.results.side.d_mm) + abs(later.results.nod.d_mm) < 0.002


def test_what_was_not_turned_half_round_is_no_pair_and_swept_again():
    """A quarter only: of the mean of the two sweeps a part of the wedge is left."""
    doubts = {"uncertainty": Doubts(wedge=0.010)}
    head, bench = RigidHead(mill(wedge_mm=0.010), 0.0, 0.0), Bench(changed(made(), machine=doubts))
    _, first = audit(bench, head, "front")
    laid(head, "front")
    m = Machinist(bench, head).start(reason="check-only", ring="ground", mark="front")
    m.sweep()
    bench.do("again", {"turned": "ring"})
    head.ring_deg += 90.0
    turned = m.sweep()
    assert bench.job.step == "differs" and abs(turned.results.side.d_mm) > 0.0015
    before = bench.job
    bench.do("differs", {"why": "not-half"})
    assert bench.job.step == "as-found" and not bench.job.sweeps.done[-1].usable
    assert bench.job.axes.results["side"] == bench.job.sweeps.done[0].results.side
    assert "half round" in en(bench.job.reads.why)
    bench.do("undo")
    assert bench.job.sweeps == before.sweeps and bench.job.step == "differs"
    bench.do("differs", {"why": "not-half"})
    alone = m.sweep()
    assert alone.added == () and not [f for f in alone.findings if f.code == "elsewhere"]
    m.work("sign")
    signed = bench.do("sign", {"done_by": "Ann"})[-1]
    assert [s.usable for s in signed.sweeps] == [True, False, True]
    assert [s.as_left for s in signed.sweeps] == [True, False, False]
    assert bench.shop.rings["ground"] == first.taught.now


def test_a_bound_made_smaller_since_stops_no_sweep_with_what_is_known(thick):
    head, bench = thick
    audit(bench, head, "front")
    bench.setup = changed(bench.setup, machine={"uncertainty": Doubts(wedge=0.001)})
    (later,) = audit(bench, head, "right", turn=False)
    assert later.usable and abs(later.results.side.d_mm) < 0.0015


def again_fields(bench):
    (action,) = [a for a in bench.console["actions"] if a["kind"] == "again" and not a["payload"]]
    return {f["name"]: f["value"] for f in action["fields"]}


def test_swept_once_more_the_ring_may_lie_otherwise_and_unsaid_nothing_is_taken_out(thick):
    head, bench = thick
    audit(bench, head, "front")
    laid(head, "right")
    m = Machinist(bench, head).start(reason="check-only", ring="ground", mark="right")
    m.sweep()
    assert again_fields(bench)["mark"] == "right"
    laid(head, "back")
    bench.do("again", {"because": "chip", "arm": "in", "mark": "back"})
    wiped = m.sweep()
    assert abs(wiped.results.side.d_mm) + abs(wiped.results.nod.d_mm) < 0.0025
    bench.do("again", {"because": "chip", "arm": "in"})
    assert m.sweep().added == ()
    assert "mark" not in again_fields(bench)


def test_what_is_known_of_a_ring_grows_older():
    head = RigidHead(mill(wedge_mm=WEDGE), 0.0, 0.0)
    bench = Bench(made())
    _, turned = audit(bench, head, "front")
    later = turned.taught.now.grown(0.0005 / 200.0, "2036-01-01")
    years = 10.0
    assert later.doubt > turned.taught.now.doubt
    assert later.doubt == pytest.approx(
        math.hypot(turned.taught.now.u, 0.0005 / 200.0 * years / math.sqrt(3.0)), rel=0.2
    )


def test_no_ring_is_asked_for_where_the_shop_names_none_and_an_unknown_one_is_refused():
    plain = Bench(setup_of())
    plain.open("check-only")
    plain.powered()
    fields = {f["name"] for a in plain.console["actions"] for f in a["fields"]}
    assert "ring" not in fields and "mark" not in fields
    bench = Bench(made())
    bench.open("check-only")
    bench.powered()
    fields = {f["name"] for a in bench.console["actions"] for f in a["fields"]}
    assert {"ring", "mark"} <= fields
    card = {"serial_number": "P-1", "ring": "grond", "mark": "front"}
    refused = bench.refused("prepared", card)
    assert refused.code == "no-such-ring" and "ground" in en(refused)


def test_a_machine_that_names_a_ring_the_shop_does_not_is_told_so(tmp_path):
    config = tmp_path / "config"
    shutil.copytree(shipped(), config)
    named = '\n[rings.ground]\nsay = "Ground ring"\nmark = "the dot"\n'
    (config / "shop.toml").write_text((config / "shop.toml").read_text() + named)
    (path,) = [p for p in (config / "machines").glob("*.toml") if "example" not in p.name][:1]
    text = path.read_text()
    path.write_text('ring = "ground"\n' + text)
    (ring,) = load(config).audit_setup(path.stem).rings
    assert (ring.key, ring.mark, ring.wedge) == ("ground", "the dot", None)
    path.write_text('ring = "grond"\n' + text)
    with pytest.raises(SettingsError, match="ring: found 'grond'; allowed: ground"):
        load(config)
