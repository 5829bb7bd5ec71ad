"""What is said of pulling up bolts: how far, by which wrench, in which order for so many."""

import pytest

from daq.squaring.tightening import Tighten
from tests.audit.conftest import Bench
from tests.audit.nod_bolts import BOLTS, LOOSE_MM, nod_loose, setup
from tests.audit.rigid import Machinist, RigidHead, mill


def tightening(bolts=(), **more):
    """The console where the nod bolts are to be pulled up."""
    nod = {"tighten": Tighten(bolts, **more), "bolts": "the nod bolts"}
    head = RigidHead(mill(), 0.0, -0.4)
    return Machinist(Bench(setup(nod=nod)), head).start().work("tighten").bench.console


@pytest.mark.parametrize("bolts", [(), ("left", "right"), BOLTS])
def test_a_torque_and_its_wrench_stand_in_the_instruction(bolts):
    console = tightening(bolts, torque=60.0, wrench="7")
    if not bolts:
        assert console["detail"] == (
            "To 60 N·m, wrench no. 7, a third at a time, watching the number."
        )
        return
    assert console["title"] == f"Pull up {bolts[0]}, to 20 N·m."
    assert console["detail"] == "Wrench no. 7. Then press. One bolt may move the number by 0.005."


def test_a_cross_pattern_is_spoken_of_only_where_there_may_be_one():
    """How many bolts there are is not known where none is named."""
    assert tightening()["detail"] == "A third at a time, in turn, watching the number."


@pytest.mark.parametrize(
    ("bolts", "how"),
    [
        (BOLTS[:1], "watching"),
        (BOLTS[:2], "one, then the other, watching"),
        (BOLTS[:3], "one after the other, watching"),
        (BOLTS, "in a cross pattern, watching"),
    ],
)
def test_the_last_bolt_over_is_put_right_by_the_way_of_so_many(bolts, how):
    b = nod_loose(bolts)
    for n, bolt in enumerate(bolts, 1):
        b.do("bolt", {"bolt": bolt}, [LOOSE_MM + 0.012 * (n == len(bolts))] * 10)
    assert b.job.step == "tighten"
    assert b.console["detail"] == f"A third at a time, {how} the number."
