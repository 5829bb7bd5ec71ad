"""An amended report: a signed audit's report is issued anew, and why; nothing in the audit changes.

The bytes of the report that is replaced are kept with the row that replaces it.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from daq.audit.closing_events import ReportAmended
from daq.audit.events import Data
from daq.audit.input import Input, Refused
from daq.audit.state import Closed, Shop
from daq.audit.views.handed import persons
from daq.audit.views.step import Action, Field
from daq.settings import quoted
from daq.words import Said, said

LONGEST: Final = 300
"""So many characters the reason may have: it stands on the first page."""


@dataclass(frozen=True)
class Amend:
    """The payload of `amend-report`: the audit's id, why another report is issued, and by whom."""

    audit: str
    why: str
    done_by: str


def amend(shop: Shop, given: Input) -> tuple[Data, ...]:
    """The next report. Any signed audit of this machine may have some, as an addendum.

    Raises:
        Refused: the audit is not this machine's or not signed, reason or name do not do, or the
            report that is replaced did not come with it.
    """
    sheet = given.payload(Amend)
    why = " ".join(sheet.why.split())
    if not given.signed:
        machine = given.command.machine
        raise Refused("addendum-not-signed", found=quoted(sheet.audit), machine=machine)
    if not why or len(why) > LONGEST:
        raise Refused("amended-why", found=len(why), most=LONGEST)
    if not sheet.done_by.strip():
        raise Refused("amended-by-nobody")
    if not given.evidence:
        raise Refused("amended-unkept")
    nth = given.reports + 2
    return (ReportAmended(sheet.audit, given.signed, nth, why, sheet.done_by, given.evidence),)


def button(last: Closed, people: Iterable[str], under: Said | None) -> Action:
    """The one that issues another report of the audit signed last."""
    fields = (
        Field("why", said("amend-why", most=LONGEST)),
        Field("done_by", said("added-by"), suggests=persons(people)),
    )
    say = said("amend-report", audit=last.short)
    return Action("amend-report", say, {"audit": last.id}, fields=fields, under=under)
