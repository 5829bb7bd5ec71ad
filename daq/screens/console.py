"""The console's view: the wall's, with the buttons of the step and what hands do first."""

from collections.abc import Sequence
from dataclasses import fields

from daq.audit import handover
from daq.audit.parts import RESTING
from daq.audit.rounds import Offer
from daq.audit.safe import maybe_unsafe
from daq.audit.stages import STAGES
from daq.audit.state import Job, MachineState
from daq.audit.views import decides
from daq.audit.views.not_safe import not_safe
from daq.audit.views.shapes import Console, WallView
from daq.audit.views.shims import no_shims
from daq.audit.views.step import Action, ByHand, Choice, Field
from daq.audit.views.why import why
from daq.screens.idle import idle
from daq.screens.keys import keyed
from daq.screens.numbers import numbers
from daq.screens.stands import stands
from daq.screens.wall import wall
from daq.words import said


def console(state: MachineState, name: str, offers: Sequence[Offer] = ()) -> Console:
    """Everything the wall shows, the actions of this step and the audit they belong to.

    `offers`: the checks besides squaring that the machine's file offers today.
    """
    job = state.job
    shown = job or state.last
    drawn = wall(state, name, offers)
    actions = (
        idle(state, offers)
        if job is None
        else [*STAGES[job.step].shows.buttons(job), *_always(job)]
    )
    shared = {each.name: getattr(drawn, each.name) for each in fields(WallView)}
    if job is not None and job.left_out is not None:
        # With its figure, which is nothing to be read from afar.
        shared["notes"] = (*drawn.notes, job.left_out)
    return Console(
        **shared,
        actions=keyed(actions),
        do=ByHand("nothing") if job is None else STAGES[job.step].shows.hands(job),
        numbers=None if job is None else numbers(job),
        audit=shown.id if shown else None,
        short=shown.short if shown else "",
        decides=() if job is None else (*no_shims(job), *decides.notes(job)),
        stands=stands(state),
        why=() if job is None or job.zero_asked is not None else why(job, job.stop),
    )


def _always(job: Job) -> list[Action]:
    actions = []
    if job.noticed and job.zero_asked is None:
        jumped = job.is_told("number-jumped")
        actions.append(Action("not-zeroed", said("not-bumped") if jumped else said("not-zeroed")))
    if job.trail:
        actions.append(Action("undo", said("take-back"), key="u"))
    return [*actions, *_ends(job)]


def _ends(job: Job) -> list[Action]:
    """Put aside for now, or given up: the machine is left safe, or under a tag."""
    why, left = Field("why", said("why")), maybe_unsafe(job)
    aside = Action("put-aside", said("put-aside"), fields=(why,), confirm=said("put-aside-sure"))
    sure, fields = said("abandon-sure"), [why]
    if left is not None:
        tag = not_safe(left)
        ways = Choice("safe", tag.done), Choice("as-is", said("left-as-is", tag=tag.title))
        fields.append(Field("left", said("how-left"), "choice", choices=ways))
        sure = said("and-then", first=sure, next=tag.todo)
    abandon = Action("abandon", said("abandon"), fields=tuple(fields), confirm=sure)
    ends = [abandon] if job.step in RESTING else [aside, abandon]
    return [handover.button(job), *ends]
