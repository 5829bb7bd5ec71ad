"""What happened on a practice mill, and how it truly stood then: what a score goes by."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from daq.words import Axis


@dataclass(frozen=True, slots=True)
class Stand:
    """How the mill truly stands: leans mm/mm, positive with the right or the front low.

    `place` is the position of the gauge, "" while it swings or stands elsewhere than on the ring;
    `down`: its contact is on the surface. `loose`: axes whose bolts were cracked, `part`: those
    whose bolts are not pulled up as far as they go, the loose ones too. `chip`: one lies under the
    ring.
    """

    leans: Mapping[Axis, float]
    place: str = "front"
    down: bool = True
    loose: tuple[Axis, ...] = ()
    part: tuple[Axis, ...] = ()
    chip: bool = False


@dataclass(frozen=True, slots=True)
class Deed:
    """One thing that happened: a `row` of the record, a press `refused`, or an `act` of the hands.

    `name` is the row's type, the press's kind or the act's verb, `of` the row's data or the act's
    arguments. `row` is the row's number, or the latest one by then; `cause` the kind of the press
    that led to it; `at_s` when, on the mill's clock; `stand` how the mill stood, after an act as
    before the next one.
    """

    kind: Literal["row", "refused", "act"]
    name: str
    row: int
    stand: Stand
    of: Mapping[str, Any] = field(default_factory=dict)
    at_s: float = 0.0
    cause: str = ""
