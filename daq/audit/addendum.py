"""An addendum: what a named person has to add to an audit that is signed; nothing in it changes."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, get_args

from daq.audit.closing_events import Addendum, AddendumKind
from daq.audit.events import Data
from daq.audit.history import LaterRow
from daq.audit.input import Input, Refused
from daq.audit.state import Closed, Shop
from daq.audit.views.step import Action, Choice, Field
from daq.settings import quoted
from daq.words import Person, Said, said

LONGEST: Final = 200
"""So many characters it may have: it stands on the wall, too."""


@dataclass(frozen=True)
class Add:
    """The payload of `add-to-signed`: the audit's id, what kind of thing is added, and the text."""

    audit: str
    kind: AddendumKind
    text: str
    done_by: str


def add(shop: Shop, given: Input) -> tuple[Data, ...]:
    """The addendum. Any signed audit of this machine may have some: every check, and practice.

    Raises:
        Refused: the audit is not this machine's or not signed, or text or name do not do.
    """
    sheet = given.payload(Add)
    text = " ".join(sheet.text.split())
    if not given.signed:
        machine = given.command.machine
        raise Refused("addendum-not-signed", found=quoted(sheet.audit), machine=machine)
    if not text or len(text) > LONGEST:
        raise Refused("addendum-text", found=len(text), most=LONGEST)
    if not sheet.done_by.strip():
        raise Refused("addendum-by-nobody")
    return (Addendum(sheet.audit, given.signed, sheet.kind, text, sheet.done_by),)


def audit_of(data: Data, otherwise: str) -> str:
    """The audit that an event's row belongs to: an addendum's is the one it was added to."""
    return data.of if isinstance(data, Addendum) else otherwise


def in_words(rows: Iterable[LaterRow]) -> tuple[Said, ...]:
    """A sentence for each, in their order."""
    return tuple(
        said(
            "addendum",
            kind=row.what.kind,
            day=row.day,
            by=Person(row.what.done_by),
            text=row.what.text,
        )
        for row in rows
    )


def button(last: Closed) -> Action:
    """The one that adds to the audit signed last."""
    kinds = tuple(Choice(key, said("addendum-kind", kind=key)) for key in get_args(AddendumKind))
    fields = (
        Field("kind", said("addendum-what"), "choice", choices=kinds),
        Field("text", said("addendum-says", most=LONGEST)),
        Field("done_by", said("added-by")),
    )
    say = said("add-to-signed", audit=last.short)
    return Action("add-to-signed", say, {"audit": last.id}, fields=fields)
