"""What a client asks for, and the one answer it gets."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from daq.words.said import Said


@dataclass(frozen=True, slots=True)
class Proved:
    """Somebody who proved by a PIN who they are: their id, and the name it was kept under."""

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class Asker:
    """Who asked, for the record: by which right, who that was, on which screen, from where.

    `role`: "work" or "sign", of the Pi's own wall or a paired `screen`; "practice" where anybody
    may; "" for the service itself and what is wired to it. `person`: the id of who proved by a
    PIN who they are. Nothing is decided by it.
    """

    role: str = ""
    person: str = ""
    screen: str = ""
    address: str = ""


@dataclass(frozen=True, slots=True)
class Command:
    """One wish of a person (or a notice of the service itself).

    `id` is the client's UUID and the idempotency key: the same id makes its
    events once, however often it is sent. `actor` is where it was pressed, or the id
    of the person who did it; never a name. `expects_seq` is the sequence number
    the client was looking at, or None to skip that check. `proved`: who proved to be the
    person that a field of the payload names. `brought`: bytes that the service itself brings along,
    to be kept as the evidence of what follows; no client sends any.
    """

    id: str
    machine: str
    kind: str
    payload: Mapping[str, Any] = field(default_factory=dict)
    actor: str = "screen"
    audit: str | None = None
    expects_seq: int | None = None
    asker: Asker = field(default_factory=Asker)
    proved: Mapping[str, Proved] = field(default_factory=dict)
    brought: bytes = field(default=b"", repr=False)


@dataclass(frozen=True, slots=True)
class Ack:
    """The answer to a command, given only after its events were committed.

    `code` is "ok", "refused" (the wish makes no sense now; `reason` says why),
    "stale" (the client looked at an older state; `changed` names the last few
    things that came since, and how many came before them), "not-recorded" (the
    ledger could not be written) or "not-known" (nor is it known that nothing of it was).
    """

    command: str
    accepted: bool
    seqs: tuple[int, ...]
    code: str
    reason: Said | None = None
    changed: tuple[Said, ...] = ()
