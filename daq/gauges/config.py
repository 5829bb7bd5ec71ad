"""What a gauge's file says: what the gauge is, its line, its talk and its frames."""

import datetime
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Any, Final, Literal
from urllib.parse import quote

from daq import settings
from daq.gauges import frames
from daq.gauges.talk import Talk
from daq.settings import Angle, Length, Range
from daq.words import Said

_REPLAY: Final = re.compile(r"replay://(?=[^/])")
_SCHEME: Final = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*://")


@dataclass(frozen=True, slots=True)
class Line:
    """The serial line: a port and how it is driven.  `dtr` and `rts` power many interfaces."""

    port: str
    baud: Annotated[int, Range(50, 4_000_000)] = 9600
    bits: Literal[5, 6, 7, 8] = 8
    parity: Literal["none", "even", "odd", "mark", "space"] = "none"
    stop: Literal[1, 2] = 1
    flow: Literal["none", "hardware", "software"] = "none"
    dtr: bool = True
    rts: bool = True

    def url(self, folder: Path) -> str:
        """Return the port as pyserial opens it; a relative path is one inside `folder`."""
        if _REPLAY.match(self.port):
            return _REPLAY.sub(f"replay://{quote(str(folder))}/", self.port)
        return self.port if _SCHEME.match(self.port) else str(folder / self.port)


@dataclass(frozen=True, slots=True)
class GaugeConfig:
    """One gauge's file.  Lengths in mm, `stylus_angle` in rad, `frame` as it stands there.

    `max_error` is the maximum permissible error over the whole travel. The stylus
    angle is that between a lever gauge's stylus and the surface.
    """

    name: str
    serial_number: str
    kind: Literal["plunger", "lever"]
    counts_up: bool
    resolution: Annotated[Length, Range(above=0.0, hi=1.0)]
    travel: Annotated[Length, Range(above=0.0, hi=200.0)]
    max_error: Annotated[Length, Range(above=0.0, hi=1.0)]
    calibration_due: datetime.date
    line: Line
    talk: Talk
    frame: Mapping[str, Any]
    certificate: str = ""
    stylus_angle: Annotated[Angle, Range(lo=0.0, hi=math.radians(60.0))] = 0.0
    laboratory: str = ""
    calibrated_on: datetime.date | None = None

    def __post_init__(self) -> None:
        """Refuse what contradicts itself.

        Raises:
            ValueError: a plunger with a stylus angle, steps wider than the travel, or a
                calibration that was due before it was made.
        """
        if self.kind == "plunger" and self.stylus_angle:
            raise ValueError("found a stylus_angle on a plunger gauge; allowed: on a lever gauge")
        if self.resolution > self.travel:
            raise ValueError(
                f"found resolution {self.resolution:g} mm; "
                f"allowed: at most the travel, {self.travel:g} mm"
            )
        if self.calibrated_on is not None and self.calibrated_on > self.calibration_due:
            raise ValueError(
                f"found calibrated_on {self.calibrated_on} after calibration_due "
                f"{self.calibration_due}; allowed: the day of the calibration, before it is due"
            )

    @property
    def cosine(self) -> float:
        """How much of what the gauge shows is true: the cosine of the stylus angle."""
        return math.cos(self.stylus_angle)


def from_table(table: Mapping[str, Any], where: str) -> GaugeConfig:
    """Return a gauge's config from its file's table; `where` names the file in messages.

    Raises:
        SettingsError: with every problem of the table, those of its frame included.
    """
    problems: list[Said | str] = []
    config = None
    try:
        config = settings.build(GaugeConfig, table, where)
    except settings.SettingsError as error:
        problems += error.problems
    frame = table.get("frame")
    if isinstance(frame, Mapping):
        try:
            frames.decoder(frame, where)
        except settings.SettingsError as error:
            problems += error.problems
    if config is None or problems:
        raise settings.SettingsError(problems)
    return config


def read(path: Path) -> GaugeConfig:
    """Return the config in a gauge's TOML file.

    Raises:
        SettingsError: the file cannot be read, or with every problem it has.
    """
    return from_table(settings.read_toml(path), str(path))
