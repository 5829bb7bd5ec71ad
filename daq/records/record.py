"""One audit as it is on record: every row of it, and what they came to."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from daq.audit.apply import apply
from daq.audit.closing_events import Addendum
from daq.audit.codec import UnknownEvent, decode
from daq.audit.events import (
    Abandoned,
    AuditOpened,
    CheckDone,
    Data,
    ReadingTaken,
    Signed,
    SweepDone,
    Voided,
)
from daq.audit.state import Job, MachineState, Shop
from daq.words import Event, Reading, said


@dataclass(frozen=True)
class StoredRow:
    """A row as a ledger keeps it: its event, its hash, and that of the row before it, hex.

    `sound`: the hash was made again from the stored text and came out the same, and so did that
    of all evidence the row names. `let_go`: the row by which samples behind this one were let go
    on purpose, None where all are there.
    """

    event: Event
    hash: str
    before: str
    sound: bool = True
    let_go: int | None = None


@dataclass(frozen=True)
class AuditRow:
    """A row of an audit. `voided_by`: the row that took it back, None for one that stands."""

    kept: StoredRow
    data: Data
    voided_by: int | None = None

    @property
    def seq(self) -> int:
        """Its number in the ledger."""
        return self.kept.event.seq

    @property
    def event(self) -> Event:
        """The event as it is stored."""
        return self.kept.event


@dataclass(frozen=True)
class ReadingRow:
    """A reading, in the row that took it.

    `sweep`: the number of the sweep it went into, None for one that went into none. `second`: it
    is of the other gauge on a bar.
    """

    row: AuditRow
    reading: Reading
    sweep: int | None = None
    second: bool = False


@dataclass(frozen=True)
class AuditRecord:
    """One audit: the `rows` it has in the ledger, in order, those added after its signature too.

    `job` is as it stood before it was closed, or stands if it is open; what is worked out from
    an audit's state for a screen is worked out from it the same way. `states`: the machine after
    each row, folded from this audit's rows alone.
    """

    machine: str
    audit: str
    rows: tuple[AuditRow, ...]
    job: Job
    states: tuple[MachineState, ...] = ()

    def found_by(self, number: int) -> Job:
        """The audit as its row of that number, counted from 0, came upon it.

        The row that opened it came upon none: then as it was opened. After it was closed: as it
        stood before.
        """
        before = self.states[max(number - 1, 0)].job
        return self.job if before is None else before

    @cached_property
    def opened(self) -> AuditOpened:
        """How it began."""
        found = self.rows[0].data
        assert isinstance(found, AuditOpened)
        return found

    @cached_property
    def closed(self) -> AuditRow | None:
        """The row that closed it, signed or given up; None while it is open."""
        return next((row for row in self.rows if isinstance(row.data, Signed | Abandoned)), None)

    @property
    def signed(self) -> Signed | None:
        """Its signature, None of one that has none."""
        found = self.closed.data if self.closed is not None else None
        return found if isinstance(found, Signed) else None

    @property
    def later(self) -> tuple[AuditRow, ...]:
        """What was added to it after its signature."""
        return tuple(row for row in self.rows if isinstance(row.data, Addendum))

    @property
    def last(self) -> StoredRow:
        """Its last row: number and hash are what a report of it carries."""
        return self.rows[-1].kept

    @property
    def sound(self) -> bool:
        """Whether every row of it, and its evidence, is as it was written."""
        return all(row.kept.sound for row in self.rows)

    @property
    def sweeps(self) -> tuple[tuple[AuditRow, SweepDone], ...]:
        """Every full sweep, those taken back among them, in order."""
        return tuple((row, row.data) for row in self.rows if isinstance(row.data, SweepDone))

    @property
    def readings(self) -> tuple[ReadingRow, ...]:
        """Every reading, those taken back among them, in order; a bar's second after its first."""
        return tuple(_readings(self.rows))


def record(rows: Sequence[StoredRow]) -> AuditRecord:
    """Return an audit from its rows, the first of which opened it.

    Raises:
        UnknownEvent: one of them is not known to this release.
    """
    decoded = [(kept, decode(kept.event)) for kept in rows]
    voided = {
        seq: kept.event.seq for kept, data in decoded if isinstance(data, Voided)
        for seq in data.voids
    }  # fmt: skip
    first = rows[0].event
    states = tuple(_states(rows))
    return AuditRecord(
        machine=first.machine,
        audit=first.audit,
        rows=tuple(AuditRow(kept, data, voided.get(kept.event.seq)) for kept, data in decoded),
        job=_last_open(first, states),
        states=states,
    )


def _states(rows: Sequence[StoredRow]) -> Iterator[MachineState]:
    """The machine after each of an audit's own rows."""
    shop = Shop()
    for kept in rows:
        shop = apply(shop, kept.event)
        yield shop.machine(kept.event.machine)


def _last_open(first: Event, states: Sequence[MachineState]) -> Job:
    """The audit's state before it was closed."""
    found = [state.job for state in states if state.job is not None]
    if not found:
        row = str(first.seq)
        audit, machine = first.audit, first.machine
        raise UnknownEvent(
            said("row-not-open", row=row, type=first.type, audit=audit, machine=machine)
        )
    return found[-1]


def _readings(rows: Sequence[AuditRow]) -> Iterator[ReadingRow]:
    numbers = _numbers(rows)
    for row in rows:
        for name in ("reading", "second"):
            reading = getattr(row.data, name, None)
            if isinstance(reading, Reading):
                yield ReadingRow(row, reading, numbers.get(row.seq), second=name == "second")


def _numbers(rows: Sequence[AuditRow]) -> Mapping[int, int]:
    """The sweep that each reading of one went into, by its row."""
    found: dict[int, int] = {}
    waiting: list[int] = []
    for row in rows:
        if isinstance(row.data, ReadingTaken):
            waiting.append(row.seq)
        elif isinstance(row.data, SweepDone):
            found |= dict.fromkeys(waiting, row.data.number)
        if isinstance(row.data, SweepDone | CheckDone):
            waiting = []
    return found
