"""What every decision is handed, what it may ask for, and how it refuses."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeVar

import numpy as np

from daq.audit.parts import AxisResult, Point
from daq.audit.setup import AuditSetup
from daq.audit.state import Job
from daq.metrology.verdict import Tolerance, simple
from daq.settings import SettingsError, build
from daq.units import show
from daq.words import Axis, Command, Position, Reading, Sample

T = TypeVar("T")


class Refused(Exception):
    """The wish makes no sense now; the message says why, to the person."""


@dataclass(frozen=True)
class Want:
    """What a command needs before it can be decided.

    "nothing"; "settled": a window after the take whose spread is within `spread_mm`;
    "history": every sample since the last step, settled or not. With `whole`, a
    settled reading's evidence reaches back to the last step as well.
    """

    kind: Literal["nothing", "settled", "history"] = "nothing"
    spread_mm: float = 0.0
    whole: bool = False


@dataclass(frozen=True)
class Input:
    """Everything a decision may look at besides the state.

    `samples`: the evidence; `first_n`, `last_n`: the settled window within its last
    run. `evidence`: the evidence's digest. `setup`: for the opening of an audit only.
    """

    command: Command
    samples: Sequence[Sample] = ()
    first_n: int = 0
    last_n: int = 0
    evidence: str = ""
    setup: AuditSetup | None = None
    engine: str = ""

    def payload(self, cls: type[T]) -> T:
        """The command's payload as the dataclass its handler takes.

        Raises:
            Refused: it does not fit; names the field, what was found and what is allowed.
        """
        try:
            return build(cls, self.command.payload, f"command {self.command.kind}")
        except SettingsError as error:
            raise Refused(str(error)) from error

    @property
    def window(self) -> list[Sample]:
        """The samples of the settled window."""
        if not self.samples:
            return []
        run = self.samples[-1].run
        return [s for s in self.samples if s.run == run and self.first_n <= s.n <= self.last_n]

    def reading(self, position: Position | None) -> Reading:
        """The settled window as a reading on the gauge's own face."""
        window = self.window
        values = np.array([s.value_mm for s in window])
        middle = (window[0].mono_ns + window[-1].mono_ns) // 2
        return Reading(
            position=position,
            gauge=window[0].gauge,
            run=window[0].run,
            first_n=window[0].n,
            last_n=window[-1].n,
            mean_mm=float(values.mean()),
            sd_mm=float(values.std(ddof=1)) if len(window) > 1 else 0.0,
            count=len(window),
            mid_ns=middle,
            evidence=self.evidence,
        )


@dataclass(frozen=True)
class Nothing:
    """The payload of a command that carries none."""


@dataclass(frozen=True)
class Take:
    """The payload of a take."""

    position: Position | None = None


def face_text(job: Job, face_mm: float, *, plus: bool = False) -> str:
    """A face value as the gauge shows it: its unit, its decimals."""
    unit = job.unit or job.setup.machine.unit
    return show(face_mm, unit, decimals(job), plus=plus)


def decimals(job: Job) -> int:
    """How many decimals the gauge's resolution is worth in the unit it shows."""
    step = job.setup.gauge.resolution / (25.4 if job.unit == "in" else 1.0)
    return int(np.clip(np.ceil(-np.log10(step) - 1e-9), 0, 6))


def result(job: Job, axis: Axis, d_mm: float) -> AxisResult:
    """One axis judged: its difference on this sweep against the wanted lean and the tolerance."""
    spec = job.setup.machine.axis(axis)
    diameter = 2 * job.setup.machine.sweep_radius
    error = d_mm - spec.wanted_lean * diameter
    limit = Tolerance(spec.limit, spec.over).at(diameter)
    return AxisResult(d_mm, error, limit, simple(error, limit).word)


def points(known: dict[Position, float]) -> tuple[Point, ...]:
    """Values by position, as an event carries them."""
    return tuple(Point(position, value) for position, value in known.items())


def differences(known: dict[Position, float]) -> dict[Axis, float]:
    """right minus left, front minus back."""
    return {"side": known["right"] - known["left"], "nod": known["front"] - known["back"]}
