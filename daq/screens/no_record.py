"""What a machine's screens show while there is no record to write to: why, and no button."""

from collections.abc import Iterator, Mapping
from dataclasses import fields, replace
from typing import Final

from daq.audit.state import MachineState
from daq.audit.views.common import FIRST
from daq.audit.views.shapes import Console, WallView
from daq.audit.views.step import ByHand
from daq.screens.wall import wall
from daq.words import Said, said

_BECAUSE: Final[Mapping[str, str]] = {
    "disk-is-full": "full",
    "disk-is-read-only": "closed",
    "file-is-read-only": "closed",
    "not-open-for-writing": "closed",
    "begun-ledger-gone": "gone",
    "log-holds-rows": "gone",
    "database-of-others": "foreign",
    "other-ledger-begun": "foreign",
    "other-format": "foreign",
    "data-in-memory": "memory",
    "file-is-damaged": "damaged",
    "file-is-no-ledger": "damaged",
    "left-as-it-is": "damaged",
    "pages-but-no-tables": "damaged",
    "access-damaged": "people",
    "wall-key-open": "people",
    "wall-key-unread": "people",
}
"""What a shop calls it, by what the ledger says of it; anything else is no more than no record."""


def no_record(name: str, why: Said) -> Mapping[str, WallView | Console]:
    """The pages of a machine called `name`, of which nothing is known but that."""
    because = _because(why)
    shown = replace(
        wall(MachineState(""), name),
        step="no-record",
        steps=(),
        title=said("no-record", because=because),
        detail=said("no-record-do", because=because),
        cautions=(FIRST, said("no-record-look")),
        circle=(),
        axes=(),
    )
    same = {each.name: getattr(shown, each.name) for each in fields(WallView)}
    bare = Console(**same, actions=(), do=ByHand("nothing"), numbers=None, audit=None, short="")
    return {"wall": shown, "console": bare}


def in_full(why: Said) -> Said:
    """What a shop calls it, with what the ledger says of it."""
    return said("no-record-why", what=said("no-record", because=_because(why)), why=why)


def _because(why: Said) -> str:
    return next((_BECAUSE[code] for code in _inmost(why) if code in _BECAUSE), "other")


def _inmost(say: Said) -> Iterator[str]:
    """The codes that a sentence is made of, the most particular first."""
    for part in say.of.values():
        if isinstance(part, Said):
            yield from _inmost(part)
    yield say.code
