"""What each step says while there is no number: whoever acts on one must stop.

The screens show it in place of the instruction, of the stop-at and of the way to it, as long
as nothing live comes, and by themselves: a page that has lost its line can ask nobody.
"""

from daq.audit.parts import Step
from daq.audit.state import Job

HALTS: dict[Step, tuple[str, str]] = {
    "touch-free": ("WAIT: no reading.", ""),
    "touch-push": ("WAIT: no reading.", ""),
    "as-found": ("WAIT: no reading.", "Turn nothing."),
    "park": ("WAIT: no reading.", "Turn nothing."),
    "loosen": ("STOP: no reading.", "Leave the bolts as they are."),
    "move": ("STOP turning: no reading.", "Hands off the adjuster."),
    "check": ("STOP: no reading.", "Turn nothing."),
    "tighten": ("STOP tightening: no reading.", "Leave the bolts as they are."),
    "final": ("WAIT: no reading.", "Turn nothing."),
}
"""Steps that look at no number go on without one."""

_ON = "It goes on by itself once there is a number."


def halt(job: Job) -> dict[str, str] | None:
    """What to do at this step while there is no number; None where it asks for none."""
    # Asked in the middle of a move, hands are on the adjuster still.
    step = "move" if job.step == "question" and job.stop is not None else job.step
    if step not in HALTS:
        return None
    say, hands = HALTS[step]
    if job.stop is not None and job.stop.shim is not None and step == "move":
        say, hands = "STOP: no reading.", "Leave the shim and the bolts as they are."
    return {"say": say, "detail": f"{hands} {_ON}".strip()}
