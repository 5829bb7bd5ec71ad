"""What decoding a frame costs, for each shape there is, beside a slice and a float.

python tests/benchmarks/shape_rows.py
"""

import statistics
from collections.abc import Callable
from time import thread_time

from specimens import Frame, Specimen, specimens

from daq.gauges.frames import names

Row = tuple[str, float, float, float]

REACH = 40.0
"""Shapes do more than the plainest text; at a gauge's pace even this would not be felt."""

PLAIN = b"+001.234 mm\r\n"
ROUNDS = 10


def measure(events: int = 1000, repeats: int = 5) -> list[Row]:
    """Return (label, own seconds, anchor seconds, ratio to reach) a row.

    Seconds are per frame: own on average over the gauges there are captures of, with
    `events` frames each, in blocks of 50 where no pauses part them.
    """
    return [_row(shape, events, repeats) for shape in names()]


def _row(shape: str, events: int, repeats: int) -> Row:
    gauges = specimens(shape)
    decoding = [_decoding(gauge, gauge.frames(events, seed=1)) for gauge in gauges]
    turns = [
        (
            _timed(lambda: [decode() for decode in decoding], events * len(gauges)),
            _timed(lambda: [float(PLAIN[0:8]) for _ in range(events)], events),
        )
        for _ in range(repeats)
    ]
    own, anchor = (statistics.median(column) for column in zip(*turns, strict=True))
    return f"decode of a {shape} frame, {len(gauges)} gauges / slice + float", own, anchor, REACH


def _decoding(gauge: Specimen, pool: list[Frame]) -> Callable[[], None]:
    """Return what decodes the frames: a block a call, or a frame where pauses part them."""
    decoder, size = gauge.decoder(), 1 if gauge.pauses else 50
    wires = [frame.wire for frame in pool]
    blocks = [b"".join(wires[first : first + size]) for first in range(0, len(wires), size)]

    def decode() -> None:
        for block in blocks:
            gauge.say(decoder, block)

    return decode


def _timed(work: Callable[[], object], events: int) -> float:
    """Return the CPU time of one event of `work`, which handles `events` of them."""
    work()
    start = thread_time()
    for _ in range(ROUNDS):
        work()
    return (thread_time() - start) / (ROUNDS * events)


if __name__ == "__main__":
    for label, own, anchor, reach in measure():
        print(
            f"{label:50} {1e-3 / own:6.0f} thousand a second, "
            f"{own / anchor:5.1f} times the anchor; reach {reach:g}"
        )
