"""A named ring goes from audit to audit and from machine to machine: nothing of it is lost."""

import itertools
from dataclasses import replace
from types import SimpleNamespace

import pytest

from daq.audit.apply import fold
from daq.audit.recompute import differences
from daq.checks.sweep.by_mark import joined
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.rings import NamedRing
from daq.words import POSITIONS
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill

RINGS = (NamedRing("Ground ring", "the dot", key="ground"), NamedRing("Plate", "1", key="plate"))
SLOPE = 0.006 / 200.0
NEAR = 0.0016
"""What whole counts of 0.001 mm leave open after three sweeps."""


class Beside(Bench):
    """One machine of several that are in one record."""

    def __init__(self, setup, shop, first=0):
        self.of = shop
        super().__init__(setup)
        self.presses = first

    shop = property(lambda self: self.of.shop, lambda self, shop: setattr(self.of, "shop", shop))
    events = property(
        lambda self: self.of.events, lambda self, all_: setattr(self.of, "events", all_)
    )
    chunks = property(
        lambda self: self.of.chunks, lambda self, all_: setattr(self.of, "chunks", all_)
    )


def setup(key="mill", radius=100.0, **machine):
    made = changed(
        setup_of(limit=0.030, radius=radius, gauge=f"gauge of {key}"),
        machine={"uncertainty": Doubts(wedge=0.006), "name": key, **machine},
    )
    return replace(made, machine_key=key, rings=RINGS)


def two(radius=60.0):
    """Two machines of one shop, and their heads; the ring's wedge is the same slope on both."""
    shop = SimpleNamespace()
    pairs = []
    for i, (key, r, lean) in enumerate((("mill", 100.0, 0.008), ("other", radius, -0.005))):
        bench = Beside(setup(key, r), shop, 1000 * i)
        head = RigidHead(mill(radius_mm=r, wedge_mm=SLOPE * 2.0 * r), lean, 0.002)
        pairs.append((bench, head))
    return pairs


def begin(bench, head, mark, ring="ground"):
    head.ring_deg = POSITIONS[mark]
    return Machinist(bench, head).start(reason="check-only", ring=ring, mark=mark)


def turn(m):
    m.bench.do("again", {"turned": "ring"})
    m.head.ring_deg += 180.0
    return m.sweep()


def sign(m):
    m.work("sign")
    return m.bench.do("sign", {"done_by": "Ann"})[-1]


def checked(bench):
    """Every decision comes out the same again, and the fold of the record is what stands."""
    assert list(differences(bench.events, bench.chunks.__getitem__)) == []
    assert fold(bench.events) == bench.shop


def test_turned_on_one_machine_it_is_known_on_another_at_another_radius():
    (mill_, first), (other, second) = two()
    m = begin(mill_, first, "front")
    m.sweep()
    taught = turn(m).taught.now
    sign(m)
    for mark in ("right", "back"):
        m = begin(other, second, mark)
        done = m.sweep()
        assert done.added[0].learned == taught.audit
        assert done.added[0].u_mm == pytest.approx(max(120.0 * taught.u_by_eye, 0.00029), rel=0.01)
        assert done.results.side.d_mm == pytest.approx(-0.005, abs=NEAR)
        sign(m)
    checked(mill_)


def test_of_two_audits_open_at_once_neither_loses_what_the_other_taught():
    (one, first), (other, second) = two(radius=100.0)
    m, n = begin(one, first, "front"), begin(other, second, "right")
    for each in (m, n):
        each.sweep()
    own = [turn(each).taught.own for each in (m, n)]
    sign(m)
    assert one.shop.rings["ground"] == own[0]
    signed = sign(n)
    both = joined(own[0], own[1])
    assert one.shop.rings == signed.known == {"ground": both} and both.pairs == 2
    checked(one)


def test_what_was_known_before_both_is_counted_once():
    (one, first), (other, second) = two(radius=100.0)
    m = begin(one, first, "front")
    m.sweep()
    turn(m)
    sign(m)
    before = one.shop.rings["ground"]
    m, n = begin(one, first, "back"), begin(other, second, "right")
    for each in (m, n):
        each.sweep()
    own = [turn(each).taught.own for each in (m, n)]
    sign(n)
    sign(m)
    known = one.shop.rings["ground"]
    assert known.pairs == 3 and known.u == pytest.approx(
        sum(each.u**-2 for each in (before, *own)) ** -0.5
    )
    checked(one)


def test_two_reversals_in_one_audit_count_by_their_own_sweeps_only():
    ((bench, head), _) = two()
    m = begin(bench, head, "front")
    m.sweep()
    own = turn(m).taught.own
    assert turn(m).taught is None
    bench.do("again", {"why": "once more", "arm": "in", "mark": "front"})
    m.sweep()
    again = turn(m).taught
    assert again.own.pairs == again.now.pairs == 2
    assert again.own.u == pytest.approx((own.u**-2 + own.u**-2) ** -0.5, rel=0.02)
    sign(m)
    assert bench.shop.rings["ground"].pairs == 2
    checked(bench)


def rest(bench):
    bench.do("put-aside", {"why": "a hot job"})
    bench.do("rest", {"left": "safe"})
    bench.do("take-up")


def up_again(m, **card):
    m.bench.do("prepared", {"serial_number": "P-1", **card})
    m.step()
    m.step()
    return m.sweep()


def test_put_aside_what_was_taught_stays_and_how_it_lies_is_asked_anew():
    ((bench, head), _) = two()
    m = begin(bench, head, "front")
    m.sweep()
    taught = turn(m).taught
    rest(bench)
    head.ring_deg = POSITIONS["left"]
    unsaid = up_again(m)
    assert unsaid.added == () and bench.job.sweeps.laid is None
    rest(bench)
    said = up_again(m, ring="ground", mark="left")
    # The mark as it is now, and what this very audit taught.
    assert said.results.side.d_mm == pytest.approx(0.008, abs=NEAR)
    assert [part.learned for part in said.added] == [taught.now.audit]
    sign(m)
    assert bench.shop.rings == {"ground": taught.now}
    checked(bench)


def test_another_ring_laid_after_a_rest_does_not_get_the_first_ones_wedge():
    ((bench, head), _) = two()
    m = begin(bench, head, "front")
    m.sweep()
    taught = turn(m).taught
    rest(bench)
    other = up_again(m, ring="plate", mark="front")
    assert other.added == ()
    sign(m)
    assert bench.shop.rings == {"ground": taught.now}
    checked(bench)


@pytest.mark.parametrize("touched", [False, True])
def test_a_restart_keeps_how_the_ring_lies(touched):
    ((bench, head), _) = two()
    m = begin(bench, head, "front")
    m.sweep()
    taught = turn(m).taught
    sign(m)
    m = begin(bench, head, "left")
    m.step()
    bench.shop = fold(bench.events)
    bench.do("restarted")
    assert not {"ring", "mark"} & {f["name"] for a in bench.console["actions"] for f in a["fields"]}
    done = up_again(m, touched=touched)
    assert [part.learned for part in done.added] == [taught.now.audit]
    assert done.results.side.d_mm == pytest.approx(0.008, abs=NEAR)
    sign(m)
    checked(bench)


def test_an_audit_given_up_teaches_nothing():
    ((bench, head), _) = two()
    m = begin(bench, head, "front")
    m.sweep()
    assert turn(m).taught is not None
    bench.abandon("no time")
    assert bench.shop.rings == {}
    checked(bench)


def test_however_many_marks_are_read_the_wedge_stays_where_it_is():
    ((bench, head), _) = two()
    for mark in itertools.islice(itertools.cycle(("front", "right", "back", "left")), 5):
        m = begin(bench, head, mark)
        m.sweep()
        turn(m)
        sign(m)
    known = bench.shop.rings["ground"]
    assert known.pairs == 5 and known.size == pytest.approx(SLOPE, abs=0.0006 / 200.0)
    checked(bench)
