"""What is kept of the learning of a gauge: the bytes, and the numbers that were read of them.

Decoded again later, by the file as it is then and the decoders as they are, they must give the
same numbers: a test that each gauge brings with it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from daq.gauges.capture import Capture, parse
from daq.gauges.config import GaugeConfig, read
from daq.gauges.learn.judge import decoded
from daq.gauges.learn.live.ways import LearnedGauge
from daq.words import Said, said

_SECONDS: Final = 30.0


def capture(learned: LearnedGauge, config: GaugeConfig) -> str:
    """Return the text of the file that keeps the last half minute at the right settings."""
    heard = learned.heard.last(_SECONDS)
    header = {
        "gauge": config.name,
        "line": str(config.line.baud),
        "faces": ", ".join(map(str, learned.faces)),
    }
    return str(Capture(header, heard.pieces, numbers(config.frame, heard.pieces)))


def numbers(frame: Mapping[str, Any], pieces: tuple[bytes, ...]) -> tuple[str, ...]:
    """Return the numbers that a frame table reads of bytes, each with its unit."""
    return tuple(f"{each.text} {each.unit}" for each in decoded(dict(frame), pieces) or ())


@dataclass(frozen=True, slots=True)
class DecodedAgain:
    """What came of decoding again: whether the numbers are the same, and what there is to say."""

    same: bool
    say: Said


def again(kept: Path) -> DecodedAgain:
    """Decode what a gauge was learned from by its file beside it.

    Raises:
        SettingsError: the file cannot be read, or has a mistake.
        OSError, ValueError: what was kept cannot be read.
    """
    config = read(kept.with_suffix(".toml"))
    was = parse(kept.read_text(encoding="utf-8"), str(kept))
    now = numbers(config.frame, was.pieces)
    name = config.name
    for nth, (before, found) in enumerate(zip(was.numbers, now, strict=False), 1):
        if before != found:
            return DecodedAgain(
                False, said("capture-differs", gauge=name, nth=nth, was=before, now=found)
            )
    if len(now) != len(was.numbers):
        return DecodedAgain(
            False, said("capture-counts", gauge=name, was=len(was.numbers), now=len(now))
        )
    return DecodedAgain(True, said("capture-same", gauge=name, n=len(now)))
