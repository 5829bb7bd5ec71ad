"""An event about the computer's own clock, by which every row is dated."""

from dataclasses import dataclass


@dataclass(frozen=True)
class ClockStepped:
    """The clock was set, or set back; belongs to no machine or audit. UTC in microseconds.

    `before_us`: what it would have said by then, `after_us`: what it said. Where it was set while
    nothing ran, `before_us` is the stamp of the last row. `more`: steps since the event before
    this one that have none of their own: a clock that flaps is not to fill the record.
    """

    before_us: int
    after_us: int
    more: int = 0
