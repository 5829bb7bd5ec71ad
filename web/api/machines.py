"""The machines served here."""

from dataclasses import dataclass

from flask import Blueprint

from web.rights import needs
from web.rooms import rooms
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_machines", __name__)
FAMILY = Family(blueprint)


@dataclass(frozen=True)
class MachineEntry:
    """One machine: its key in addresses and its name for people."""

    key: str
    say: str


@blueprint.get("/api/machines")
@needs("look")
@typed()
def machines() -> tuple[MachineEntry, ...]:
    """List the machines, in the order screens show them."""
    return tuple(MachineEntry(machine.key, machine.say) for machine in rooms().hub.machines())
