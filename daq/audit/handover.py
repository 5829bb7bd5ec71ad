"""An open audit goes into other hands, at any step: both are named, and nothing of it changes."""

import datetime
from dataclasses import dataclass, replace

from daq.audit.closing_events import Handed, HandedOver
from daq.audit.events import Data
from daq.audit.history import day_of
from daq.audit.input import Input, Refused
from daq.audit.state import Job
from daq.audit.views.handed import persons
from daq.audit.views.step import Action, Field
from daq.words import Stamp, said


@dataclass(frozen=True)
class HandOver:
    """The payload of `hand-over`: who leaves the audit, and who takes it over."""

    left_by: str
    taken_by: str


def button(job: Job) -> Action:
    """From whoever has it in hand by the record, to another who is known here."""
    people = persons(job.meanwhile.people)
    fields = (
        Field("left_by", said("handed-by"), suggests=people),
        Field("taken_by", said("handed-to"), suggests=people),
    )
    return Action("hand-over", said("hand-over"), fields=fields)


def hand_over(job: Job, given: Input) -> tuple[Data, ...]:
    """From one named person to another.

    Raises:
        Refused: one of them is not named, or both are the same.
    """
    sheet = given.payload(HandOver)
    left, taken = sheet.left_by.strip(), sheet.taken_by.strip()
    if not left:
        raise Refused("handed-from-nobody")
    if not taken:
        raise Refused("handed-to-nobody")
    if left == taken:
        raise Refused("handed-to-oneself")
    return (HandedOver(left, taken),)


def handed_over(job: Job, data: HandedOver, stamp: Stamp) -> Job:
    """The audit after it, which stands where it stood."""
    moment = datetime.datetime.fromtimestamp(stamp.utc_us // 1_000_000, datetime.UTC)
    row = Handed(data, day_of(stamp), moment.strftime("%H:%M"), stamp.utc_trusted)
    return replace(job, handed=(*job.handed, row))
