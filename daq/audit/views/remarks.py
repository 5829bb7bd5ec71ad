"""What a signature says beside its verdict: at the signing, and once it is signed."""

from daq.audit.events import Signed
from daq.audit.parts import LeftAlone
from daq.audit.reasons import REASONS, Reason
from daq.audit.rounds import Chosen
from daq.audit.setup import MachineSetup
from daq.audit.state import Closed, Job
from daq.audit.views.handed import in_words
from daq.words import Said, in_a_row, said

SET_BACK = said("was-set-back")


def opened_for(check: Chosen | None, reason: Reason, *, squared: bool) -> Said:
    """Why an audit was opened, and for what; `squared`: the head was, where only a check was."""
    if squared and not REASONS[reason].squares:
        return said("checked-and-squared")
    why = said("reason", reason=reason)
    return why if check is None else said("reason-of", check=check.name, reason=why)


def remarks(job: Job) -> tuple[Said, ...]:
    """Those of an open audit, as it would be signed now."""
    return _remarks(job.setup.machine, job.sweeps.set_back, job.moves.left_alone)


def closed_remarks(closed: Closed, signed: Signed) -> tuple[Said, ...]:
    """Those of a signed audit."""
    return signed_remarks(closed.setup.machine, signed)


def signed_remarks(machine: MachineSetup, signed: Signed) -> tuple[Said, ...]:
    """The same of a signature on that machine."""
    return (*said_with(signed), *_remarks(machine, signed.set_back, signed.left_alone))


def said_with(signed: Signed) -> tuple[Said, ...]:
    """What spoke against the gauge or the dates, why it was signed for all that; whose hands."""
    handed = in_words(signed.handed)
    if not signed.against:
        return handed
    facts, why = in_a_row(signed.against), signed.all_the_same
    return (said("signed-all-the-same", facts=facts, why=why), *handed)


def _remarks(
    machine: MachineSetup, set_back: bool, left: tuple[LeftAlone, ...]
) -> tuple[Said, ...]:
    alone = (
        said("was-left-alone", axis=machine.axis(each.axis).say, why=each.why) for each in left
    )
    return (*((SET_BACK,) if set_back else ()), *alone)
