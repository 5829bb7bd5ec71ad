"""What a signature says beside its verdict: at the signing, and once it is signed."""

from daq.audit.events import Signed
from daq.audit.reasons import REASONS, Reason
from daq.audit.rounds import Chosen
from daq.audit.state import Closed, Job
from daq.words import Said, said

SET_BACK = said("was-set-back")


def opened_for(check: Chosen | None, reason: Reason, *, squared: bool) -> Said:
    """Why an audit was opened, and for what; `squared`: the head was, where only a check was."""
    if squared and not REASONS[reason].squares:
        return said("checked-and-squared")
    why = said("reason", reason=reason)
    return why if check is None else said("reason-of", check=check.name, reason=why)


def remarks(job: Job) -> tuple[Said, ...]:
    """Those of an open audit, as it would be signed now."""
    return (SET_BACK,) if job.sweeps.set_back else ()


def closed_remarks(closed: Closed, signed: Signed) -> tuple[Said, ...]:
    """Those of a signed audit."""
    return (SET_BACK,) if signed.set_back else ()
