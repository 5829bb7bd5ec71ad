"""A check as a table: where the gauge is read, what each reading follows, what to look out for."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal

from daq.words import Said, Unit


@dataclass(frozen=True, slots=True)
class Station:
    """One place at which the gauge is read, once each time it is come to.

    `key` names it in commands and events; `name` on a screen; `hands`: what hands do to come
    to it. `row`: what each unknown of the check, by its name, adds to the reading here,
    `pushed_in` mm for each mm of it: the reading is their sum, but for what is not known
    exactly. `lap`: stations of one number are read in one go, the gauge's zero untouched.
    """

    key: str
    name: Said
    hands: Said
    row: Mapping[str, float]
    lap: int = 0


@dataclass(frozen=True, slots=True)
class Table:
    """All that is to be read in one check, in the unit of the machine it is read on.

    `stations` in the order in which they are read, lap by lap. `returns`: each lap's first
    station is read once more at its end, which shows what drifted. `tightest_mm`: the smallest
    limit that is judged, or None where nothing is. `leaves`: what the rows leave over of good
    readings: "nothing", so that it is a finding, or the "form" that was asked for.
    `cautions`: what may hurt here, besides local rules and the machine's own manual. `ends`: the
    two stations between which what is read can be tapped level by hand, and which end each is.

    Raises:
        ValueError: no station, or one twice.
    """

    stations: tuple[Station, ...]
    unit: Unit
    tightest_mm: float | None
    cautions: tuple[Said, ...]
    leaves: Literal["nothing", "form"] = "nothing"
    returns: bool = True
    ends: Mapping[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse a table that readings cannot be entered into."""
        keys = [station.key for station in self.stations]
        twice = sorted({key for key in keys if keys.count(key) > 1})
        if twice or not keys:
            raise ValueError(f"stations: found {twice or 'none'}; allowed: one or more, each once")

    @property
    def laps(self) -> tuple[tuple[Station, ...], ...]:
        """The stations of each lap, without its return."""
        numbers = sorted({station.lap for station in self.stations})
        return tuple(tuple(s for s in self.stations if s.lap == number) for number in numbers)

    @property
    def sequence(self) -> tuple[Station, ...]:
        """Every reading in its order: one for each time a station stands here."""
        return tuple(self._read())

    def _read(self) -> Iterator[Station]:
        for lap in self.laps:
            yield from lap
            if self.returns:
                yield lap[0]


@dataclass(frozen=True, slots=True)
class Taken:
    """One reading: the station's key, `pushed_in` mm, and when: its time, or its number."""

    station: str
    pushed_mm: float
    when: float
