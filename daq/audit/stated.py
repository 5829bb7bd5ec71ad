"""What a signature states of the head, and whether the next as-found bears it out.

Lengths are over `history.OVER_MM`, from no lean at all, so that audits at different radii, and by
another tolerance or wanted lean, compare.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal, get_args

from daq.checks.sweep.terms import Seat
from daq.metrology.reliability import BANDS, Between, DoubtPart, band_of
from daq.words import Both

NotCounted = Literal[
    "after-angled-work",
    "crash",
    "moved",
    "maintenance",
    "bolts",
    "ram",
    "seat",
    "long",
    "learning",
    "wanders",
]
"""Why an as-found says nothing of the audit before it: what is known to have moved the head,
a change of what was swept, more than a year; or how far it goes by itself is not known yet, or is
too much."""
WHY: tuple[NotCounted, ...] = get_args(NotCounted)


@dataclass(frozen=True, slots=True)
class AxisStated:
    """One axis as it was left: its lean, its limits, its doubt.

    `apart_mm`: the part of `u_mm` that is drawn anew when the same gauge sweeps the same circle;
    what it is off by both times alike is in no difference of them.
    """

    lean_mm: float
    low_mm: float
    high_mm: float
    u_mm: float
    dof: float | None
    apart_mm: float

    @property
    def middle_mm(self) -> float:
        """The middle of its limits."""
        return 0.5 * (self.low_mm + self.high_mm)

    def doubt(self, *, alike: bool) -> DoubtPart:
        """What it is in doubt by beside another sweep, read `alike` or otherwise."""
        return DoubtPart(self.apart_mm if alike else self.u_mm, self.dof)


@dataclass(frozen=True)
class Stated:
    """What a signed "conforms" states: with which `probability` both axes are inside at once.

    `circle_mm`: how long the lean may be, where it was judged as one vector; else None. The sweep
    stood on `seat`, was read by the gauge of that `serial_number` across `diameter_mm`, with the
    ram at its file's `ram_angle`. `since`: what has moved the head after it.
    """

    audit: str
    day: str
    probability: float
    axes: Both[AxisStated]
    circle_mm: float | None
    serial_number: str
    diameter_mm: float
    seat: Seat
    ram_angle: float
    since: NotCounted | None = None

    def stirred(self, by: NotCounted | None) -> "Stated":
        """The same after an audit that left nothing but that; what came first stays."""
        return replace(self, since=self.since or by)


@dataclass(frozen=True, slots=True)
class Apart:
    """How far one axis was found from how it was left, its doubt, and half of its limits' width."""

    apart_mm: float
    u_mm: float
    most_mm: float


@dataclass(frozen=True)
class BorneOut:
    """Whether an as-found bears out what the `audit` before it had stated with `probability`.

    `why`: it is not counted, and `agreed` and `as_read` say nothing. `as_read`: with the doubts of
    both sweeps allowed for; `agreed`: and how far the head goes by itself from audit to audit, too.
    `teaches`: what it shows of that, None where something else moved the head.
    """

    audit: str
    probability: float
    why: NotCounted | None
    agreed: bool
    as_read: bool
    teaches: Both[Apart] | None


@dataclass(frozen=True, slots=True)
class Count:
    """So many audits of one band of probability, and with how many the next as-found agreed."""

    audits: int = 0
    agreed: int = 0
    as_read: int = 0

    def plus(self, other: "Count") -> "Count":
        """Both together."""
        return Count(
            self.audits + other.audits, self.agreed + other.agreed, self.as_read + other.as_read
        )


NONE: tuple[Count, ...] = (Count(),) * len(BANDS)
NOTHING_KNOWN: Both[Between] = Both(Between(), Between())


@dataclass(frozen=True)
class Reliability:
    """What a machine's statements have come to, however many there were.

    `bands`: by their probability; `left_out`: how many were not counted, by why. `going`: how far
    each axis goes by itself from audit to audit.
    """

    bands: tuple[Count, ...] = NONE
    left_out: Mapping[NotCounted, int] = field(default_factory=dict)
    going: Both[Between] = NOTHING_KNOWN

    def then(self, found: BorneOut | None) -> "Reliability":
        """The same with one statement more that was held against its next as-found."""
        if found is None:
            return self
        going = self.going
        if found.teaches is not None:
            new = found.teaches
            going = Both.of(
                lambda axis: going[axis].then(new[axis].apart_mm, new[axis].u_mm, new[axis].most_mm)
            )
        if found.why is not None:
            left_out = {**self.left_out, found.why: self.left_out.get(found.why, 0) + 1}
            return replace(self, left_out=left_out, going=going)
        at = band_of(found.probability)
        one = self.bands[at].plus(Count(1, int(found.agreed), int(found.as_read)))
        return replace(self, bands=(*self.bands[:at], one, *self.bands[at + 1 :]), going=going)

    def plus(self, other: "Reliability") -> "Reliability":
        """Both machines' counts together; how a head goes by itself is each head's own."""
        bands = tuple(a.plus(b) for a, b in zip(self.bands, other.bands, strict=True))
        both = {w: self.left_out.get(w, 0) + other.left_out.get(w, 0) for w in WHY}
        return Reliability(bands, {w: many for w, many in both.items() if many})
