"""The service was off in the middle of an audit: where it goes on, and what is asked first."""

from daq.audit.events import Data, Restarted
from daq.audit.facts import first_read, unasked
from daq.audit.input import Input, Nothing, Refused
from daq.audit.parts import RESTING, Anew, Next
from daq.audit.safe import loose_first, maybe_loose
from daq.audit.state import Job
from daq.words import said

PROVED = ("clear", "sign")
"""Nothing is read any more at these steps."""
AWAY = ("shim-open", "shim", "closer", "arm-back")
"""Arm or gauge are out at these: the contact is touched and the head read anew after them."""
TAKEN_OUT = ("arm-out-shim", "arm-out-closer")
"""Somebody was told to take them out, and may have."""

BEGUN_AGAIN = ("tap", "as-found-drift", "final-drift", "final-ram")
"""Asked or done because of readings that are taken anew once the zero is another."""


def restarted(job: Job, given: Input) -> tuple[Data, ...]:
    """Nobody saw the gauge, the bolts or the head meanwhile: prepared, touched and read again.

    Raises:
        Refused: the audit rests, or nothing was read or done yet that a restart could spoil.
    """
    given.payload(Nothing)
    if job.step in PROVED:
        return (Restarted(said("off-since-proof"), None, Next(job.step, job.axis)),)
    if job.step in AWAY:
        return (Restarted(said("off-arm-away"), None, Next(job.step, job.axis)),)
    if job.step in RESTING or not job.arm_in:
        raise Refused("card-unread")
    anew = Anew("restart", goes_on(job), maybe_loose(job))
    out = said("off-arm-out") if job.step in TAKEN_OUT else None
    return (Restarted(out, anew, Next("prepare")),)


def unread(job: Job, given: Input) -> tuple[Data, ...]:
    """At a card that is still to be read nothing was done yet that a restart could spoil.

    Raises:
        Refused: always; the card stays.
    """
    given.payload(Nothing)
    raise Refused("card-unread")


def goes_on(job: Job) -> Next:
    """Where the audit goes on once the gauge was touched.

    The axis under work is read again before it is turned: a loose one may stand anywhere, and
    how deep the contact stands after the touch test, one parked reading cannot tell. A sweep or
    a pair is begun again.
    """
    if job.anew is not None:
        return job.anew.next
    loose = loose_first(job)
    if loose is not None:
        return Next("check", loose)
    before = unasked(job)
    stood = before.resume or Next(before.step, before.axis)
    if stood.step in (*BEGUN_AGAIN, "touch-free", "touch-push", "touch-back"):
        return first_read(job)
    if stood.step == "arm-back":
        return Next("final")
    if stood.step in ("park", "question", "loosen", "arm-out-shim", "shim-open"):
        return Next("check", stood.axis)
    return stood
