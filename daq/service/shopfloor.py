"""What of the shop is asked for while deciding: setups of new audits, and the gauges' samples."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from daq.audit.setup import AuditSetup
from daq.gauges.ring import Ring
from daq.words import GaugeStatus, Passed, Said


@dataclass(frozen=True)
class Shopfloor:
    """The shop as the decider sees it."""

    setup: Callable[[str], AuditSetup | None]
    rings: Mapping[str, Ring]
    presses: Mapping[str, int] = field(default_factory=dict)
    """For each gauge that sends on its key: how many presses make one reading."""
    statuses: Callable[[], Iterable[GaugeStatus]] = tuple
    """How the gauges' readers are doing; what stands still cannot report it."""
    why_not: Callable[[str], Said | None] = lambda machine: None
    """Why no audit can be opened on a machine, if a file's mistake is the reason."""
    passed: Callable[[str, int], tuple[Passed, ...]] = lambda machine, since_ns: ()
    """What the arm passed of a machine's collar since a moment, monotonic."""

    def ring(self, gauge: str) -> Ring:
        """A gauge's samples; none for a gauge that left the files while its audit was open."""
        return self.rings.get(gauge) or Ring(1)
