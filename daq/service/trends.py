"""The trends, made when they are asked for: their due dates depend on the day."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from daq.audit.history import day_of
from daq.audit.setup import MachineSetup
from daq.audit.state import Shop
from daq.audit.trend import trend
from daq.says import language
from daq.service.clock import Clock
from daq.settings import build
from daq.words.trend import TrendView


@dataclass(frozen=True)
class Trends:
    """Answers what a machine's audits show together; any thread may ask. It changes nothing.

    `machines`: what the files say today, by key: the interval between audits is theirs.
    `shop` gives the latest fold.
    """

    machines: Mapping[str, MachineSetup]
    shop: Callable[[], Shop]
    clock: Clock

    def of(self, machine: str) -> TrendView:
        """A machine's trend as it is now; one whose file is gone has no interval."""
        history = self.shop().machine(machine).history
        file = self.machines.get(machine)
        every = None if file is None else file.audit_every
        view = trend(history, every, day_of(self.clock.stamp()))
        return build(TrendView, language().told(view), "trend", quantities="plain")
