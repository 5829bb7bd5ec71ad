"""What events are made of: steps, points, results, the stop-at and findings."""

import math
from dataclasses import dataclass, field
from typing import Literal

from daq.audit.stop_parts import Leaning as Leaning
from daq.checks.sweep.effects import Effect as Effect
from daq.checks.sweep.terms import Turned as Turned
from daq.metrology.budget import Budget as Budget
from daq.metrology.budget import Term as Term
from daq.metrology.rule import Rule as Rule
from daq.metrology.rule import Ruling as Ruling
from daq.squaring.because import Because as Because
from daq.squaring.because import Share as Share
from daq.squaring.shims import NoShim as NoShim
from daq.squaring.shims import Shim as Shim
from daq.words import Axis, Both, Position, Said, Word

Step = str
"""The key of one of the stages in `stages/`."""
Purpose = Literal["as-found", "final"]
Verdict = Literal[
    "conforms", "does-not-conform", "cannot-be-decided", "nothing-moved", "look-closer"
]
"""The last two are of a check that holds nothing against a tolerance."""
Leaving = Literal["safe", "as-is"]
"""How a machine is left: all tight, arm out and wrench off; or as it stands."""
RESTED = ("aside", "unsafe")
"""The steps at which an audit rests."""
RESTING = ("put-aside", *RESTED)
"""Those, and the one at which it is about to."""


@dataclass(frozen=True, slots=True)
class Way:
    """How a person comes to a stop-at.

    `past_mm` on the gauge's face, 0 for straight to it; `turns`: None when not known.
    """

    past_mm: float
    turns: Said | None
    warnings: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class ReadAt:
    """A station of a check that is none of the head: what it is called, how hands come to it.

    `lap`: the contact stays on from one station to the next of the same one.
    """

    key: str
    name: Said
    hands: Said
    lap: int


@dataclass(frozen=True, slots=True)
class Ahead:
    """What the screens show of a step that was worked out when it was reached.

    `places`: where the gauge is wanted, in order, to park it, for a pair check or a sweep;
    `stands_at`: where it was read last. `worked`: the axis that was worked on last. `nod_mm`: how
    far the nod still to be made moves the head where the gauge is parked. `way`: what is left of
    a move once the bolts were cracked. `bolt`: the next one to pull up, None when there is none
    left; `pull`: how far, then in the end, if the file says; `bolts`: in how many steps.
    `stations`: every reading of a round, in order. `squares`: the axis that would be moved first
    if somebody wanted it, where only a check was. `no_shims`: what is left out for want of one.
    """

    places: tuple[Position, ...] = ()
    stands_at: Position | None = None
    worked: Axis | None = None
    nod_mm: float = 0.0
    way: Way | None = None
    bolt: str | None = None
    pull: Said | None = None
    bolts: int = 0
    stations: tuple[ReadAt, ...] = ()
    squares: Axis | None = None
    no_shims: tuple[NoShim, ...] = ()


@dataclass(frozen=True)
class Next:
    """Where the audit goes from here, and what is to be shown there.

    `left_out`: what is not done on the way there, and why.
    """

    step: Step
    axis: Axis | None = None
    # Where it goes is the same whatever is shown there.
    ahead: Ahead | None = field(default=None, compare=False)
    left_out: Said | None = field(default=None, compare=False)


@dataclass(frozen=True)
class Anew:
    """The machine is prepared and the gauge touched again in mid-audit; then it goes on at `next`.

    "restart": nobody saw what happened while the service was off. "again": the arm had been
    taken out and the power may have been back. "aside": another job came between;
    "left": so it did, and the machine was left as it was. `maybe`: the axes whose bolts somebody
    may have cracked, told to before that.
    """

    why: Literal["restart", "again", "aside", "left"]
    next: Next
    maybe: tuple[Axis, ...] = ()


@dataclass(frozen=True)
class LeftAlone:
    """An axis that is not moved in this audit, and why; a person's own words."""

    axis: Axis
    why: str


@dataclass(frozen=True)
class Unsafe:
    """Why a machine must not run: bolts left loose, as its file names them, and the arm left in.

    `gauge`: it is no arm that was left but what another check is made with. `drawbar`: what lets
    go of it.
    """

    loose: tuple[str, ...]
    arm: bool
    gauge: bool = False
    drawbar: Literal["hand", "power"] = "hand"


@dataclass(frozen=True)
class AxisResult:
    """One axis after a sweep or a pair check.

    `d_mm`: right minus left (side), front minus back (nod), pushed in. `error_mm`
    is what is left of it after the wanted lean; `limit_mm` is the tolerance on
    this sweep's diameter on the side where the error lies, and `low_mm`, `high_mm` are
    both of its sides, signed. `u_mm`: the standard uncertainty, `dof` its effective
    degrees of freedom (None: many), `guard_mm` how far inside the limit is in.
    `probability`: of conforming. Not `good_enough`: with this uncertainty nothing could
    be called in. `basis`: where the guard comes from. `far`: out by more than its
    limit again. `ruling`: the rule it was judged by, with its risk.
    """

    d_mm: float
    error_mm: float
    limit_mm: float
    word: Word
    u_mm: float = 0.0
    dof: float | None = None
    guard_mm: float = 0.0
    probability: float | None = None
    good_enough: bool = True
    low_mm: float | None = None
    high_mm: float | None = None
    basis: Said | None = None
    far: bool = False
    ruling: Ruling | None = None

    @property
    def zone(self) -> float:
        """The error as a part of its limit: within -1 ... +1 it is inside."""
        return self.error_mm / self.limit_mm if self.limit_mm else math.copysign(9.9, self.error_mm)


@dataclass(frozen=True)
class Whole:
    """The lean as one vector, where the shop judges it so; the fields mean what an axis's do."""

    word: Word
    guard_mm: float
    probability: float
    good_enough: bool
    basis: Said
    ruling: Ruling


@dataclass(frozen=True, slots=True)
class AxisResponse:
    """How one axis of a head answers, as far as it is known: each with its standard uncertainty.

    `pivot_mm`: how far from the spindle the pivot acts. `coupling`: what the other lean does
    for each unit of this one.
    """

    pivot_mm: float
    pivot_doubt_mm: float
    coupling: float
    coupling_doubt: float


@dataclass(frozen=True)
class Point:
    """The latest known value at a position, pushed in."""

    position: Position
    pushed_mm: float


@dataclass(frozen=True)
class StopAt:
    """The one move: the reading at which to stop turning, on the gauge's own face.

    `lean` and `wanted` are slopes seen from the parked position (positive: low there);
    `wanted` is where the turn ends, so that what follows still lands it. `turns`: as they are
    told, when the adjuster's lead is known. `approach`: how to come to it. `past_mm`: how
    far to go past on the face and come back, so that the last turn comes from the right side;
    0 for not at all. `by_hand`: there is no stop-at, it stands at the base; a little turn is
    to show where the pivot acts, "back" the way the last one came, or "either" way. `because`: what
    the stop-at, or the shim, is made of. `band_mm`: how far from it on the face a turn may end;
    `finer`: the limit asks for less. `leaning`: what the parked number tells of the lean then.
    """

    axis: Axis
    position: Position
    base_face_mm: float
    stop_face_mm: float
    lean: float
    wanted: float
    turns: Said | None = None
    approach: Said | None = None
    past_mm: float = 0.0
    shim: Shim | None = None
    warnings: tuple[Said, ...] = ()
    by_hand: Literal["", "back", "either"] = ""
    because: Because | None = None
    band_mm: float = 0.0
    finer: bool = False
    leaning: Leaning | None = None


@dataclass(frozen=True)
class CheckPoint:
    """One known length in a gauge's check: what it is and what the gauge said, mm from zero.

    `off_mm`: how far, by the certificate, the blocks under the contact are from what is written
    on them; that is in `nominal_mm`.
    """

    nominal_mm: float
    read_mm: float
    direction: Literal["up", "down"]
    off_mm: float = 0.0


@dataclass(frozen=True)
class Flaw:
    """Something a sweep showed besides the lean. `blocking`: sweep again."""

    said: Said
    blocking: bool

    @property
    def code(self) -> str:
        """The code of what is said."""
        return self.said.code


@dataclass(frozen=True)
class Listed:
    """A full sweep as a signature lists it; `why`: the reason it was taken again."""

    number: int
    purpose: Purpose
    why: str | Said
    usable: bool
    words: Both[Word]
    as_left: bool
    as_found: bool = False


@dataclass(frozen=True)
class Added:
    """What the ring, or the spindle's motion, adds to a sweep as it lies or stands now.

    Known from a sweep with it (`of`) turned half round; differences across the sweep, mm.
    `learned`: the audit that taught it, not this one; `u_mm`, `dof`: how well it is known then.
    """

    of: Turned
    d_mm: Both[float]
    learned: str = ""
    u_mm: float = 0.0
    dof: float | None = None


@dataclass(frozen=True)
class AxisShift:
    """What one tightening did to its axis: how the difference across the sweep changed, mm."""

    axis: Axis
    shift_mm: float
