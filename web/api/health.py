"""Whether the service is well, for watchdogs and people."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from flask import Blueprint

from daq.service.copies import LastCopy, last_copy
from daq.service.delivery.courier import WayOut
from web.rights import may_look, needs
from web.rooms import rooms
from web.scan import Family
from web.typed import WithStatus, typed

blueprint = Blueprint("api_health", __name__)
FAMILY = Family(blueprint)


@dataclass(frozen=True)
class Wellness:
    """All that is told to whoever may not look: enough for a watchdog, before any pairing, too."""

    ok: bool


@dataclass(frozen=True)
class ServiceHealth:
    """`ok`, the open event streams and how many are allowed, and the service's own account.

    `crowded`: no further screen can be opened. `deliveries`: how the reports go out that do so by
    themselves, by their way. `backup`: the last copy of the record on a stick, if there was one.
    None of it makes the service unwell.
    """

    ok: bool
    streams: int
    most_streams: int
    crowded: bool
    service: Mapping[str, Any]
    deliveries: Mapping[str, WayOut]
    backup: LastCopy | None


@blueprint.get("/healthz")
@needs("open")
@typed(answers={200: ServiceHealth | Wellness, 503: ServiceHealth | Wellness})
def healthz() -> WithStatus:
    """Say how the service is doing, more to whoever may look; 503 when it is not well."""
    shared = rooms()
    service = shared.hub.health()
    ok = bool(service.get("ok")) and not shared.streams.turns.still
    status = 200 if ok else 503
    if not may_look():
        return WithStatus(Wellness(ok), status)
    gate = shared.gate
    setup = shared.setup
    ways = {} if setup is None else setup.ways()
    copied = None if setup is None else last_copy(setup.data)
    crowded = gate.open >= gate.most
    health = ServiceHealth(ok, gate.open, gate.most, crowded, service, ways, copied)
    return WithStatus(health, status)
