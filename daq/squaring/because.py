"""What a stop-at, or a shim, is made of: each thing that was thought of, and what it makes."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Share:
    """One thing that a stop-at allows for.

    `across_mm`: how much lean is there, or is still to come, as a difference across the sweep,
    above zero with the parked spot low. `makes_mm`: what taking that out makes.
    """

    across_mm: float
    makes_mm: float


@dataclass(frozen=True, slots=True)
class Because:
    """Why the number is what it is: its shares add up to stop-at less base on the gauge's face.

    `lean`: what there is to be taken out; `cross`: what the other axis's move to come will add;
    `tightening`: what that is expected to add, in doubt by `tightening_doubt_mm` across the
    sweep; `rest`: what the head does once it is let go. `sees`: what the parked gauge sees
    of a millimetre across the sweep, with the pivot `pivot_mm` away from it beyond the spindle,
    in doubt by `pivot_doubt_mm`. `bend_mm`: what the pivot's height makes on the face.

    Of a shim they add up to its thickness; `sees` is then what the bolts' spacing makes of a
    millimetre across the sweep, and `shelf` what is left as there is none of just that thickness.
    """

    sees: float
    pivot_mm: float
    pivot_doubt_mm: float
    lean: Share
    cross: Share
    tightening: Share
    tightening_doubt_mm: float
    rest: Share | None
    bend_mm: float = 0.0
    shelf: Share | None = None

    @property
    def sum_mm(self) -> float:
        """All shares together, mm."""
        each = (self.lean, self.cross, self.tightening, self.rest, self.shelf)
        return sum((share.makes_mm for share in each if share is not None), self.bend_mm)


def share(across_mm: float, per: float) -> Share:
    """Return the share of so much lean, where taking a millimetre of it out makes `per`."""
    return Share(across_mm, across_mm * per + 0.0)  # never -0.0
