"""The ledger's rows as the rest of the house sees them."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Stamp:
    """When something happened: monotonic since `boot`, and UTC as far as it is trusted."""

    mono_ns: int
    utc_us: int
    boot: str
    utc_trusted: bool


@dataclass(frozen=True, slots=True)
class Draft:
    """An event not yet committed: everything but its place in the chain.

    `cause` is the whole input that led to it (id, kind, payload, actor), so that a
    decision can be computed again from the record. `evidence` lists SHA-256
    digests (hex) of the sample chunks committed with it.
    """

    type: str
    v: int
    machine: str
    audit: str
    stamp: Stamp
    actor: str
    cause: Mapping[str, Any]
    data: Mapping[str, Any]
    evidence: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Event:
    """A committed event."""

    ledger: str
    seq: int
    type: str
    v: int
    machine: str
    audit: str
    stamp: Stamp
    actor: str
    cause: Mapping[str, Any]
    data: Mapping[str, Any]
    evidence: tuple[str, ...]
