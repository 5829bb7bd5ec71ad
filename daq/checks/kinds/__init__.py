"""The kinds of check that are a table: one module a kind, found by scanning this folder.

A kind's module is named as the machine's file names it, in the table [checks.NAME], and
exports one constant, KIND, that satisfies `Kind`. It owns its options and imports no other
kind. Everything is pure: options in, a table out; readings in, quantities out.
"""

import importlib
import pkgutil
from typing import Any, Protocol, TypeVar, cast, runtime_checkable

from daq.checks.last import LastSweep, TwoSpots
from daq.checks.linear import Solved
from daq.checks.quantity import Influence, Measurand
from daq.checks.station import Table
from daq.words import Said, Unit

Options = TypeVar("Options")
OfFile = TypeVar("OfFile", contravariant=True)


class Kind(Protocol[Options]):
    """What a kind's module exports as KIND.

    Whoever carries out a check needs nothing else: it builds the options from the machine's
    file, has the table's sequence read, station by station, and hands the readings to
    `outcome.reduce`.
    """

    @property
    def options(self) -> type[Options]:
        """The dataclass of the kind's keys in [checks.NAME]: where it is read, its tolerances."""

    @property
    def name(self) -> Said:
        """What the check is called on a screen."""

    def table(self, options: Options, unit: Unit) -> Table:
        """Return what is to be read, in which order, with what hands do and look out for."""

    def doubts(self, options: Options, solved: Solved) -> tuple[Influence, ...]:
        """Return what the readings may be off by besides what every gauge's may."""

    def quantities(self, options: Options, solved: Solved) -> tuple[Measurand, ...]:
        """Return what came out, each with its limit where the options give one."""


@runtime_checkable
class OfHead(Protocol[OfFile]):
    """What such a KIND has besides, where it compares two spots with the last signed sweep.

    Its `table`, `doubts` and `quantities` then take what `filled` gives, which the audit keeps.
    """

    def filled(self, options: OfFile, last: LastSweep) -> TwoSpots:
        """Return which spots are compared with what."""


def names() -> tuple[str, ...]:
    """Return the kinds there are, sorted."""
    return tuple(sorted(each.name for each in pkgutil.iter_modules(__path__)))


def kind(name: str) -> Kind[Any]:
    """Return the kind of that name.

    Raises:
        ValueError: there is none; says which there are.
    """
    if name not in names():
        raise ValueError(f"checks: found {name!r}; allowed: {', '.join(names())}")
    return cast(Kind[Any], importlib.import_module(f"{__name__}.{name}").KIND)
