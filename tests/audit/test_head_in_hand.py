"""After every press that is taken, the head stands as hands can have left it, whoever sent it."""

import copy
from functools import cache
from itertools import product

import pytest

from daq.audit.input import Refused
from daq.audit.recompute import differences
from daq.squaring.adjuster import Adjust
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.audit.test_restart import STEPS, begun
from tests.audit.test_walks import at as swept_at
from tests.thinned import thinned

CARDS = [
    {"serial_number": "P-1", "touched": touched, "cracked": cracked}
    for touched, cracked in product([False, True], repeat=2)
]
READ_TIGHT = ("as-found", "final", "clear", "sign", "aside")
"""Steps that are come to with every bolt tight."""


def closer(step: str = "closer") -> Machinist:
    m = begun("as-found")
    m.bench.do("off-scale", {"position": "back"}, [0.0] * 10)
    return m if step == "arm-out-closer" else m.work("closer")


def set_back() -> Machinist:
    m = begun("prepare")
    m.bench.abandon("to begin anew")
    m.bench.do("open", {"reason": "after-angled-work"})
    m.bench.do("angled", {"still": True})
    return m


@cache
def come(step: str) -> Machinist:
    if step in ("closer", "arm-out-closer"):
        return closer(step)
    return set_back() if step == "set-back" else swept_at(step) if step == "check" else begun(step)


def stands(m: Machinist) -> None:
    """What is held of the head is what hands can have made of it."""
    job = m.bench.job
    if job is None:
        return
    if job.step in READ_TIGHT:
        assert not job.loose, job.step
    if job.step == "tighten":
        assert job.axis in job.loose
    if job.step in ("loosen", "shim-open"):
        assert job.axis is not None
    if job.step not in ("closer", "set-back", "arm-out-closer"):
        both = job.setup.machine.loosen == "both"
        told = job.loose | job.told
        assert len(told) < 2 or both or job.anew is not None, job.step


@pytest.mark.parametrize(
    ("step", "card"), thinned([*STEPS, "closer", "arm-out-closer", "set-back"], CARDS), ids=str
)
def test_whatever_a_card_says_after_a_restart_the_head_is_one_that_hands_can_have_left(step, card):
    m = copy.deepcopy(come(step))
    b = m.bench
    try:
        b.do("restarted")
        b.do("prepared", card)
    except Refused:
        return
    for _ in range(200):
        stands(m)
        if b.job is None or b.job.step in ("clear", "sign"):
            break
        m.step()
    assert b.job is not None and b.job.step in ("clear", "sign") and not b.job.loose


@pytest.mark.parametrize("card", CARDS, ids=str)
@pytest.mark.parametrize("step", ["closer", "arm-out-closer", "set-back"])
def test_said_to_be_set_and_tight_it_is_tight_whatever_was_said_before(step, card):
    m = copy.deepcopy(come(step))
    b = m.bench
    b.do("put-aside", {"why": "a hot job"})
    if b.job.step == "put-aside":
        b.do("rest", {"left": "as-is"})
    b.do("take-up")
    if step != "set-back":
        b.powered()
        b.do("prepared", {"serial_number": "P-1"})
        b.do("restarted")
        try:
            b.do("prepared", card)
        except Refused:
            return
        m.work("closer")
    m.step()
    assert not b.job.loose and not b.job.told
    m.work("final", "clear")
    stands(m)


def shimmed(until: str, drawbar: str) -> Machinist:
    shim = Adjust("shim", bolt_spacing=200.0)
    kind = changed(setup_of(height=400.0), machine={"drawbar": drawbar}, nod={"adjust": shim})
    return Machinist(Bench(kind), RigidHead(mill(), 0.0, 0.4)).start().work(until)


@pytest.mark.parametrize("drawbar", ["hand", "power"])
@pytest.mark.parametrize("step", ["arm-out-shim", "shim-open", "shim", "arm-back"])
def test_off_while_the_arm_is_out_for_a_shim_it_is_said_to_put_it_back(step, drawbar):
    m = shimmed(step, drawbar)
    b = m.bench
    b.do("restarted")
    told = f"{b.console['message']} {b.console['title']}".casefold()
    assert "lock still on" in told and "back" in told
    assert b.job.step == ("prepare" if step == "arm-out-shim" else step)
    steps = []
    while b.job.step not in ("check", "final"):
        steps.append(b.job.step)
        m.step()
    put_in = "prepare" if step == "arm-out-shim" else "arm-back"
    assert put_in in steps and steps[-2:] == ["touch-free", "touch-push"]
    assert m.finish().verdict == "conforms"
    assert not list(differences(b.events, b.chunks.__getitem__))


@pytest.mark.parametrize("step", ["arm-out-closer", "closer", "arm-back"])
def test_off_while_it_is_out_for_a_head_brought_closer_too(step):
    m = closer("arm-out-closer").work(step)
    m.bench.do("restarted")
    told = f"{m.bench.console['message']} {m.bench.console['title']}".casefold()
    assert "lock still on" in told and "back" in told
    assert m.finish().verdict == "conforms"
