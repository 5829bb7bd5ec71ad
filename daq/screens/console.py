"""The console's view: the wall's, with the buttons of the step and what hands do first."""

from collections.abc import Sequence
from dataclasses import fields

from daq.audit.facts import unsafe
from daq.audit.rounds import Offer
from daq.audit.stages import STAGES
from daq.audit.state import Job, MachineState
from daq.audit.views.shapes import Console, Wall
from daq.audit.views.step import Action, Field, Hands
from daq.screens.idle import idle
from daq.screens.keys import keyed
from daq.screens.not_safe import not_safe
from daq.screens.numbers import numbers
from daq.screens.wall import wall
from daq.words import said


def console(state: MachineState, name: str, offers: Sequence[Offer] = ()) -> Console:
    """Everything the wall shows, the actions of this step and the audit they belong to.

    `offers`: the checks besides squaring that the machine's file offers today.
    """
    job = state.job
    shown = job or state.last
    drawn = wall(state, name)
    actions = (
        idle(state, offers)
        if job is None
        else [*STAGES[job.step].shows.buttons(job), *_always(job)]
    )
    return Console(
        **{each.name: getattr(drawn, each.name) for each in fields(Wall)},
        actions=keyed(actions),
        do=Hands("nothing") if job is None else STAGES[job.step].shows.hands(job),
        numbers=None if job is None else numbers(job),
        audit=shown.id if shown else None,
        short=shown.short if shown else "",
    )


def _always(job: Job) -> list[Action]:
    actions = []
    if job.noticed and job.zero_asked is None:
        jumped = job.is_told("number-jumped")
        actions.append(Action("not-zeroed", said("not-bumped") if jumped else said("not-zeroed")))
    if job.trail:
        actions.append(Action("undo", said("take-back"), key="u"))
    left = unsafe(job)
    sure = said("abandon-sure")
    if left is not None:
        sure = said("and-then", first=sure, next=not_safe(left).todo)
    why = (Field("why", said("why")),)
    actions.append(Action("abandon", said("abandon"), fields=why, confirm=sure))
    return actions
