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
class WallDrawn:
    """How long ago a page of the Pi's own wall was drawn; null: not since the service began."""

    ms: int | None


@dataclass(frozen=True)
class ServiceHealth:
    """`ok`, the open event streams and how many are allowed, and the service's own account.

    `crowded`: no further screen can be opened. `deliveries`: how the reports go out that do so by
    themselves, by their way. `backup`: the last copy of the record on a stick, if there was one.
    `wall`: the Pi's own, where the service asks who is who. None of it makes the service unwell.
    """

    ok: bool
    streams: int
    most_streams: int
    crowded: bool
    service: Mapping[str, Any]
    deliveries: Mapping[str, WayOut]
    backup: LastCopy | None
    wall: WallDrawn | None


@blueprint.get("/healthz")
@needs("open")
@typed(answers={200: ServiceHealth | Wellness, 503: ServiceHealth | Wellness})
def healthz() -> WithStatus:
    """Say how the service is doing, more to whoever may look; 503 when it is not well."""
    shared = rooms()
    service = shared.hub.health()
    ok = is_well(service)
    status = 200 if ok else 503
    if not may_look():
        return WithStatus(Wellness(ok), status)
    gate = shared.gate
    setup = shared.setup
    ways = {} if setup is None else setup.ways()
    copied = None if setup is None else last_copy(setup.data)
    crowded = gate.open >= gate.most
    wall = None if shared.access is None else WallDrawn(shared.access.drawn_ms)
    health = ServiceHealth(ok, gate.open, gate.most, crowded, service, ways, copied, wall)
    return WithStatus(health, status)


def is_well(service: Mapping[str, Any] | None = None) -> bool:
    """Whether all is well; `service`: the service's own account, if it was asked already."""
    shared = rooms()
    account = shared.hub.health() if service is None else service
    return bool(account.get("ok")) and not shared.streams.turns.still
