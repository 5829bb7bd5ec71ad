"""What a signature says beside its verdict: at the signing, and once it is signed."""

from daq.audit.events import Signed
from daq.audit.state import Closed, Job
from daq.words import Said, said

SET_BACK = said("was-set-back")


def remarks(job: Job) -> tuple[Said, ...]:
    """Those of an open audit, as it would be signed now."""
    return (SET_BACK,) if job.sweeps.set_back else ()


def closed_remarks(closed: Closed, signed: Signed) -> tuple[Said, ...]:
    """Those of a signed audit."""
    return (SET_BACK,) if signed.set_back else ()
