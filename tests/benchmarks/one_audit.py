"""One whole audit, press by press through the product's decisions, as the ledger would keep it."""

from collections.abc import Sequence
from dataclasses import replace

from heads import population
from heads.cells import PLAIN
from heads.mill import Mill
from heads.rider import ride
from heads.shop import Files, setup
from past import Past

from daq.audit.engine import needs
from daq.audit.events import Data
from daq.audit.setup import AuditSetup
from daq.says import language
from daq.service.in_memory import InMemory
from daq.words import Command, Sample

MACHINE = "practice-mill"
"""The audit is put under a machine that the shipped files have."""

WINDOW = 25
"""Samples of a settled reading at 50 Hz."""

TURNING = 6000
"""Samples since the last step where a hand turns something, at 50 Hz: two moves of two minutes, as
eight of half a minute would leave."""


class Recorded(InMemory):
    """Keeps as many samples as a gauge sends: `window` of a reading, `turning` of a turn."""

    def __init__(self, files: AuditSetup, window: int, turning: int) -> None:
        """Begin with a machine of which nothing is known but its files."""
        super().__init__(files, language().told)
        self.window, self.turning = window, turning

    def decide(self, command: Command, numbers: Sequence[float]) -> tuple[Data, ...]:
        """Decide with what the gauge showed, each number for as long as it stood."""
        need = needs(self.shop, command)
        long = need.kind == "history" or need.whole
        each = max(1, (self.turning if long else self.window) // max(1, len(numbers)))
        return super().decide(command, [value for value in numbers for _ in range(each)])

    def still(self, samples: list[Sample]) -> list[Sample]:
        """The window at the end of them."""
        return samples[-self.window :]


def one_audit(window: int = WINDOW, turning: int = TURNING) -> Past:
    """A first audit of a head, signed."""
    visit = population.visit(1, 3, 0)
    house = Recorded(setup(Files(limit_mm=0.01), visit.radius_mm), window, turning)
    outcome = ride(Mill(population.head(1, 3), PLAIN, visit), house)
    if outcome.lost:
        raise RuntimeError(outcome.lost)
    events = [replace(event, machine=MACHINE) for event in house.events]
    return Past(events, house.chunks)
