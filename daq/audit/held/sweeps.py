"""The readings under way, and the full sweeps that came of them."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from daq.audit.events import OffScale, SweepDone
from daq.audit.parts import Added, Purpose, Turned
from daq.checks.sweep.by_mark import Taught
from daq.checks.sweep.rings import Laid
from daq.checks.sweep.spindle import SPINDLE, Clamped
from daq.words import Axis, Reading, Said


@dataclass(frozen=True)
class ReadSoFar:
    """What was read so far of the sweep, the pair check or the round of stations under way.

    `seconds`: the readings of the other gauge of a two-gauge bar. `turned`: what was turned half
    round for this sweep; `why`: the reason it, or the round, is wanted once more.
    """

    taken: tuple[Reading, ...] = ()
    seconds: tuple[Reading, ...] = ()
    turned: Turned = ""
    why: str | Said = ""

    def then(self, reading: Reading, second: Reading | None = None) -> "ReadSoFar":
        """One reading more."""
        seconds = self.seconds if second is None else (*self.seconds, second)
        return replace(self, taken=(*self.taken, reading), seconds=seconds)

    def anew(self) -> "ReadSoFar":
        """The same, begun again."""
        return replace(self, taken=(), seconds=())


@dataclass(frozen=True)
class Sweeps:
    """Every sweep `done`, and what they prove of the head as found and as left.

    `disturbed`: bolts were loosened since the latest; `loosened`: at any time.
    `set_back`: by its scale before any sweep, after angled work. `final_from`: how many came before
    the last disturbance. `off_scale`: where the gauge could not read the head.
    `parked_adds_mm`: what the parked gauge reads beyond the lean; `added`: what of it is known from
    something turned half round. `laid`: the named ring on the table, `clamped`: the arm, where the
    spindle's mark was told; `taught`: what was learned here of rings and of the spindle, by key.
    `steady_mm_s`: how fast the reading drifts, where that was said to be steady.
    """

    done: tuple[SweepDone, ...] = ()
    disturbed: bool = False
    loosened: bool = False
    set_back: bool = False
    final_from: int = 0
    off_scale: tuple[OffScale, ...] = ()
    parked_adds_mm: Mapping[Axis, float] = field(default_factory=dict)
    added: tuple[Added, ...] = ()
    laid: Laid | None = None
    clamped: Clamped | None = None
    taught: Mapping[str, Taught] = field(default_factory=dict)
    steady_mm_s: float | None = None

    @property
    def founds(self) -> tuple[SweepDone, ...]:
        """Every usable full sweep taken before anything was loosened."""
        return tuple(s for s in self.done if s.usable and s.purpose == "as-found")

    @property
    def as_found(self) -> SweepDone | None:
        """The first of them; sweeps with the ring or the arm turned complete it."""
        return _completed(self.founds)

    @property
    def latest(self) -> SweepDone | None:
        """The latest usable sweep."""
        usable = [s for s in self.done if s.usable]
        return usable[-1] if usable else None

    @property
    def proofs(self) -> tuple[SweepDone, ...]:
        """Every usable full sweep since anything was last loosened or tightened."""
        return tuple(s for s in self.done[self.final_from :] if s.usable)

    @property
    def as_left(self) -> SweepDone | None:
        """The first of the proofs; sweeps with the ring or the arm turned complete it."""
        return _completed(self.proofs)

    @property
    def purpose(self) -> Purpose:
        """What a sweep taken now would be."""
        return "final" if self.loosened else "as-found"

    def knowing(self, taught: Taught) -> "Sweeps":
        """The same once a reversal taught something of the ring or the spindle."""
        known, laid, clamped = {**self.taught, taught.key: taught}, self.laid, self.clamped
        if taught.key != SPINDLE and laid is not None:
            laid = replace(laid, ring=replace(laid.ring, wedge=taught.now))
        if taught.key == SPINDLE and clamped is not None:
            clamped = replace(clamped, rise=taught.now)
        return replace(self, taught=known, laid=laid, clamped=clamped)

    def arm_out(self) -> "Sweeps":
        """The same once the arm was taken out: how it is clamped now nobody said."""
        adds_mm = dict(self.parked_adds_mm)
        for part in self.added:
            if part.of == "arm":
                adds_mm = {axis: mm - part.d_mm[axis] for axis, mm in adds_mm.items()}
        added = tuple(each for each in self.added if each.of != "arm")
        return replace(self, clamped=None, added=added, parked_adds_mm=adds_mm)

    def spoilt(self, *, loosened: bool) -> "Sweeps":
        """The same once the head may stand otherwise: none so far proves how it is left."""
        loosened, final_from = loosened or self.loosened, len(self.done)
        return replace(self, disturbed=True, loosened=loosened, final_from=final_from)


def _completed(sweeps: tuple[SweepDone, ...]) -> SweepDone | None:
    """The first sweep, or the last of those with something turned directly after it."""
    first = next(iter(sweeps), None)
    for later in sweeps[1:]:
        if not later.turned:
            break
        first = later
    return first
