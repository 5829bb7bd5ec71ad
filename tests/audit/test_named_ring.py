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


def audit(bench, head, mark, *, really="", reason="check-only", turn=True):
    """A sweep, and one with the ring turned; signed. The sweeps done."""
    laid(head, really or mark)
    m = Machinist(bench, head).start(reason=reason, ring="ground", mark=mark)
    sweeps = [m.sweep()]
    if turn:
        m.bench.do("again", {"turned": "ring"})
        head.ring_deg += 180.0
        sweeps.append(m.sweep())
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


def test_a_mark_misread_by_half_a_turn_is_said_and_teaches_nothing():
    head = RigidHead(mill(wedge_mm=0.005), 0.0, 0.0)
    bench = Bench(changed(made(), machine={"uncertainty": Doubts(wedge=0.005)}))
    _, first = audit(bench, head, "front")
    _, turned = audit(bench, head, "front", really="back")
    (told,) = [f for f in turned.findings if f.code == "ring-other-way"]
    assert "the dot" in en(told.said) and turned.taught is None
    assert bench.shop.rings["ground"] == first.taught.now


def test_a_ring_that_changed_is_said_and_learned_anew():
    head = RigidHead(mill(wedge_mm=0.005), 0.0, 0.0)
    bench = Bench(changed(made(), machine={"uncertainty": Doubts(wedge=0.005)}))
    audit(bench, head, "front")
    _, turned = audit(bench, head, "front", really="right")
    assert [f.code for f in turned.findings if f.code.startswith("ring")] == ["ring-contradicts"]
    assert turned.taught.now.pairs == 1 and turned.usable
    assert abs(turned.results.side.d_mm) < 0.001


def test_what_is_known_of_a_ring_grows_older():
    head = RigidHead(mill(wedge_mm=WEDGE), 0.0, 0.0)
    bench = Bench(made())
    _, turned = audit(bench, head, "front")
    later = turned.taught.now.grown(0.0005 / 200.0, "2036-01-01")
    years = 10.0
    assert later.u > turned.taught.now.u
    assert later.u == pytest.approx(
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
