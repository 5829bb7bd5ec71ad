"""Whether the lean told while an adjuster is turned is what a pair check taken at once finds.

Every turn counts once: where it ends, the exact mill's pair is drawn, each spot landed on anew.
The heads stray as their file and the advice suppose: the contact slides as the head is turned
under it, tightening shifts an axis, and the side pivot is doubted by as much as it is drawn.
"""

from dataclasses import replace
from random import Random
from typing import Final

from daq.audit.aim import COVERS
from daq.audit.codec import decode
from daq.audit.events import Moved
from daq.audit.setup import AuditSetup
from daq.service.in_memory import InMemory
from daq.virtual import CannotError, Machinist
from daq.virtual.workplace import Plain
from daq.words import OPPOSITE, PARKED, Ack, Position

from . import population
from .codes import in_codes
from .mill import Conditions, Mill
from .rider import HAND, Ride
from .shop import Files, setup

STRAYING: Final = Conditions(slides=True, shift_mm=0.005)

Told = tuple[float, float]
"""How far the pair read from what was told, and the standard deviation stated for that, mm."""


class Turning(Ride):
    """A ride that draws a pair of its own at the end of every turn."""

    def __init__(self, decisions: InMemory, mill: Mill) -> None:
        super().__init__(decisions, mill)
        self.mill = mill
        self.told: list[Told] = []
        self.noise = Random(f"leaning {mill.visit.seed}")

    def press(self, kind: str, payload: Plain) -> Ack:
        """Press, and hold what was told of the lean against the mill where a turn ended."""
        job = self.decisions.state.job
        stop = job.stop if job is not None else None
        ack = super().press(kind, payload)
        for seq in ack.seqs:
            data = decode(self.decisions.events[seq - 1])
            if isinstance(data, Moved) and stop is not None and stop.leaning is not None:
                lean, beyond_mm = stop.leaning, data.past_face_mm
                read_mm = self._drawn(PARKED[data.axis]) - self._drawn(OPPOSITE[PARKED[data.axis]])
                self.told.append((read_mm - lean.error_mm(beyond_mm), lean.doubt_mm(beyond_mm)))
        return ack

    def _drawn(self, place: Position) -> float:
        landed = self.noise.gauss(0, self.mill.conditions.sigma_mm)
        count = self.mill.conditions.resolution_mm
        return round((self.mill.pushed(place) + landed) / count) * count


def files(limit_mm: float, radius_mm: float) -> AuditSetup:
    """The shop's files, the side pivot doubted by as much as the heads are drawn with."""
    made = setup(Files(limit_mm), radius_mm)
    side = replace(made.machine.side, pivot_doubt=population.BESIDE_SD_MM)
    return replace(made, machine=replace(made.machine, side=side))


def told(limit_mm: float, heads: int, audits: int, seed: int) -> list[Told]:
    """What was told at the end of each turn of these heads' first audits."""
    found: list[Told] = []
    for number in range(heads):
        house: InMemory | None = None
        for audit in range(audits):
            visit = population.visit(seed, number, audit)
            house = house or InMemory(files(limit_mm, visit.radius_mm), in_codes)
            house.setup = files(limit_mm, visit.radius_mm)
            at = Turning(house, Mill(population.head(seed, number), STRAYING, visit))
            try:
                Machinist(at, HAND).step()
                Machinist(at, HAND).work("signed")
            except CannotError:
                house = None
            found += at.told
    return found


def agrees(found: list[Told]) -> float:
    """The share of pairs inside the 95 % that were stated."""
    return sum(abs(off_mm) <= COVERS * sd_mm for off_mm, sd_mm in found) / len(found)
