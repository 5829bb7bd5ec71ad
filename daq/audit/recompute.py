"""Every decision of a ledger made again from the inputs it recorded, and compared.

The fold never recomputes; this is how the record itself is checked: each event
carries its cause and names its evidence, so the same inputs must lead to the same
events. A difference means another release decided differently, or a row that was
never decided by this code.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, islice, zip_longest
from typing import Any, Final, Literal

from daq.audit import evidence
from daq.audit.apply import apply
from daq.audit.codec import decode, encode
from daq.audit.engine import decide
from daq.audit.events import Addendum, AuditOpened, ReportAmended, Signed
from daq.audit.history import day_of as day_of
from daq.audit.input import Input, Refused
from daq.audit.state import Shop
from daq.words import Command, Event, Passed, Said

MOST: Final = 20
"""So many fields of one decision are named; of the others it is said how many."""

Encoded = tuple[str, int, Mapping[str, Any]]
Nothing: Final = "nothing"
"""Stands where the other one has no such field, or no such event."""

REPORTED = (Addendum.__name__, ReportAmended.__name__)
"""What comes after a signature and makes another report."""


@dataclass(frozen=True)
class Change:
    """A field, by its path from the event's type on: as `recorded` in row `seq`, and as `now`.

    Codes and figures as they stand in JSON.
    """

    seq: int
    path: str
    recorded: object
    now: object


@dataclass(frozen=True)
class Difference:
    """One decision that came out otherwise; `seq` and `type` are of its first row.

    `what`: "differs" (`changes` says by which fields, at most MOST; `more` by how many besides),
    "refused" (`refused` says why) or "unreadable" (its input or evidence is not what headsweep
    writes, `why`).
    """

    seq: int
    type: str
    what: Literal["differs", "refused", "unreadable"]
    changes: tuple[Change, ...] = ()
    more: int = 0
    refused: Said | None = None
    why: str = ""


@dataclass(frozen=True)
class NotAgain:
    """One decision that was not made again: its samples were let go."""

    seq: int
    type: str


def rechecked(
    events: Iterable[Event], chunk: Callable[[str], bytes | None]
) -> Iterator[Difference | NotAgain | None]:
    """Give, for each decision, what comes of making it again: None where it comes out the same.

    `chunk` returns the evidence stored under a digest, None where it was let go.
    """
    shop, signed, reports = Shop(), dict[tuple[str, str], int](), Counter[tuple[str, str]]()
    for _, group in groupby(events, key=lambda event: event.cause.get("id")):
        recorded = list(group)
        named = (recorded[0].machine, recorded[0].audit)
        # What belongs to no machine was not decided, and yet bears on what is.
        if recorded[0].machine:
            since = signed.get(named, 0), reports[named]
            yield _compare(shop, recorded, chunk, *since)
        for event in recorded:
            shop = apply(shop, event)
            if event.type == Signed.__name__:
                signed[event.machine, event.audit] = event.seq
            reports[named] += event.type in REPORTED


def differences(
    events: Iterable[Event], chunk: Callable[[str], bytes | None]
) -> Iterator[Difference]:
    """Give every difference between what is recorded and what is decided again."""
    return (each for each in rechecked(events, chunk) if isinstance(each, Difference))


def _compare(
    shop: Shop,
    recorded: list[Event],
    chunk: Callable[[str], bytes | None],
    signed: int,
    reports: int,
) -> Difference | NotAgain | None:
    first = recorded[0]
    try:
        found = [chunk(digest) for digest in first.evidence]
        chunks = [each for each in found if each is not None]
        if len(chunks) < len(found):
            return NotAgain(first.seq, first.type)
        given = replace(_input(first, chunks), signed=signed, reports=reports)
        again = [encode(data) for data in decide(shop, given)]
    except Refused as refused:
        return Difference(first.seq, first.type, "refused", refused=refused.said)
    except Exception as error:  # whatever stands there: the row is named and the next one checked
        why = f"{type(error).__name__}: {error}"
        return Difference(first.seq, first.type, "unreadable", why=f"{why:.200}")
    changes = _changes(recorded, again)
    some = tuple(islice(changes, MOST))
    if not some:
        return None
    return Difference(some[0].seq, first.type, "differs", some, sum(1 for _ in changes))


def _changes(recorded: Sequence[Event], again: Sequence[Encoded]) -> Iterator[Change]:
    """Every field of a decision's events that is another one now, and every event that is."""
    for event, now in zip_longest(recorded, again):
        if event is None:
            yield Change(recorded[-1].seq, "", Nothing, now[0])
            continue
        # Read and written anew: a field that came later stands there with its default.
        kind, version, data = encode(decode(event))
        if now is None or now[:2] != (kind, version):
            yield Change(event.seq, "", kind, Nothing if now is None else now[0])
        elif now[2] != data:
            yield from _fields(event.seq, kind, data, now[2])


def _fields(seq: int, path: str, recorded: object, now: object) -> Iterator[Change]:
    """Every leaf at which two values differ, by its path."""
    if isinstance(recorded, Mapping) and isinstance(now, Mapping):
        for key in sorted(recorded.keys() | now.keys()):
            there = recorded.get(key, Nothing), now.get(key, Nothing)
            yield from _fields(seq, f"{path}.{key}", *there)
    elif isinstance(recorded, list) and isinstance(now, list):
        for at, pair in enumerate(zip_longest(recorded, now, fillvalue=Nothing)):
            yield from _fields(seq, f"{path}[{at}]", *pair)
    elif recorded != now:
        yield Change(seq, path, recorded, now)


def _input(event: Event, chunks: Sequence[bytes]) -> Input:
    """The input an event was decided from, rebuilt from its cause and its evidence."""
    data = decode(event)
    # What an amended report is decided with is the one it replaces, as bytes, and no sample.
    sampled = () if isinstance(data, ReportAmended) else chunks
    samples = tuple(sample for chunk in sampled for sample in evidence.decode(chunk))
    opened = data if isinstance(data, AuditOpened) else None
    first_n, last_n = event.cause["window"]
    second = event.cause.get("second_window")
    return Input(
        command=Command(
            id=event.cause["id"],
            machine=event.machine,
            kind=event.cause["kind"],
            payload=event.cause["payload"],
            actor=event.actor,
        ),
        samples=samples,
        arrived_ns=event.cause["arrived_ns"],
        first_n=first_n,
        last_n=last_n,
        second_n=tuple(second) if second else None,
        evidence=event.evidence[0] if event.evidence else "",
        today=day_of(event.stamp),
        setup=opened.setup if opened else None,
        passed=tuple(Passed(*each) for each in event.cause.get("passed", ())),
    )
