"""Situations in which the arm is out, or work rests."""

from dataclasses import replace

from daq.checks.sweep.plan import plan_of
from daq.squaring.adjuster import Adjust
from daq.words import POSITIONS
from tests.audit.conftest import Bench
from tests.web.acts import at, bench, situation

IN = 25.4
SHELF = (0.001, 0.002, 0.005, 0.01, 0.015)


@situation
def arm_out() -> Bench:
    m = at("as-found")
    m.step()
    m.bench.do("off-scale", {"position": m.bench.console["do"]["position"]}, [0.0] * 10)
    return m.bench


@situation
def closer() -> Bench:
    b = arm_out()
    b.do("arm-out")
    return b


@situation
def unsafe() -> Bench:
    b = closer()
    b.do("abandon", {"why": "no time"})
    return b


@situation
def put_aside() -> Bench:
    b = at("move").bench
    b.do("put-aside", {"why": "the shaft for the night shift comes first"})
    return b


@situation
def aside() -> Bench:
    b = put_aside()
    b.do("rest", {"left": "safe"})
    return b


@situation
def aside_unsafe() -> Bench:
    b = put_aside()
    b.do("rest", {"left": "as-is"})
    return b


@situation
def restarted() -> Bench:
    m = at("move")
    m.bench.do("restarted")
    return m.bench


def shims(step) -> Bench:
    """In inches, with eight spots, the longest names of the example files, and a shim to put in."""
    spots = tuple(POSITIONS)
    side = {"bolts": "the four face bolts", "adjuster": "the worm on the right of the head"}
    nod = {
        "bolts": "the two nod bolts",
        "adjuster": "shims under the knuckle",
        "adjust": Adjust("shim", bolt_spacing=200.0, shims=tuple(IN * inches for inches in SHELF)),
    }
    machine = {"name": "Ram mill", "unit": "in", "positions": spots}
    b = bench(machine=machine, gauge={"resolution": 0.0005 * 25.4}, side=side, nod=nod)
    b.setup = replace(b.setup, plan=plan_of(spots))
    b.unit = "in"
    return at(step, b).bench


@situation
def arm_out_shim() -> Bench:
    return shims("arm-out-shim")


@situation
def shim_open() -> Bench:
    return shims("shim-open")


@situation
def shim() -> Bench:
    return shims("shim")


@situation
def arm_back() -> Bench:
    return shims("arm-back")
