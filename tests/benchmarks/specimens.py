"""Good frames as they lie on the wire, for each capture: any number, without an encoder.

A shape's captures hold some frames. Changing a bit here and there, and keeping what the
decoder still takes for one whole frame, leads from these to as many others as are wanted.
"""

import random
import sys
from dataclasses import dataclass
from itertools import cycle, islice
from pathlib import Path

from daq.gauges.frames import Decoder, Indication, decoder
from daq.gauges.frames.shared.checked import Check

sys.path.append(str(Path(__file__).parents[1] / "gauges" / "captures"))

from captured import Capture, load, names


@dataclass(frozen=True)
class Frame:
    """A frame with what closes it, and what it says."""

    wire: bytes
    said: Indication


class Specimen:
    """A capture's gauge."""

    def __init__(self, capture: Capture) -> None:
        """Find its good frames."""
        self.capture = capture
        self._table = capture.config.frame
        self.pauses = self._table.get("apart") == "pause"
        self.seen = self._cut_out()

    def decoder(self) -> Decoder:
        """Return a decoder that is past its first frame."""
        made = decoder(self._table, self.capture.path.name)
        self.settle(made)
        return made

    def settle(self, made: Decoder) -> None:
        """Let a decoder forget what it heard before."""
        made.gap()
        for _ in range(2):  # the first may only close what was open
            self.say(made, self.seen[0].wire)

    def say(self, made: Decoder, wire: bytes) -> list[Indication]:
        """Feed what lies between two pauses, if the gauge makes any."""
        found = made.feed(wire)
        if self.pauses:
            made.gap()
            found += made.feed(b"")
        return found

    def frames(self, count: int, seed: int = 0) -> list[Frame]:
        """Return that many good frames, no two neighbours alike."""
        rng = random.Random(seed)
        found = list(self.seen)
        made = self.decoder()
        while len(found) < count:
            model = rng.choice(found)
            raw = bytearray(model.said.raw)
            for _ in range(rng.randint(1, 3)):
                raw[rng.randrange(len(raw))] ^= 1 << rng.randrange(8)
            checked(getattr(made, "check", None), raw)
            wire = bytes(raw) + model.wire[len(raw) :]
            said = self.say(made, wire)
            if [each.raw for each in said] != [raw]:
                self.settle(made)
            elif said[0].text != found[-1].said.text:
                found.append(Frame(wire, said[0]))
        return list(islice(cycle(found), count))

    def _cut_out(self) -> list[Frame]:
        """Return the frames of the capture: what came from a frame's first byte to its last."""
        made, found = self.capture.decoder(), []
        for piece in self.capture.pieces:
            for end in range(1, len(piece) + 1):
                for said in made.feed(piece[end - 1 : end]):
                    found.append(Frame(piece[piece.rindex(said.raw, 0, end) : end], said))
            made.gap()
            found += [Frame(said.raw, said) for said in made.feed(b"")]
        return found


def checked(check: Check | None, raw: bytearray) -> None:
    """Put the right check value into a changed frame, where its layout has one."""
    if check is not None and check.at is not None:
        over = [*check.over, check.at][:2]
        written = check.written(bytes(raw[over[0] : over[1]]))
        begin = check.at % len(raw)
        raw[begin : begin + check.size] = written


def specimens(shape: str) -> list[Specimen]:
    """Return the gauges of a shape that there are captures of."""
    return [Specimen(load(name)) for name in names() if name.split("-")[0] == shape]
