"""A settled value at one position of the sweep circle."""

from dataclasses import dataclass

from daq.words.place import Position


@dataclass(frozen=True, slots=True)
class Reading:
    """The mean of the samples first_n..last_n of one run.

    `mean_mm` and `sd_mm` are on the gauge's own face (its sign and zero);
    `mid_ns` is the monotonic time of the middle of the window; `evidence` is
    the SHA-256 of the stored samples, hex.
    """

    position: Position | None
    gauge: str
    run: str
    first_n: int
    last_n: int
    mean_mm: float
    sd_mm: float
    count: int
    mid_ns: int
    evidence: str
