"""How likely "in" after one more move is said to be as found, and whether it came so.

Every axis that is to be moved counts once: when all of them were moved once and are tight, a full
sweep of the exact mill is drawn, and it is in if it reads within the zone that was said to be left.
An axis that had to be turned again before that is not.
"""

import math
from dataclasses import dataclass, field
from random import Random

from daq.audit.codec import decode
from daq.audit.decide_parts import Decidable
from daq.audit.events import Moved, SweepDone, Tightened
from daq.service.in_memory import InMemory
from daq.virtual import CannotError, Machinist
from daq.virtual.workplace import Plain
from daq.words import AXES, Ack, Axis

from . import population
from .cells import SHIFTING
from .codes import in_codes
from .mill import Mill
from .rider import HAND, Ride
from .shop import Files, setup

Foretold = tuple[float, bool]
"""How likely "in" was said to be, and whether it came so."""


@dataclass
class Watching:
    """What was said of one audit as found, and what has been done since."""

    said: Decidable | None = None
    wanted: tuple[Axis, ...] = ()
    moved: list[Axis] = field(default_factory=list)
    tight: set[Axis] = field(default_factory=set)
    came: dict[Axis, bool] = field(default_factory=dict)


class Foretelling(Ride):
    """A ride that draws a sweep of its own once every axis was moved once."""

    def __init__(self, decisions: InMemory, mill: Mill) -> None:
        super().__init__(decisions, mill)
        self.mill = mill
        self.watching = Watching()
        self.noise = Random(f"foretold {mill.visit.seed}")

    def press(self, kind: str, payload: Plain) -> Ack:
        """Press, and look at what came of it."""
        ack = super().press(kind, payload)
        for seq in ack.seqs:
            self._look(decode(self.decisions.events[seq - 1]))
        return ack

    def _look(self, data: object) -> None:
        seen = self.watching
        if isinstance(data, SweepDone) and seen.said is None and data.next.step == "park":
            out = tuple(axis for axis in AXES if data.results[axis].word != "in")
            seen.said, seen.wanted = data.decidable, out
        if isinstance(data, Moved) and seen.said is not None and not self._over():
            if data.axis in seen.moved:
                seen.came.setdefault(data.axis, False)
            seen.moved.append(data.axis)
        if isinstance(data, Tightened) and not self._over():
            seen.tight.add(data.axis)
            if set(seen.wanted) <= seen.tight:
                self._draw()

    def _over(self) -> bool:
        return bool(self.watching.wanted) and set(self.watching.wanted) <= set(self.watching.came)

    def _draw(self) -> None:
        """A sweep's differences as the exact mill stands, its landings drawn anew."""
        seen, read = self.watching, {}
        for place in ("front", "right", "back", "left"):
            landed = self.noise.gauss(0, self.mill.conditions.sigma_mm)
            count = self.mill.conditions.resolution_mm
            read[place] = round((self.mill.pushed(place) + landed) / count) * count
        d_mm = {"side": read["right"] - read["left"], "nod": read["front"] - read["back"]}
        for axis in seen.wanted:
            zone_mm = seen.said.axes[axis].zone_mm if seen.said is not None else None
            within = zone_mm is not None and abs(d_mm[axis]) <= zone_mm
            seen.came.setdefault(axis, within)


def foretold(files: Files, heads: int, audits: int, seed: int) -> list[Foretold]:
    """What was said of each axis of each audit of these heads, and whether it came so."""
    found = []
    for number in range(heads):
        house: InMemory | None = None
        for audit in range(audits):
            visit = population.visit(seed, number, audit)
            house = house or InMemory(setup(files, visit.radius_mm), in_codes)
            house.setup = setup(files, visit.radius_mm)
            at = Foretelling(house, Mill(population.head(seed, number), SHIFTING, visit))
            try:
                Machinist(at, HAND).step()
                Machinist(at, HAND).work("signed")
            except CannotError:
                house = None
            seen = at.watching
            if seen.said is not None:
                found += [(seen.said.axes[axis].likely, came) for axis, came in seen.came.items()]
    return found


def compared(found: list[Foretold]) -> tuple[float, float, float]:
    """The mean of what was said, the share that came so, and the standard error of that."""
    said = sum(likely for likely, _ in found) / len(found)
    came = sum(came for _, came in found) / len(found)
    error = math.sqrt(sum(likely * (1.0 - likely) for likely, _ in found)) / len(found)
    return said, came, error
