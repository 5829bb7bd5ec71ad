"""What signed verdicts were worth: each held against the next as-found, counted by what it said."""

from dataclasses import dataclass

from daq.words.said import Text


@dataclass(frozen=True, slots=True)
class BandView:
    """The verdicts stated with a probability from `low` up to below `high`.

    `audits`: how many were held against their next as-found, and `agreed`: with how many that
    agreed; `share` of them, true within `share_low` to `share_high` at 95 %. `as_read`: with how
    many it agrees where nothing is allowed for how far a head goes by itself, and their
    `as_read_share`. All but `audits` are None while those are too few. `say`: what the share is,
    in words.
    """

    low: float
    high: float
    audits: int
    agreed: int | None
    share: float | None
    share_low: float | None
    share_high: float | None
    as_read: int | None
    as_read_share: float | None
    stated: Text
    say: Text
    as_read_say: Text


@dataclass(frozen=True, slots=True)
class LeftOutView:
    """So many `audits` that say nothing of the verdict before them, and why."""

    why: str
    audits: int
    say: Text


@dataclass(frozen=True, slots=True)
class ReliabilityView:
    """What the verdicts of a machine, or of all of a shop's machines, were worth.

    `fewest`: so many of a band make a share. `say`: what those stated 90 to 95 % sure came to.
    `side_going_mm`, `nod_going_mm`: how far the head goes by itself from audit to audit, one
    standard deviation over 300 mm; None of a shop, and while it is not known. `allows`: that in
    words.
    """

    bands: tuple[BandView, ...]
    left_out: tuple[LeftOutView, ...]
    fewest: int
    say: Text
    side_going_mm: float | None
    nod_going_mm: float | None
    allows: Text
