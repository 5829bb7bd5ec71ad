"""Two wires of a made-up gauge: what a bridge sees of clock and data, with what goes wrong there.

Frames are written here once more from their description, not with the bridge's own code.
"""

import random
import struct
import subprocess
from dataclasses import dataclass, field
from pathlib import Path

LEVELS, TYPED, LOST, POWERED, CHECKED, BUSY = range(6)
RECORD = struct.Struct("<IBBH")
GLITCH_US = 20
"""What is shorter was not there (bits.h)."""

Change = tuple[int, str, int]
"""When, which wire, its level from then on; or another record's name, and its value."""
OTHERS = {"lost": LOST, "typed": TYPED, "busy": BUSY}


def lowest_first(number: int, many: int) -> list[int]:
    return [number >> n & 1 for n in range(many)]


def binary(count: int, *, inch: bool = False) -> list[int]:
    """24 bits: a count and its sign."""
    return [*lowest_first(abs(count), 20), int(count < 0), 0, 0, int(inch)]


def digits(count: int, places: int, *, inch: bool = False, ones: int = 4) -> list[int]:
    """48 or 52 bits: half-bytes of ones, sign, six digits, decimals, unit."""
    six = [int(digit) for digit in f"{abs(count):06}"]
    halves = [15] * ones + [8 if count < 0 else 0, *six, places, int(inch)]
    return [bit for half in halves for bit in lowest_first(half, 4)]


@dataclass
class Wires:
    """Clock and data over time.

    `rising` is the edge of the clock at which the gauge means data to be read; `ends` whether its
    clock rests as it is after that edge, or as before it; `moves` how long after the clock's other
    edge data move, as a part of the period.
    """

    seed: int
    rising: bool = False
    ends: bool = False
    moves: float = 0.02
    period_us: int = 500
    jitter: float = 0.03
    now_us: int = 30_000
    records: list[tuple[int, int, int]] = field(default_factory=list)

    def __post_init__(self):
        self.chance = random.Random(self.seed)
        self.level = {"clock": int(self.rising == self.ends), "data": 0}
        self.put(POWERED)

    def _put(self, at_us: int, what: int, value: int | None = None) -> None:
        levels = self.level["clock"] | self.level["data"] << 1
        self.records.append((at_us % 2**32, what, levels if value is None else value))

    def edges(self, bits: list[int]) -> list[Change]:
        """A frame from now on."""
        step, read = self.period_us / 2, int(self.rising)
        shaken = self.jitter * self.period_us
        found: list[Change] = []
        at = self.now_us + 5000.0
        for bit in bits:
            moves = at + self.moves * self.period_us * (1 + self.chance.random())
            found.append((round(moves), "data", bit))
            for half in (0, 1) if self.ends else (1, 2):
                edge = at + half * step + self.chance.uniform(-shaken, shaken)
                found.append((round(edge), "clock", read if half == 1 else 1 - read))
            at += 2 * step
        self.now_us = round(at)
        return found

    def take(self, changes: list[Change], pause_us: int = 40_000) -> None:
        """Let these come, then nothing for a while."""
        for at_us, wire, level in sorted(changes, key=lambda change: change[0]):
            if wire in OTHERS:
                self._put(at_us, OTHERS[wire], level)
            else:
                self.level[wire] = level
                self._put(at_us, LEVELS)
        self.wait(pause_us)

    def glitched(
        self, changes: list[Change], every_us: int = 200, most_us: int = GLITCH_US - 1
    ) -> list[Change]:
        """The same with glitches on both wires, those that fall into an edge too."""
        found: list[Change] = []
        for wire, first in self.level.items():
            events = [(at, to) for at, name, to in changes if name == wire]
            for at in range(changes[0][0] - 3000, changes[-1][0] + 3000, every_us):
                left = at + self.chance.randrange(every_us - 3 * GLITCH_US)
                events += [(left, None), (left + self.chance.randint(1, most_us), None)]
            turned, level = 0, first
            for at, to in sorted(events, key=lambda event: event[0]):
                turned, level = (1 - turned, level) if to is None else (turned, to)
                found.append((at, wire, level ^ turned))
        return found

    def typed(self, text: str) -> None:
        for character in text:
            self.now_us += 300
            self._put(self.now_us, TYPED, ord(character))
        self.now_us += 20_000

    def put(self, what: int, value: int | None = None) -> None:
        self._put(self.now_us, what, value)

    def wait(self, us: int) -> None:
        self.now_us += us
        self.put(LEVELS)

    def bytes(self) -> bytes:
        return b"".join(RECORD.pack(*record, 0) for record in self.records)


def lines(program: Path | tuple[Path, ...], wires: Wires) -> list[str]:
    """What the bridge says to all that."""
    command = program if isinstance(program, tuple) else (program,)
    done = subprocess.run(command, input=wires.bytes(), capture_output=True, check=True)
    text = done.stdout.decode("ascii")
    assert not text or text.endswith("\r\n")
    return text.split("\r\n")[:-1]
