"""Machines that offer a morning check, swept and signed, and mornings after that."""

from dataclasses import replace

from daq.audit.setup import CheckSetup
from tests.audit.conftest import Bench, setup_of
from tests.audit.stations import press

SIDE, NOD = 0.008, -0.006
"""Differences over the sweep's 200 mm: right low, and the back."""


def offering(spots="both", limit=0.025, **machine):
    setup = setup_of(limit=limit)
    checks = {"morning": CheckSetup({"spots": spots}, 1)}
    return replace(setup, machine=replace(setup.machine, checks=checks, **machine))


def reads(spot, side=SIDE, nod=NOD):
    """What a spot reads: the middle, and half of its axis's difference."""
    half = {"front": nod, "back": -nod, "right": side, "left": -side}[spot]
    return round(1.0 + half / 2.0, 4)


def signed(b=None, **more):
    """Swept and signed."""
    b = b or Bench(offering())
    b.open("scheduled")
    b.do("prepared", {"serial_number": b.number})
    b.do("take", {}, [0.0] * 10)
    b.do("pushed", {}, [0.0, 0.8, 1.1, 0.0])
    b.sweep(*(reads(spot, **more) for spot in ("front", "right", "back", "left")))
    b.do("cleared")
    b.do("sign", {"done_by": "T"})
    return b


def opened(b):
    """The gauge in the spindle, its contact in the air once."""
    b.do("open", {"reason": "scheduled", "check": "morning"})
    b.do("prepared", {"serial_number": b.number})
    b.do("take", {}, [0.0] * 10)
    return b


def read(b, side=SIDE, nod=NOD):
    """Both spots as the console asks for them; the last one's events."""
    found = ()
    while b.job.step == "stations":
        spot = b.console["do"]["position"]
        found = b.do("take", press(b)["payload"], [reads(spot, side, nod)] * 10)
    return found


def looked(b, **more):
    """A whole morning."""
    opened(b)
    read(b, **more)
    b.do("cleared")
    return b.do("sign", {"done_by": "T"})[-1]
