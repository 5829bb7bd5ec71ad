"""A machine on which left and right, front and back are not alike in anything."""

from dataclasses import replace

from daq.checks.sweep.doubts import Doubts
from daq.squaring.adjuster import Adjust
from tests.audit.conftest import setup_of
from tests.audit.rigid import changed


def machine(both=None, **more):
    """Limits that differ side to side, pivots off both ways, couplings, some wanted lean."""
    side = {
        "pivot_distance": 8.0,
        "coupling": 0.03,
        "limit_low": 0.018,
        "wanted_lean": 1e-5,
        "adjust": Adjust(finish_raising="left"),
    }
    setup = setup_of(limit=0.025, nod_pivot=150.0, height=400.0)
    nod = {"coupling": -0.02}
    return changed(setup, side={**side, **(both or {})}, nod={**nod, **(both or {})}, **more)


def scaled(setup, by):
    """The same shape of machine and gauge, every length so many times as large."""
    doubts = Doubts(flatness=Doubts().form(on_the_table=False))
    lengths = (
        *("repeatability", "wedge", "seating", "flatness", "drift"),
        *("spindle_axial", "friction", "radius", "thickness"),
    )
    longer = {key: by * getattr(doubts, key) for key in lengths}
    both = {}
    for axis in (setup.machine.side, setup.machine.nod):
        names = ("over", "limit", "pivot_distance", "pivot_height")
        both[axis.say] = {name: by * getattr(axis, name) for name in names}
        if axis.limit_low is not None:
            both[axis.say]["limit_low"] = by * axis.limit_low
    return changed(
        setup,
        machine={
            "sweep_radius": by * setup.machine.sweep_radius,
            "uncertainty": replace(doubts, **longer),
        },
        gauge={"resolution": by * setup.gauge.resolution, "travel": by * setup.gauge.travel},
        side=both["Side to side"],
        nod=both["Nod"],
    )
