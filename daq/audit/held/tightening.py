"""Bolts that are pulled up, and what tightening did."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from daq.audit.parts import AxisShift
from daq.words import Axis


@dataclass(frozen=True)
class Bolts:
    """Bolts watched one by one: so many steps were done, the latest on `bolt`.

    `first_face_mm`: what the gauge read before the first step, and `last_face_mm` after the
    latest. `over_mm`: how far the latest moved that number since before it was touched, if that
    is more than one may.
    """

    bolt: str = ""
    steps: int = 0
    first_face_mm: float | None = None
    last_face_mm: float | None = None
    over_mm: float | None = None

    def zeroed(self, shift_mm: float | None) -> "Bolts":
        """The same in the zero after so much; None: by how much, nobody knows."""
        first, last = (
            None if shift_mm is None or mm is None else mm + shift_mm
            for mm in (self.first_face_mm, self.last_face_mm)
        )
        return replace(self, first_face_mm=first, last_face_mm=last)


@dataclass(frozen=True)
class Tightening:
    """What tightening does to the differences across the sweep, mm.

    `before`: what one is compared with once its bolts are tight. `shifts`: what each tightening
    did. `reread_mm`: what the latest seemed to do, while its pair is read once more;
    `doubted_mm`: what one of each axis seemed to do that was not believed.
    """

    before: Mapping[Axis, float] = field(default_factory=dict)
    shifts: tuple[AxisShift, ...] = ()
    reread_mm: float | None = None
    doubted_mm: Mapping[Axis, float] = field(default_factory=dict)
