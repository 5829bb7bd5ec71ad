"""Whether the service is well, for watchdogs and people."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from flask import Blueprint

from daq.service.delivery.courier import WayOut
from web.rights import needs
from web.rooms import rooms
from web.scan import Family
from web.typed import WithStatus, typed

blueprint = Blueprint("api_health", __name__)
FAMILY = Family(blueprint)


@dataclass(frozen=True)
class ServiceHealth:
    """`ok`, the open event streams and how many are allowed, and the service's own account.

    `crowded`: no further screen can be opened. `deliveries`: how the reports go out that do so by
    themselves, by their way; none of it makes the service unwell.
    """

    ok: bool
    streams: int
    most_streams: int
    crowded: bool
    service: Mapping[str, Any]
    deliveries: Mapping[str, WayOut]


@blueprint.get("/healthz")
@needs("look")
@typed(answers={200: ServiceHealth, 503: ServiceHealth})
def healthz() -> WithStatus:
    """Say how the service is doing; 503 when it is not well."""
    shared = rooms()
    service = shared.hub.health()
    ok = is_well(service)
    gate = shared.gate
    ways = {} if shared.setup is None else shared.setup.ways()
    health = ServiceHealth(ok, gate.open, gate.most, gate.open >= gate.most, service, ways)
    return WithStatus(health, 200 if ok else 503)


def is_well(service: Mapping[str, Any] | None = None) -> bool:
    """Whether all is well; `service`: the service's own account, if it was asked already."""
    shared = rooms()
    account = shared.hub.health() if service is None else service
    return bool(account.get("ok")) and not shared.streams.turns.still
