"""What every decision is handed, what it may ask for, and how it refuses."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeVar

import numpy as np

from daq.audit.setup import AuditSetup
from daq.audit.state import Job
from daq.settings import SettingsError, build, quoted
from daq.units import SLACK_MM
from daq.words import Command, Passed, Position, Reading, Said, Sample, said
from daq.words.said import Value

T = TypeVar("T")


class Refused(Exception):
    """The wish makes no sense now; `said` is why, for the person.

    As a text it is the code and its numbers: for a log, never for a screen.
    """

    def __init__(self, code: str, /, **of: Value) -> None:
        """Refuse with this code; it is written out here, so that a test can find each."""
        super().__init__(code)
        self.said = Said(code, of)

    def __str__(self) -> str:
        """The code and its numbers."""
        return str(self.said)


@dataclass(frozen=True)
class Need:
    """What a command needs before it can be decided.

    "nothing"; "settled": a window after the take whose spread is within `spread_mm`;
    "history": every sample since the last step, settled or not. With `whole`, a
    settled reading's evidence reaches back to the last step as well. `passed`: what the arm
    passed of the collar's switches since then, too.
    """

    kind: Literal["nothing", "settled", "history"] = "nothing"
    spread_mm: float = 0.0
    whole: bool = False
    passed: bool = False


@dataclass(frozen=True)
class Input:
    """Everything a decision may look at besides the state.

    `arrived_ns`: when the command came, monotonic. `samples`: the evidence; `first_n`,
    `last_n`: the settled window within its last run; `second_n`: that of the second gauge,
    whose samples stand before the first's. `evidence`: the evidence's digest.
    `today`: the date, UTC. `setup`: for the opening of an audit only. `signed`: for an
    addendum or an amended report only, the row in which the audit it names was signed on this
    machine, 0 for none; `reports`: how many reports it had after the first. `passed`: the
    switches of the collar as they closed and opened since the last step.
    """

    command: Command
    arrived_ns: int = 0
    samples: Sequence[Sample] = ()
    first_n: int = 0
    last_n: int = 0
    evidence: str = ""
    today: str = ""
    setup: AuditSetup | None = None
    second_n: tuple[int, int] | None = None
    signed: int = 0
    reports: int = 0
    passed: tuple[Passed, ...] = ()

    def payload(self, cls: type[T]) -> T:
        """The command's payload as the dataclass its handler takes.

        Raises:
            Refused: it does not fit; names the field, what was found and what is allowed.
        """
        try:
            return build(cls, self.command.payload, said("in-command", kind=self.command.kind))
        except SettingsError as error:
            raise Refused("payload", problems=error.said) from error

    @property
    def position(self) -> Position | None:
        """Where a take says that the gauge of a sweep is.

        Raises:
            Refused: it names a station of another check.
        """
        take = self.payload(Take)
        if take.station:
            raise Refused("only-at-stations", found=quoted(take.station))
        return take.position

    @property
    def window(self) -> list[Sample]:
        """The samples of the settled window."""
        if not self.samples:
            return []
        run = self.samples[-1].run
        return [s for s in self.samples if s.run == run and self.first_n <= s.n <= self.last_n]

    def check_settled(self, spread_mm: float) -> None:
        """Refuse a window that began before the take or is not still.

        Raises:
            Refused: a reading made of it would not be one.
        """
        window = self.window
        values = [s.value_mm for s in window]
        if not window or window[0].mono_ns <= self.arrived_ns:
            raise Refused("no-samples-since")
        if max(values) - min(values) > spread_mm + SLACK_MM:
            raise Refused("not-settled")

    def second(self, position: Position | None) -> Reading | None:
        """The second gauge's window as a reading on its own face; None without one."""
        if self.second_n is None:
            return None
        first, last = self.second_n
        gauge = self.samples[-1].gauge
        others = [s for s in self.samples if s.gauge != gauge]
        return self._reading([s for s in others if first <= s.n <= last], position)

    def reading(self, position: Position | None) -> Reading:
        """The settled window as a reading on the gauge's own face."""
        return self._reading(self.window, position)

    def _reading(self, window: list[Sample], position: Position | None) -> Reading:
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
    """The payload of a take: the place of a sweep, or a station of another check by its key."""

    position: Position | None = None
    station: str = ""


def head_only(job: Job, **given: object) -> None:
    """Refuse, by its key, what makes sense for squaring alone when another check is open."""
    found = [key for key, value in given.items() if value]
    if job.check is not None and found:
        raise Refused("only-squaring", keys=", ".join(found), check=job.check.name)


@dataclass(frozen=True)
class Why:
    """The payload of a command that carries a reason."""

    why: str
