"""How often noise on the wire ends in a wrong value: faults by the million, for each shape.

    python tests/benchmarks/noise_rows.py [faults a shape] [seed]

A fault is a bit turned over, bytes lost, bytes that come twice, or a burst in which
bytes become others: of 1 to 8 bytes, and fewer than the frame has. Each hits the second
of four frames, and may reach into the third. A value is wrong if it was not sent, or not
in that order. Frames that no fault touched and that are lost all the same are counted too.
"""

import random
import sys
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from specimens import Frame, Specimen, specimens

from daq.gauges.frames import Decoder, Indication, names

POOL = 512
MOST_BYTES = 8

Fault = Callable[[bytes, int, int, random.Random], bytes]


def _flip(wire: bytes, at: int, count: int, rng: random.Random) -> bytes:
    return wire[:at] + bytes([wire[at] ^ 1 << rng.randrange(8)]) + wire[at + 1 :]


def _drop(wire: bytes, at: int, count: int, rng: random.Random) -> bytes:
    return wire[:at] + wire[at + count :]


def _duplicate(wire: bytes, at: int, count: int, rng: random.Random) -> bytes:
    return wire[: at + count] + wire[at:]


def _burst(wire: bytes, at: int, count: int, rng: random.Random) -> bytes:
    return wire[:at] + rng.randbytes(count) + wire[at + count :]


FAULTS: dict[str, Fault] = {"flip": _flip, "drop": _drop, "duplicate": _duplicate, "burst": _burst}


@dataclass(frozen=True)
class Residual:
    """What one kind of fault did to the frames of one gauge."""

    capture: str
    kind: str
    faults: int
    wrong: int
    lost: int

    @property
    def rate(self) -> float:
        """Wrong values per fault."""
        return self.wrong / self.faults


def residual(shape: str, faults: int, seed: int) -> list[Residual]:
    """Return what so many faults do, shared out among the shape's gauges and the kinds of fault."""
    gauges = specimens(shape)
    each = faults // (len(gauges) * len(FAULTS))
    return [row for gauge in gauges for row in of_gauge(gauge, each, seed)]


def of_gauge(gauge: Specimen, each: int, seed: int) -> list[Residual]:
    """Return what `each` faults of every kind do to the frames of one gauge."""
    pool = gauge.frames(POOL, seed)
    rows = []
    for kind, fault in FAULTS.items():
        rng = random.Random(f"{seed} {kind}")
        counts = Counter[str]()
        decoder = gauge.decoder()
        for _ in range(each):
            first = int(rng.random() * (POOL - 4))
            sent = pool[first : first + 4]
            said, touched = _hit(gauge, decoder, sent, fault, rng)
            want = [frame.said[:3] for frame in sent]
            got = [each[:3] for each in said]
            if got != want:
                left = iter(want)
                counts["wrong"] += not all(each in left for each in got)
                counts["lost"] += want[0] not in got
                counts["lost"] += sum(each not in got for each in want[1 + touched :])
        rows.append(Residual(gauge.capture.path.stem, kind, each, counts["wrong"], counts["lost"]))
    return rows


def _hit(
    gauge: Specimen, decoder: Decoder, sent: Sequence[Frame], fault: Fault, rng: random.Random
) -> tuple[list[Indication], int]:
    """Send four frames with a fault; return what was heard and how many frames it touched."""
    before, hit, after, last = (frame.wire for frame in sent)
    if gauge.pauses:
        at = int(rng.random() * len(hit))
        count = min(1 + int(rng.random() * MOST_BYTES), len(hit) - 1, len(hit) - at)
        parts = (before, fault(hit, at, count, rng), after, last)
        return [said for part in parts for said in gauge.say(decoder, part)], 1
    at = int(rng.random() * len(hit))
    count = min(1 + int(rng.random() * MOST_BYTES), len(hit) - 1, len(after) - 1)
    touched = 1 if fault is _flip else 1 + (at + count > len(hit))
    return decoder.feed(before + fault(hit + after, at, count, rng) + last), touched


def main(faults: int = 1_000_000, seed: int = 1) -> None:
    """Print the rates by shape, gauge and kind of fault."""
    print(f"{faults} faults a shape, seed {seed}: wrong values per fault; whole frames lost")
    for shape in names():
        rows = residual(shape, faults, seed)
        total = sum(row.wrong for row in rows) / sum(row.faults for row in rows)
        print(f"\n{shape}: {total:.2g}")
        for capture in dict.fromkeys(row.capture for row in rows):
            own = [row for row in rows if row.capture == capture]
            rates = ", ".join(f"{row.kind} {row.rate:.2g}" for row in own)
            print(f"  {capture:24} {rates}; lost {sum(row.lost for row in own)}")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
