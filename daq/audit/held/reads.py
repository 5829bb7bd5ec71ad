"""The readings under way."""

from dataclasses import dataclass, replace

from daq.audit.parts import Turned
from daq.words import Reading, Said


@dataclass(frozen=True)
class Reads:
    """What was read so far of the sweep, the pair check or the round of stations under way.

    `seconds`: the readings of the other gauge of a two-gauge bar. `turned`: what was turned half
    round for this sweep; `why`: the reason it, or the round, is wanted once more.
    """

    taken: tuple[Reading, ...] = ()
    seconds: tuple[Reading, ...] = ()
    turned: Turned = ""
    why: str | Said = ""

    def then(self, reading: Reading, second: Reading | None = None) -> "Reads":
        """One reading more."""
        seconds = self.seconds if second is None else (*self.seconds, second)
        return replace(self, taken=(*self.taken, reading), seconds=seconds)

    def anew(self) -> "Reads":
        """The same, begun again."""
        return replace(self, taken=(), seconds=())
