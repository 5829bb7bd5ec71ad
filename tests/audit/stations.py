"""Machines that offer other checks than the sweep, and hands that read them station by station."""

import math
from dataclasses import replace

from daq.audit.setup import CheckSetup
from daq.checks.kinds import kind
from daq.settings import build, plain
from tests.audit.conftest import setup_of

RUNOUT = {
    "limit": "0.02 mm",
    "tilt": "0.03 mm/300 mm",
    "heights": ["10 mm", "160 mm"],
    "bar": "0.001 mm",
}
TRAVEL = {
    "axis": "x",
    "at": ["0 mm", "100 mm", "200 mm", "300 mm"],
    "straightness": "0.02 mm",
    "slope": "0.03 mm/300 mm",
}
VISE = {"limit": "0.01 mm", "length": "150 mm", "at": ["10 mm", "75 mm", "140 mm"]}
TABLES = {"runout": RUNOUT, "travel": TRAVEL}
ON_MM = 1.0
FREE_MM = -0.4
QUARTERS = (0.0, 0.5 * math.pi, math.pi, 1.5 * math.pi)


def checks_of(tables):
    """What a file with these tables offers."""
    return {
        name: CheckSetup(plain(build(kind(name).options, table, "mill.toml")), 90)
        for name, table in tables.items()
    }


def offering(tables=TABLES):
    """A machine that offers these checks."""
    setup = setup_of(limit=0.025)
    return replace(setup, machine=replace(setup.machine, checks=checks_of(tables)))


def opened(b, check, number="P-1"):
    """Opened for a check, prepared and touched."""
    b.do("open", {"reason": "scheduled", "check": check})
    b.do("prepared", {"serial_number": number})
    b.do("take", {}, [FREE_MM] * 10)
    b.do("pushed", {}, [FREE_MM, FREE_MM + 0.8, FREE_MM + 1.1, FREE_MM])
    return b


def bar(off_mm, toward=0.0):
    """What a gauge reads of a bar, both heights alike, and back at the first angle of each."""
    turn = [ON_MM + off_mm * math.cos(angle - toward) for angle in (*QUARTERS, 0.0)]
    return [round(value, 3) for value in (*turn, *turn)]


def line(rise_mm, bow_mm=0.0):
    values = [ON_MM + rise_mm * x / 300.0 for x in (0.0, 100.0, 200.0, 300.0, 0.0)]
    values[1] += bow_mm
    values[2] -= bow_mm
    return [round(value, 3) for value in values]


def press(b, kind_of="take"):
    """What the big button sends."""
    return next(a for a in b.console["actions"] if a["kind"] == kind_of)


def take(b, value):
    return b.do("take", press(b)["payload"], [value] * 10)


def read(b, values):
    """Every station as the console asks for it; the last take's events."""
    found = ()
    for value in values:
        found = take(b, value)
    return found


GOOD = {"runout": bar(0.002), "travel": line(0.004)}
BAD = {"runout": bar(0.03), "travel": line(0.09)}
