"""Where screens, pedals and programs hand in what a person wants."""

import uuid
from collections.abc import Mapping
from contextlib import ExitStack
from dataclasses import dataclass, field
from typing import Any, Literal

from flask import Blueprint, Response, current_app

from daq.service.inbox import ANSWER_S, unanswered
from daq.service.rights.pins import LockedOut, WrongPin
from daq.settings import quoted
from daq.words import Ack, CannotBe, Command, Proved, said
from web.client import who
from web.kept import brought
from web.later import Later
from web.problems import problem
from web.rights import asker, locked, needs, proofs
from web.rooms import rooms
from web.scan import Family
from web.typed import WithStatus, typed

blueprint = Blueprint("api_commands", __name__)
FAMILY = Family(blueprint)

STATUS = {"ok": 200, "stale": 409, "refused": 422, "not-recorded": 503, "not-known": 503}
"""The HTTP status for each code of an Ack."""

LAST_SEQ = 2**63 - 1
"""The largest number a row can have (64 bits)."""

CROWDED = 429
"""The status (RFC 6585) when too many presses wait already."""


@dataclass(frozen=True)
class CommandBody:
    """A command as sent: `id` is a UUID chosen by the client.

    The same `id` sent again is carried out once. `actor` is where it was pressed, never a
    name: it stands in the row for ever. `expects_seq` is the `seq` of the snapshot the person
    was looking at. `pins`: the PIN of each person that the payload names, under the same key.
    """

    id: str
    kind: str
    payload: Mapping[str, Any] = field(default_factory=dict)
    actor: Literal["screen", "console", "wall"] = "screen"
    audit: str | None = None
    expects_seq: int | None = None
    pins: Mapping[str, Any] = field(default_factory=dict, repr=False)

    def __post_init__(self) -> None:
        """Refuse an id that is no UUID, and write each in one way: it is compared as text.

        Refuse a number that no row can have.
        """
        try:
            object.__setattr__(self, "id", str(uuid.UUID(self.id)))
        except ValueError:
            raise CannotBe(said("id-no-uuid", found=quoted(self.id))) from None
        if self.expects_seq is not None and not 0 <= self.expects_seq <= LAST_SEQ:
            found = f"{self.expects_seq!s:.24}"
            raise CannotBe(said("no-such-row", found=found, last=str(LAST_SEQ)))


@blueprint.post("/api/machines/<machine>/commands")
@needs("work")
@typed(answers=dict.fromkeys((*STATUS.values(), CROWDED), Ack))
def command(machine: str, body: CommandBody) -> Response | WithStatus:
    """Carry out a command; answers once it is committed or refused.

    A take is answered when the gauge has settled, which may last 12 s; where too many wait
    for that already, a further press is refused at once (429).
    """
    shared = rooms()
    try:
        proved = proofs(body.kind, body.payload, body.pins)
    except LockedOut as error:
        raise locked(error) from None
    except WrongPin as error:
        return problem(403, error.said)
    wish = _wish(machine, body, proved)
    with ExitStack() as held:
        if not held.enter_context(shared.presses.place(who())):
            why = said("too-many-presses")
            return WithStatus(Ack(body.id, False, (), "refused", why), CROWDED)
        held.enter_context(shared.settling.during(machine))
        reply = shared.inbox.hand_in(wish)
        release = held.pop_all().close

    def ended(ack: Ack) -> Ack:
        release()
        if ack.reason:
            shared.hub.refuse(machine, wish.kind, ack.reason, wish.id)
        return ack

    def made(ack: Ack | None) -> tuple[int, str]:
        given = ended(unanswered(wish)) if ack is None else ack
        return STATUS[given.code], f"{to_json(shared.streams.words.told(given, says))}\n"

    # When the answer is made the request is over: what it brought is looked at now.
    to_json, says = current_app.json.dumps, shared.says
    reply.add_done_callback(lambda done: ended(done.result()))
    return Later(reply, ANSWER_S, made)


def _wish(machine: str, body: CommandBody, proved: Mapping[str, Proved]) -> Command:
    return Command(
        id=body.id,
        machine=machine,
        kind=body.kind,
        payload=body.payload,
        actor=body.actor,
        audit=body.audit,
        expects_seq=body.expects_seq,
        asker=asker(proved),
        proved=proved,
        brought=brought(body.kind, body.payload),
    )
