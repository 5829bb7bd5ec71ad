"""Where screens, pedals and programs hand in what a person wants."""

import uuid
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from flask import Blueprint

from daq.settings import quoted
from daq.words import Ack, Command
from web.rooms import rooms
from web.scan import Family
from web.typed import Answer, typed

blueprint = Blueprint("api_commands", __name__)
FAMILY = Family(blueprint)

STATUS = {"ok": 200, "stale": 409, "refused": 422, "not-recorded": 503}
"""The HTTP status for each code of an Ack."""


@dataclass(frozen=True)
class CommandBody:
    """A command as sent: `id` is a UUID chosen by the client.

    The same `id` sent again is carried out once. `expects_seq` is the `seq` of
    the snapshot the person was looking at.
    """

    id: str
    kind: str
    payload: Mapping[str, Any] = field(default_factory=dict)
    actor: str = "screen"
    audit: str | None = None
    expects_seq: int | None = None

    def __post_init__(self) -> None:
        """Refuse an id that is no UUID, and write each in one way: it is compared as text."""
        try:
            object.__setattr__(self, "id", str(uuid.UUID(self.id)))
        except ValueError:
            raise ValueError(f"id: found {quoted(self.id)}; allowed: a UUID") from None


@blueprint.post("/api/machines/<machine>/commands")
@typed(answers=dict.fromkeys(STATUS.values(), Ack))
def command(machine: str, body: CommandBody) -> Answer:
    """Carry out a command; answers once it is committed or refused.

    A take is answered when the gauge has settled, which may last 12 s.
    """
    shared = rooms()
    wish = Command(
        id=body.id,
        machine=machine,
        kind=body.kind,
        payload=body.payload,
        actor=body.actor,
        audit=body.audit,
        expects_seq=body.expects_seq,
    )
    with shared.settling.during(machine):
        ack = shared.desk.submit(wish)
    return Answer(ack, STATUS[ack.code])
