"""What heads are left at by audits through the product's own decisions, and how it is judged."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from daq.audit.codec import decode
from daq.audit.events import Signed
from daq.audit.parts import AxisResult
from daq.audit.setup import AuditSetup
from daq.metrology.rule import Limits, Rule, judge
from daq.service.in_memory import InMemory
from daq.virtual import CannotError, Machinist
from daq.words import Both

from . import population
from .cells import PLAIN
from .codes import in_codes
from .mill import Mill
from .rider import HAND, Ride, ride
from .shop import Files, setup
from .stated import Stated

OFF = Rule("simple", share=1.0)
OVER_MM = 300.0


@dataclass(frozen=True, slots=True)
class Left:
    """A head as left: of each axis what was read, its u and degrees of freedom, where it stands.

    All mm across the sweep. `limit_mm`: across it, too.
    """

    read_mm: tuple[float, float]
    u_mm: tuple[float, float]
    dof: tuple[float | None, float | None]
    true_mm: tuple[float, float]
    limit_mm: float

    @property
    def inside(self) -> bool:
        """Whether it truly stands inside on both axes."""
        return max(map(abs, self.true_mm)) <= self.limit_mm

    def judged(self, rule: Rule) -> tuple[bool, float]:
        """Whether a rule calls it in, and the probability of that."""
        limits = Limits(-self.limit_mm, self.limit_mm)
        each = [
            judge(read, u, dof, limits, rule)
            for read, u, dof in zip(self.read_mm, self.u_mm, self.dof, strict=True)
        ]
        return all(one.word == "in" for one in each), math.prod(one.probability for one in each)


@dataclass(frozen=True, slots=True)
class Audits:
    """One line's audits: the limit over 300 mm or over the sweep, and what is off.

    `at_bound`: the ring, as uneven as its file allows in every audit, and nothing else; or as
    the file states it, everything anywhere in its bound. `radius_mm`: None for 60 to 150.
    `before`: so many audits of the same head taught what it does.
    """

    limit_mm: float
    over_mm: float | None = OVER_MM
    at_bound: bool = False
    radius_mm: float | None = None
    rule: Rule = OFF
    before: int = 0


def audited(audits: Audits, seed: int, number: int) -> tuple[Left, Left] | None:
    """Audit a head: as left, and then with the ring turned half round.

    None where that led nowhere.
    """
    *earlier, (files, mill) = _visits(audits, seed, number)
    house = InMemory(files, in_codes)
    for house.setup, other in earlier:
        if ride(other, house).lost:
            return None
    house.setup = files
    return _turned(Ride(house, mill), mill)


def _visits(audits: Audits, seed: int, number: int) -> Iterator[tuple[AuditSetup, Mill]]:
    """The files of each audit of a head, and how everything stands there."""
    head = population.head(seed, number)
    for audit in range(audits.before + 1):
        visit = population.visit(seed, number, audit)
        visit = replace(visit, radius_mm=audits.radius_mm or visit.radius_mm)
        across_mm = 2.0 * visit.radius_mm
        files = setup(
            Files(audits.limit_mm * across_mm / (audits.over_mm or across_mm)), visit.radius_mm
        )
        files = replace(files, machine=replace(files.machine, verdict=audits.rule))
        mill = Mill(head, PLAIN, visit)
        if not audits.at_bound:
            doubts = files.machine.uncertainty
            mill = Stated(head, PLAIN, visit, doubts, doubts.local(files.gauge.max_error))
        yield files, mill


def _turned(at: Ride, mill: Mill) -> tuple[Left, Left] | None:
    hand, limit_mm = Machinist(at, HAND), at.decisions.setup.machine.side.limit
    try:
        hand.step()
        hand.work("clear")
        before = _left(at.decisions.state.job.sweeps.latest.results, mill, limit_mm)
        at.press("again", {"turned": "ring"})
        mill.lay(mill.ring_deg + 180.0)
        hand.work("signed")
    except CannotError:
        return None
    signed = decode(at.decisions.events[-1])
    assert isinstance(signed, Signed)
    return before, _left(signed.as_left, mill, limit_mm)


def _left(results: Both[AxisResult], mill: Mill, limit_mm: float) -> Left:
    """What a sweep made of a head, beside where it truly stands."""
    side, nod = results.values()
    read_mm, u_mm = (side.d_mm, nod.d_mm), (side.u_mm, nod.u_mm)
    return Left(read_mm, u_mm, (side.dof, nod.dof), mill.differences(), limit_mm)
