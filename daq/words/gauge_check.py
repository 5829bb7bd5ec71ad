"""What the page of a gauge's check shows: what may be checked, and where the check under way is."""

from dataclasses import dataclass
from typing import Literal

from daq.words.said import Said, Text


@dataclass(frozen=True, slots=True)
class BenchChoice:
    """An answer: what is typed for it, and what it says."""

    typed: str
    say: Said


@dataclass(frozen=True, slots=True)
class BenchLine:
    """A length with what was read of it and its error, each as it is shown; up or down."""

    length: str
    way: str
    read: str
    error: str


@dataclass(frozen=True, slots=True)
class CheckableGauge:
    """A gauge of the shop; `why`: why it cannot be checked now, if that is so."""

    key: str
    name: str
    number: str
    why: Text = None


@dataclass(frozen=True, slots=True)
class CheckUnderWay:
    """A check: whose, what was told last, and what is asked, by its number; `face`: what comes now.

    It `asks`, `reads` the gauge, or is `over`: then `row` is where it is recorded, 0 for nowhere.
    """

    gauge: str
    name: str
    person: str
    state: Literal["asks", "reads", "over"]
    told: tuple[Said, ...]
    number: int
    ask: Text
    choices: tuple[BenchChoice, ...]
    face: str
    unit: str
    lines: tuple[BenchLine, ...]
    row: int


@dataclass(frozen=True, slots=True)
class GaugeCheckView:
    """The gauges, the sets of blocks by key, and the one check under way or the last one."""

    gauges: tuple[CheckableGauge, ...]
    sets: tuple[str, ...]
    talk: CheckUnderWay | None
