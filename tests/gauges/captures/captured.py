"""A capture as the tests use it: NAME.cap, what came over the wire, and its two companions.

NAME.toml is the gauge's file. NAME.golden is what the bytes say: an indication a line as
JSON, at last how many bad frames were counted. The capture's header gives the shape, the
cable, the line's settings, notes, where it is from, and the residual rates: how many
faults of each kind on the wire end in a wrong value; 0 where none did of 80,000 or more.
"""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from daq.gauges.capture import parse
from daq.gauges.config import GaugeConfig, SerialLine, read
from daq.gauges.frames import Decoder, Indication, decoder

FOLDER = Path(__file__).parent
HEADER = {"shape", "cable", "settings", "notes", "origin", "residual"}


@dataclass(frozen=True)
class Capture:
    """One capture; `pieces` are the bytes between the pauses."""

    path: Path
    header: Mapping[str, str]
    pieces: tuple[bytes, ...]

    @property
    def config(self) -> GaugeConfig:
        """The gauge's file."""
        return read(self.path.with_suffix(".toml"))

    @property
    def residual(self) -> dict[str, float]:
        """The published rates by kind of fault."""
        parts = (part.split() for part in self.header["residual"].split(","))
        return {kind: float(rate) for kind, rate in parts}

    def golden(self) -> tuple[list[dict[str, Any]], int]:
        """Return what the bytes say and how many bad frames are among them."""
        text = self.path.with_suffix(".golden").read_text(encoding="utf-8")
        *said, last = (json.loads(line) for line in text.splitlines())
        return said, last["bad"]

    def decoder(self) -> Decoder:
        """Return a new decoder for the gauge's frames."""
        return decoder(self.config.frame, self.path.name)


def names(folder: Path = FOLDER) -> list[str]:
    """Return the captures in a folder: whatever has any of the three files."""
    return sorted(
        {path.stem for path in folder.iterdir() if path.suffix in (".cap", ".golden", ".toml")}
    )


def load(name: str, folder: Path = FOLDER) -> Capture:
    """Return a capture."""
    path = folder / f"{name}.cap"
    found = parse(path.read_text(encoding="utf-8"), path.name)
    return Capture(path, found.header, found.pieces)


def settings(line: SerialLine) -> str:
    """Return a line's settings as a header gives them."""
    parity = "no" if line.parity == "none" else line.parity
    bits = "bit" if line.stop == 1 else "bits"
    return f"{line.baud} baud, {line.bits} data bits, {parity} parity, {line.stop} stop {bits}"


def replay(made: Decoder, pieces: Sequence[bytes], block: int) -> Iterator[Indication]:
    """Feed the pieces to a decoder in blocks of that many bytes, as a reader would."""
    for number, piece in enumerate(pieces):
        if number:
            made.gap()
            yield from made.feed(b"")
        for first in range(0, len(piece), block):
            yield from made.feed(piece[first : first + block])
