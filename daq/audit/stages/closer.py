"""The head is brought closer by scale or square: off the gauge's scale."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.folding import go
from daq.audit.input import Input, Nothing
from daq.audit.parts import Next
from daq.audit.stage import Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.views.by_kind import cracking, worked_on
from daq.audit.views.step import Action, Wording
from daq.words import Said, said


def closer(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The head was brought closer by scale or square, and everything is tight again."""
    given.payload(Nothing)
    return (e.BroughtCloser(Next("arm-back")),)


def _says(job: Job) -> Wording:
    off = tuple(
        said("closer-because", position=o.position, how=o.said) for o in job.sweeps.off_scale
    )
    return Wording(said("bring-closer"), said("bring-closer-how"), off)


def _cautions(job: Job) -> tuple[Said, ...]:
    return (*cracking(*worked_on(job)), said("tight-before-reading"))


def _closer(job: Job, data: e.BroughtCloser) -> Job:
    """The head was moved, and is tight: a sweep from now on is not as found."""
    return replace(
        go(job, data.next),
        loose=frozenset(),
        sweeps=job.sweeps.spoilt(loosened=True),
        gauge=replace(job.gauge, lifted=True),
        head=replace(job.head, story=()),
    )


STAGES = (
    Stage(
        "closer",
        shows=Shows(
            "square",
            _says,
            just([Action("closer", said("set-and-tight"), primary=True)]),
            cautions=_cautions,
        ),
        commands={"closer": Handler(closer)},
        took={e.BroughtCloser: Took(_closer)},
    ),
)
