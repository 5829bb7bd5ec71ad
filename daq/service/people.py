"""Who did something: a typed name becomes an id before a command is decided; rows hold the id.

So a name can be put right, or taken out, and no row changes.
"""

import uuid
from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from dataclasses import replace
from typing import Any, Final

from daq.words import Command, Proved

PERSONS: Final[Mapping[str, tuple[str, ...]]] = {
    "sign": ("done_by", "reviewed_by"),
    "add-to-signed": ("done_by",),
    "amend-report": ("done_by",),
    "hand-over": ("left_by", "taken_by"),
}
"""The fields of a command's payload that name a person, who proves by a PIN who they are.

The first of them is who did it.
"""


class People:
    """Everybody the record names. One thread learns of people; any may read `names`."""

    def __init__(self, names: Mapping[str, str], renamed: AbstractSet[str] = frozenset()) -> None:
        """`names`: the name of everybody known, by id; `renamed`: whose name was put right."""
        self.names = names
        self._renamed = renamed

    def learn(self, named: Mapping[str, str]) -> None:
        """These names are on the disk now."""
        self.names = {**self.names, **named}

    def id_of(self, typed: str, named: dict[str, str], new: str = "") -> str:
        """The id of who has that name, however it is spaced and capitalised; "" for no name.

        A new name gets a new id, or `new`, and is put into `named`, to be written with the event.
        """
        if not typed.strip():
            return ""
        for person, name in {**self.names, **named}.items():
            if _folded(name) == _folded(typed):
                return person
        person = new or str(uuid.uuid4())
        named[person] = " ".join(typed.split())
        return person

    def identified(self, command: Command) -> tuple[Command, dict[str, str]]:
        """The command with ids for the names typed into it, and the new names, by id.

        Its actor is who did it, where that is said.
        """
        named: dict[str, str] = {}
        ids = {
            field: self.proved(proved, named)
            if (proved := command.proved.get(field))
            else self.id_of(typed, named)
            for field in PERSONS.get(command.kind, ())
            if isinstance(typed := command.payload.get(field), str)
        }
        doer = PERSONS.get(command.kind, ("",))[0]
        actor = ids.get(doer) or command.actor
        asker = command.asker
        if doer in command.proved:
            asker = replace(asker, person=ids[doer])
        return (
            replace(command, payload={**command.payload, **ids}, actor=actor, asker=asker),
            named,
        )

    def proved(self, who: Proved, named: dict[str, str]) -> str:
        """Whose PIN it was is who did it, whatever the ledger calls them by now: their id."""
        return who.id if who.id in self.names else self.id_of(who.name, named, who.id)

    def same(self, recorded: Mapping[str, Any], command: Command) -> bool:
        """Whether a command as typed has the payload on record.

        What was typed for somebody renamed since is not known any more: any name may be it.
        """
        fields = PERSONS.get(command.kind, ())
        told = {key: self.names.get(recorded[key], "") for key in fields if key in recorded}
        for key in told:
            typed = command.payload.get(key)
            if recorded[key] in self._renamed and isinstance(typed, str) and typed.strip():
                told[key] = typed
        return _plain({**recorded, **told}, fields) == _plain(command.payload, fields)


def _plain(payload: Mapping[str, Any], fields: tuple[str, ...]) -> dict[str, Any]:
    return {
        key: _folded(value) if key in fields and isinstance(value, str) else value
        for key, value in payload.items()
    }


def _folded(name: str) -> str:
    return " ".join(name.split()).casefold()
