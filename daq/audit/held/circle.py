"""The numbers that the screens show of the head, and how old each is."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from daq.audit.parts import AxisResult, Whole
from daq.words import Axis, Position

Age = Literal[
    "as-found", "before-move", "before-tightening", "pair-check", "estimate", "old-zero", "was"
]
"""The word for a number that no full sweep of the head as it stands has shown."""


@dataclass(frozen=True)
class Circle:
    """The positions: the latest value `known` at each, pushed-in mm in today's zero.

    `shown`: what the gauge's face showed there; `ages`: how old that is where it is not of now.
    """

    known: Mapping[Position, float] = field(default_factory=dict)
    shown: Mapping[Position, float] = field(default_factory=dict)
    ages: Mapping[Position, Age] = field(default_factory=dict)


@dataclass(frozen=True)
class Axes:
    """The latest result of each axis, and of both as one; `ages`: of those that are not of now.

    `stirred`: the axes that were loosened, turned or tightened since they were last read.
    """

    results: Mapping[Axis, AxisResult] = field(default_factory=dict)
    whole: Whole | None = None
    ages: Mapping[Axis, Age] = field(default_factory=dict)
    stirred: frozenset[Axis] = frozenset()
