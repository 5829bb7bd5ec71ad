"""The practice mill at the pure bench, and who works on it: what every situation starts from."""

from collections.abc import Callable
from dataclasses import replace

from daq.checks.sweep.effects import Work
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill

MACHINE = "practice-mill"
NAME = "Practice mill"
PIVOT_MM = 180.0
REASON = "after-angled-work"
NOD_MM = -0.5
"""How far out the nod is in most situations, across the sweep."""

SITUATIONS: dict[str, Callable[[], Bench]] = {}
"""How each situation is come to, by its name."""


def bench(**more) -> Bench:
    """The practice mill as its files say, besides `more`."""
    setup = changed(
        setup_of(limit=0.025, nod_pivot=PIVOT_MM, height=330.0, gauge="practice"),
        machine={"name": NAME, "work": Work(80.0, pass_step=60.0, hole_depth=100.0)},
        gauge={"name": "Practice gauge", "serial_number": "P-0417"},
    )
    return Bench(replace(changed(setup, **more), machine_key=MACHINE))


def audit(
    made: Bench, side_mm=0.08, nod_mm=NOD_MM, pivot_mm=PIVOT_MM, reason=REASON, **hands
) -> Machinist:
    """An audit of a head that leans so, opened and touched; who does it."""
    head = RigidHead(mill(nod=(pivot_mm, 0.0), height_mm=330.0), side_mm, nod_mm)
    return Machinist(made, head, **hands).start(reason)


def at(step: str, made: Bench | None = None, **head) -> Machinist:
    """The audit worked as far as a step."""
    return audit(made or bench(), **head).work(step)


def situation(made: Callable[[], Bench]) -> Callable[[], Bench]:
    """Keep a situation under its function's name."""
    SITUATIONS[made.__name__.rstrip("_").replace("_", "-")] = made
    return made


def checked(m: Machinist) -> Bench:
    """Both readings of a check."""
    m.step()
    m.step()
    return m.bench


def tight(m: Machinist) -> Machinist:
    """The nod squared and tight, its check to come."""
    m.work("tighten").step()
    return m
