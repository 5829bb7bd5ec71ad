"""From readings at stations to the unknowns of a check, by least squares.

Each lap that was closed is freed of the drift that its return shows, along the times of its
readings; what is solved then is one level a station, each counting alike. (Were a station read
twice to count for more, the form that evenly spread stations keep out of a result would come in.)
All of it is linear: whatever comes out follows each reading by a known weight.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from daq.checks.station import Table, Taken

Matrix = npt.NDArray[np.float64]
Known = tuple[Matrix, Matrix]
"""Several values, mm, and how they follow the readings: a row a value, a column a reading."""

_DEPENDENT = 1e-9
"""Directions of the rows this much weaker than their strongest are rounding, not readings."""


@dataclass(frozen=True, slots=True, eq=False)
class Solved:
    """What came out. Values mm; `..._by`: how each follows each reading, a row a value.

    `unknowns` in the order of `names`; `levels` and `rests` by station, as in the table: the
    reading without its drift, and what the rows leave of it. `spare`: how many equations
    were more than needed. `returned_mm`: each lap's return error. `at`: the station of each
    reading, by its number in the table.
    """

    table: Table
    names: tuple[str, ...]
    unknowns: Matrix
    unknowns_by: Matrix
    levels: Matrix
    levels_by: Matrix
    rests: Matrix
    rests_by: Matrix
    spare: int
    returned_mm: tuple[float, ...]
    at: tuple[int, ...]

    def of(self, *names: str) -> Known:
        """These unknowns."""
        rows = [self.names.index(name) for name in names]
        return self.unknowns[rows], self.unknowns_by[rows]

    def levels_of(self, lap: int) -> Known:
        """The levels of a lap's stations, in their order."""
        rows = [i for i, station in enumerate(self.table.stations) if station.lap == lap]
        return self.levels[rows], self.levels_by[rows]

    @property
    def laps(self) -> tuple[int, ...]:
        """The lap of each reading."""
        return tuple(self.table.stations[station].lap for station in self.at)

    def covariance(self, sd_mm: float) -> Matrix:
        """The covariance of the unknowns, mm², when readings scatter by `sd_mm` each."""
        return self.unknowns_by @ self.unknowns_by.T * sd_mm**2


def solve(table: Table, taken: Sequence[Taken]) -> Solved:
    """Solve a check for its unknowns.

    Raises:
        ValueError: not the readings of this table in its order, times that do not go on, or
            stations that lie so that the unknowns cannot be told apart.
    """
    wanted = [station.key for station in table.sequence]
    found = [each.station for each in taken]
    if found != wanted:
        raise ValueError(f"found readings at {found}; allowed: {wanted}")
    numbers = {station.key: i for i, station in enumerate(table.stations)}
    at = tuple(numbers[key] for key in found)
    read = np.array([each.pushed_mm for each in taken])
    levels_by = _levels(len(table.stations), at, [each.when for each in taken])
    names = tuple(dict.fromkeys(name for station in table.stations for name in station.row))
    rows = np.array([[each.row.get(name, 0.0) for name in names] for each in table.stations])
    count = len(names)
    if np.linalg.matrix_rank(rows, rtol=_DEPENDENT) < count:
        raise ValueError("the stations lie so that what is asked for cannot be told apart")
    unknowns_by = np.linalg.pinv(rows) @ levels_by
    rests_by = levels_by - rows @ unknowns_by
    return Solved(
        table=table,
        names=names,
        unknowns=unknowns_by @ read,
        unknowns_by=unknowns_by,
        levels=levels_by @ read,
        levels_by=levels_by,
        rests=rests_by @ read,
        rests_by=rests_by,
        spare=len(rows) - count,
        returned_mm=tuple(float(read[last] - read[first]) for first, last in _closed(at)),
        at=at,
    )


def _closed(at: Sequence[int]) -> list[tuple[int, int]]:
    """The first and the last reading of each lap that was closed."""
    return [(at.index(i), n) for n, i in enumerate(at) if at.index(i) < n]


def _levels(stations: int, at: Sequence[int], when: Sequence[float]) -> Matrix:
    """How the level of each station follows each reading; without drift, both visits are one."""
    without = np.eye(len(at))
    for first, last in _closed(at):
        since = np.array(when[first : last + 1]) - when[first]
        if not np.all(np.diff(since) > 0.0):
            raise ValueError(f"when: found {when[first : last + 1]}; allowed: each later")
        part = since / since[-1]
        without[first : last + 1, first] += part
        without[first : last + 1, last] -= part
    return without[[at.index(station) for station in range(stations)]]
