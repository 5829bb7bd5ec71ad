"""Situations of checks that are none of the head."""

from daq.audit.setup import CheckSetup
from tests.audit import morning
from tests.audit.conftest import Bench
from tests.audit.stations import BAD, FREE_MM, GOOD, RUNOUT, TABLES, VISE, checks_of, opened, read
from tests.web.acts import bench, situation

LONGEST = {**RUNOUT, "reseat": True, "tilt": "0.01 mm/300 mm"}
"""Both heights with the bar set in twice: as many stations as two heights have."""


def offering(check: str, table=None) -> Bench:
    """The practice mill that offers this check, opened for it and touched."""
    made = bench(machine={"checks": checks_of({check: table or TABLES[check]})})
    return opened(made, check, number="P-0417")


@situation
def offers() -> Bench:
    return bench(machine={"checks": checks_of(TABLES)})


@situation
def stations() -> Bench:
    b = offering("travel")
    read(b, GOOD["travel"][:2])
    return b


@situation
def stations_many() -> Bench:
    b = offering("runout", LONGEST)
    read(b, [*GOOD["runout"], *GOOD["runout"][:3]])
    return b


@situation
def check_out() -> Bench:
    b = offering("runout")
    read(b, BAD["runout"])
    return b


@situation
def tap() -> Bench:
    b = offering("vise", VISE)
    read(b, [1.0, 1.015, 1.03, 1.0])
    return b


@situation
def check_signed() -> Bench:
    b = offering("runout")
    read(b, GOOD["runout"])
    b.do("cleared")
    b.do("sign", {"done_by": "T"})
    return b


def swept(spots="both"):
    """The practice mill, squared and signed, with a morning check to offer."""
    made = bench(machine={"checks": {"morning": CheckSetup({"spots": spots}, 1)}})
    return morning.signed(made)


@situation
def morning_prepare() -> Bench:
    b = swept()
    b.do("open", {"reason": "scheduled", "check": "morning"})
    return b


@situation
def morning_read() -> Bench:
    return morning.opened(swept("nod"))


@situation
def morning_closer() -> Bench:
    b = morning.opened(swept())
    morning.read(b, side=0.06, nod=-0.06)
    return b


@situation
def morning_signed() -> Bench:
    b = swept("side")
    morning.looked(b)
    return b


@situation
def check_left() -> Bench:
    b = offering("travel")
    b.do("take", {"station": "0"}, [FREE_MM + 1.0] * 10)
    b.do("abandon", {"why": "no time"})
    return b
