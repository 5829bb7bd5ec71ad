"""An audit played again: the screens as they stood after each of its rows, and the numbers between.

The same pure views that drew the screens then draw them again, from the audit's own rows. No
button is among what they show, and no number that is not on record.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any, Final

from daq.audit.aim import Aim, aim
from daq.audit.state import MachineState
from daq.ledger.errors import LedgerError
from daq.records.record import AuditRecord
from daq.records.whole.facts import local, utc, zone_of
from daq.screens.console import console
from daq.screens.told import told
from daq.screens.wall import wall
from daq.units import places, show
from daq.words import Live, Sample, Snapshot, Text, said

MOST_NUMBERS: Final = 40
"""So many of the samples between two moments are shown: a hand is followed, and no more."""
LONGEST_S: Final = 4
"""A pause lasts no longer when it is played."""

Samples = Callable[[str], tuple[Sample, ...]]
"""The samples of a piece of evidence, by its digest. Raises LedgerError."""


@dataclass(frozen=True, slots=True)
class Moment:
    """What one press brought, as a place to play from: screens never stood between its rows.

    `seq`: the last of them; `at_ms`: since the audit was opened; `when`: by the shop's clock if its
    zone is known, else UTC; `step`: where the audit stood then; `what` happened, a text a row.
    """

    n: int
    seq: int
    at_ms: int
    when: str
    step: str
    what: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class MomentsView:
    """All of them. `mark`: that this is a record, and of which day; it stands on every screen.

    `longest_s`: no pause between two of them is played longer.
    """

    audit: str
    short: str
    machine: str
    machine_say: Text
    mark: Text
    longest_s: int
    moments: tuple[Moment, ...]


@dataclass(frozen=True, slots=True)
class NumberThen:
    """A number of the gauge, so long before the moment's own row."""

    before_ms: int
    live: Live


@dataclass(frozen=True, slots=True)
class MomentView:
    """What the screens showed after a press, and the numbers of the gauge since the one before.

    `stands`: the last number before it, as the screens then held it against the stop-at;
    none where none was known to hold. Nothing in it is live.
    """

    n: int
    mark: Text
    snapshot: Snapshot
    numbers: tuple[NumberThen, ...]
    stands: Live


def moments(record: AuditRecord) -> MomentsView:
    """Every moment of an audit."""
    opened = record.opened
    return MomentsView(
        audit=record.audit,
        short=opened.short,
        machine=record.machine,
        machine_say=opened.setup.machine.name,
        mark=_mark(record),
        longest_s=LONGEST_S,
        moments=tuple(_moment(record, n, rows) for n, rows in enumerate(_presses(record))),
    )


def moment(record: AuditRecord, n: int, samples: Samples) -> MomentView:
    """One of them. Raises IndexError: there are not so many."""
    rows = _presses(record)[n]
    last, before = rows[-1], rows[0] - 1
    state, gauge = record.states[last], record.opened.setup.gauge.key
    here = _new(record, rows, samples)
    held = aim(record.states[before]) if n else None
    stands = _stands(record, last, samples)
    end_ns = record.rows[last].event.stamp.mono_ns
    return MomentView(
        n=n,
        mark=_mark(record),
        snapshot=_snapshot(record, last, state),
        numbers=tuple(
            NumberThen(max(0, (end_ns - each.mono_ns) // 1_000_000), _live(each, held))
            for each in _thinned([each for each in here if each.gauge == gauge])
        ),
        stands=_none(gauge) if stands is None else _live(stands, aim(state)),
    )


def count(record: AuditRecord) -> int:
    """How many moments an audit has."""
    return len(_presses(record))


def _presses(record: AuditRecord) -> tuple[range, ...]:
    """The rows that each press brought: those of one cause."""
    causes = groupby(enumerate(record.rows), lambda each: each[1].event.cause.get("id"))
    groups = [[n for n, _ in rows] for _, rows in causes]
    return tuple(range(rows[0], rows[-1] + 1) for rows in groups)


def _moment(record: AuditRecord, n: int, rows: range) -> Moment:
    last, stamp = rows[-1], record.rows[rows[-1]].event.stamp
    return Moment(
        n=n,
        seq=record.rows[last].seq,
        at_ms=_after_ms(record, last),
        when=local(stamp, zone_of(record)) or utc(stamp),
        step=_step(record.states[last]),
        what=tuple(told(record.rows[row].event) for row in rows),
    )


def _mark(record: AuditRecord) -> Text:
    stamp = record.rows[0].event.stamp
    day = (local(stamp, zone_of(record)) or utc(stamp))[:10]
    return said("play-mark", day=day, short=record.opened.short)


def _step(state: MachineState) -> str:
    return "signed" if state.job is None else state.job.step


def _after_ms(record: AuditRecord, n: int) -> int:
    """Since the opening: by the monotonic clock, across starts of the Pi by UTC."""
    first, then = record.rows[0].event.stamp, record.rows[n].event.stamp
    if first.boot == then.boot:
        return max(0, (then.mono_ns - first.mono_ns) // 1_000_000)
    return max(0, (then.utc_us - first.utc_us) // 1000)


def _snapshot(record: AuditRecord, n: int, state: MachineState) -> Snapshot:
    """The pages as they were; with no button and no command of the machine's."""
    name, kept = record.opened.setup.machine.name, record.rows[n].kept
    pages: dict[str, Any] = {
        "wall": wall(state, name),
        "console": replace(console(state, name), actions=(), audit=None),
    }
    return Snapshot("", kept.event.seq, kept.hash, pages, (), {"ok": True, "say": ""})


def _new(record: AuditRecord, rows: range, samples: Samples) -> tuple[Sample, ...]:
    """The samples that the rows of a press name: mostly all of them the same."""
    named = dict.fromkeys(digest for n in rows for digest in record.rows[n].event.evidence)
    return tuple(sample for digest in named for sample in _there(digest, samples))


def _there(digest: str, samples: Samples) -> Sequence[Sample]:
    """None where they were let go, or cannot be read: the record's page says so."""
    try:
        return samples(digest)
    except LedgerError:
        return ()


def _stands(record: AuditRecord, n: int, samples: Samples) -> Sample | None:
    """The last number before a row; none since the gauge failed, or the service was off."""
    gauge = record.opened.setup.gauge.key
    for row in reversed(record.rows[: n + 1]):
        if row.event.type in ("GaugeFault", "Restarted"):
            return None
        for digest in row.event.evidence:
            found = [each for each in _there(digest, samples) if each.gauge == gauge]
            if found:
                return found[-1]
    return None


def _thinned(samples: Sequence[Sample]) -> Iterator[Sample]:
    """So few that they can be followed, the last among them."""
    every = max(1, -(-len(samples) // MOST_NUMBERS))
    first = (len(samples) - 1) % every
    return iter(samples[first::every])


def _live(sample: Sample, held: Aim | None) -> Live:
    aimed = held is not None and (held.gauge, held.unit) == (sample.gauge, sample.unit)
    return Live(
        gauge=sample.gauge,
        run=sample.run,
        n=sample.n,
        text=show(sample.value_mm, sample.unit, places(sample.text)),
        unit=sample.unit,
        value_mm=sample.value_mm,
        age_ms=0,
        fresh=True,
        against=held.against(sample.value_mm) if held is not None and aimed else None,
    )


def _none(gauge: str) -> Live:
    return Live(gauge, "", 0, "", "", None, 0, fresh=False)
