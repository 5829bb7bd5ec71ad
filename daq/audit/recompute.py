"""Every decision of a ledger made again from the inputs it recorded, and compared.

The fold never recomputes; this is how the record itself is checked: each event
carries its cause and names its evidence, so the same inputs must lead to the same
events. A difference means another release decided differently, or a row that was
never decided by this code.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import groupby

from daq.audit import evidence
from daq.audit.apply import apply
from daq.audit.codec import decode, encode
from daq.audit.engine import decide
from daq.audit.events import AuditOpened, ReportAmended, Signed
from daq.audit.history import day_of as day_of
from daq.audit.input import Input, Refused
from daq.audit.state import Shop
from daq.words import Command, Event


@dataclass(frozen=True)
class Difference:
    """One decision that came out otherwise than recorded; `seq` is its first event."""

    seq: int
    say: str


def differences(events: Iterable[Event], chunk: Callable[[str], bytes]) -> Iterator[Difference]:
    """Give every difference between what is recorded and what is decided again.

    `chunk` returns the evidence stored under a digest.
    """
    shop, signed, reports = Shop(), dict[tuple[str, str], int](), Counter[tuple[str, str]]()
    for _, group in groupby(events, key=lambda event: event.cause.get("id")):
        recorded = list(group)
        named = (recorded[0].machine, recorded[0].audit)
        # What belongs to no machine was not decided, and yet bears on what is.
        decided = bool(recorded[0].machine)
        since = (signed.get(named, 0), reports[named])
        difference = _compare(shop, recorded, chunk, *since) if decided else None
        if difference is not None:
            yield difference
        for event in recorded:
            shop = apply(shop, event)
            if event.type == Signed.__name__:
                signed[event.machine, event.audit] = event.seq
            reports[named] += event.type == ReportAmended.__name__


def _compare(
    shop: Shop, recorded: list[Event], chunk: Callable[[str], bytes], signed: int, reports: int
) -> Difference | None:
    first = recorded[0]
    try:
        given = replace(_input(first, chunk), signed=signed, reports=reports)
        again = [encode(data) for data in decide(shop, given)]
    except Refused as refused:
        return Difference(first.seq, f"recorded {first.type}, now refused: {refused}")
    except Exception as error:  # whatever stands there: the row is named and the next one checked
        why = f"{type(error).__name__}: {error}"
        say = f"recorded {first.type}, but its input or evidence is not what headsweep writes"
        return Difference(first.seq, f"{say} ({why:.200})")
    for event, (kind, version, data) in zip(recorded, again, strict=False):
        # Read and written anew: a field that came later stands there with its default.
        if encode(decode(event)) != (kind, version, data):
            return Difference(event.seq, f"recorded {event.type}, now {kind} with other values")
    if len(recorded) != len(again):
        return Difference(first.seq, f"recorded {len(recorded)} events, now {len(again)}")
    return None


def _input(event: Event, chunk: Callable[[str], bytes]) -> Input:
    """The input an event was decided from, rebuilt from its cause and its evidence."""
    data = decode(event)
    # What an amended report is decided with is the one it replaces, as bytes, and no sample.
    sampled = () if isinstance(data, ReportAmended) else event.evidence
    samples = tuple(s for digest in sampled for s in evidence.decode(chunk(digest)))
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
    )
