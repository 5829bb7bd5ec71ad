"""What may be begun on a machine without an open audit."""

from collections.abc import Sequence
from typing import get_args

from daq.audit import addendum, amended
from daq.audit.reasons import Reason
from daq.audit.rounds import Offer
from daq.audit.state import MachineState
from daq.audit.views.not_safe import not_safe
from daq.audit.views.step import Action
from daq.words import Said, said


def idle(state: MachineState, offers: Sequence[Offer]) -> list[Action]:
    """The buttons: squaring by its reasons, the other checks, or what is to be put right first."""
    if state.unsafe is not None:
        # Never on a pedal or Enter: whoever presses it has looked.
        left = not_safe(state.unsafe)
        sure = said("and-then", first=left.todo, next=said("all-done"))
        return [Action("made-safe", left.done, confirm=sure)]
    usual, why = "scheduled", said("choose-why") if offers else None
    reasons = [
        Action("open", said("reason", reason=key), {"reason": key}, key == usual, under=why)
        for key in sorted(get_args(Reason), key=lambda key: key != usual)
    ]
    others = [
        Action(
            "open",
            said("open-check", check=each.name),
            {"reason": usual, "check": each.kind},
            under=said("choose-other"),
        )
        for each in offers
    ]
    last = state.last
    if last is None or last.signed is None:
        return reasons + others
    under = said("addendum-under") if offers else None
    after = (make.button(last, state.people, under) for make in (addendum, amended))
    return [*reasons, *others, *after]


def choose(offers: Sequence[Offer]) -> Said:
    """What there is to choose: why the head is checked, or first of all what is."""
    return said("choose-what") if offers else said("choose-why")
