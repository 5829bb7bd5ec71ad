"""What a gauge's file says: what the gauge is, its line, its talk and its frames."""

import datetime
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
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
class SerialLine:
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
class Certificate:
    """What a gauge's calibration certificate says.  Lengths in mm.

    `uncertainty` is the expanded one of its error at a point, with its factor `k`; None: not
    stated. `date`: the day of it, `calibrated_on` where it is left out. `condition`: how the
    gauge was calibrated, in words. `drift`: how far its error may have gone since, a year;
    None: a tenth of its permissible error.
    """

    number: str = ""
    uncertainty: Annotated[Length, Range(above=0.0, hi=1.0)] | None = None
    k: Annotated[float, Range(1.0, 5.0)] = 2.0
    date: datetime.date | None = None
    condition: str = ""
    drift: Annotated[Length, Range(0.0, 1.0)] | None = None

    @property
    def u_mm(self) -> float | None:
        """The standard uncertainty it states."""
        return None if self.uncertainty is None else self.uncertainty / self.k


@dataclass(frozen=True, slots=True)
class GaugeConfig:
    """One gauge's file.  Lengths in mm, `stylus_angle` in rad, `frame` as it stands there.

    `max_error` is the maximum permissible error over the whole travel. The stylus
    angle is that between a lever gauge's stylus and the surface, and `angle_doubt` how far
    it may be off (None: 5 degrees).
    """

    name: str
    serial_number: str
    kind: Literal["plunger", "lever"]
    counts_up: bool
    resolution: Annotated[Length, Range(above=0.0, hi=1.0)]
    travel: Annotated[Length, Range(above=0.0, hi=200.0)]
    max_error: Annotated[Length, Range(above=0.0, hi=1.0)]
    calibration_due: datetime.date
    line: SerialLine
    talk: Talk
    frame: Mapping[str, Any]
    certificate: Certificate = field(default_factory=Certificate)
    stylus_angle: Annotated[Angle, Range(lo=0.0, hi=math.radians(60.0))] = 0.0
    angle_doubt: Annotated[Angle, Range(lo=0.0, hi=math.radians(30.0))] | None = None
    laboratory: str = ""
    calibrated_on: datetime.date | None = None

    def __post_init__(self) -> None:
        """Refuse what contradicts itself.

        Raises:
            ValueError: a plunger with a stylus angle, steps wider than the travel, an
                uncertainty without its day, or a calibration that was due before it was made.
        """
        if self.kind == "plunger" and self.angle_doubt is not None:
            raise ValueError("found an angle_doubt on a plunger gauge; allowed: on a lever gauge")
        if self.kind == "plunger" and self.stylus_angle:
            raise ValueError("found a stylus_angle on a plunger gauge; allowed: on a lever gauge")
        if self.resolution > self.travel:
            raise ValueError(
                f"found resolution {self.resolution:g} mm; "
                f"allowed: at most the travel, {self.travel:g} mm"
            )
        if self.certificate.uncertainty is not None and self.certified_on is None:
            raise ValueError(
                "found certificate.uncertainty without its day; "
                "allowed: certificate.date or calibrated_on beside it"
            )
        if self.certified_on is not None and self.certified_on > self.calibration_due:
            key = "calibrated_on" if self.certificate.date is None else "certificate.date"
            raise ValueError(
                f"found {key} {self.certified_on} after calibration_due "
                f"{self.calibration_due}; allowed: the day of the calibration, before it is due"
            )

    @property
    def certified_on(self) -> datetime.date | None:
        """The day of its certificate."""
        return self.certificate.date or self.calibrated_on

    @property
    def drift_mm(self) -> float:
        """How far its error may go in a year; not stated, a tenth of what it may be wrong.

        Common practice, no source.
        """
        stated = self.certificate.drift
        return self.max_error / 10.0 if stated is None else stated

    @property
    def doubted_angle(self) -> float | None:
        """How far a lever's stylus angle may be off; 5 degrees by eye (common practice, no source).

        None for a plunger.
        """
        if self.kind == "plunger":
            return None
        return math.radians(5.0) if self.angle_doubt is None else self.angle_doubt

    @property
    def cosine(self) -> float:
        """How much of what the gauge shows is true: the cosine of the stylus angle."""
        return math.cos(self.stylus_angle)


def _certified(table: Mapping[str, Any]) -> Mapping[str, Any]:
    """The table with a certificate of which only the number is given as that number."""
    number = table.get("certificate")
    return {**table, "certificate": {"number": number}} if isinstance(number, str) else table


def from_table(table: Mapping[str, Any], where: str) -> GaugeConfig:
    """Return a gauge's config from its file's table; `where` names the file in messages.

    Raises:
        SettingsError: with every problem of the table, those of its frame included.
    """
    problems: list[Said | str] = []
    config = None
    try:
        config = settings.build(GaugeConfig, _certified(table), where)
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
