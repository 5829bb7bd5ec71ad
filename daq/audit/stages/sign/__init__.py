"""The verdict is signed.

`decide`: what is signed, by whom, and which sweeps count. What is shown stands here.
"""

from daq.audit.anytime import wish
from daq.audit.events import SweepDone
from daq.audit.facts import asks_for_past, word_of
from daq.audit.stage import Handler, Shows, Stage
from daq.audit.stages.sign import decide
from daq.audit.state import Job
from daq.audit.views.common import again
from daq.audit.views.step import Action, Choice, Field, Wording
from daq.words import Said, said


def _says(job: Job) -> Wording:
    return Wording(said("sign-audit"), said("recorded-already"))


def _buttons(job: Job) -> list[Action]:
    asked = [Field("done_by", said("done-by"))]
    if asks_for_past(job):
        asked.append(Field("last_good", said("last-good"), "date"))
        asked.append(Field("disposition", said("disposition")))
    if job.sweeps.loosened and len(job.sweeps.founds) > 1 and job.sweeps.as_found is not None:
        first = job.sweeps.as_found
        why = said("as-found-why", number=first.number)
        asked.append(_which("as_found", said("as-found-sweep"), job.sweeps.founds, first))
        asked.append(Field("as_found_why", why, required=False))
    if len(job.sweeps.proofs) > 1 and job.sweeps.as_left is not None:
        first = job.sweeps.as_left
        why = said("as-left-why", number=first.number)
        asked.append(_which("as_left", said("as-left-sweep"), job.sweeps.proofs, first))
        asked.append(Field("as_left_why", why, required=False))
    asked.append(Field("reviewed_by", said("reviewed-by"), required=False))
    asked.append(Field("note", said("note"), required=False))
    return [Action("sign", said("sign"), primary=True, fields=tuple(asked)), again(job)]


def _which(name: str, say: Said, sweeps: tuple[SweepDone, ...], first: SweepDone) -> Field:
    """Which sweep counts: the first is chosen unless another is."""
    ordered = sorted(sweeps, key=lambda sweep: sweep != first)
    choices = tuple(
        Choice(
            str(s.number),
            said("sweep-came-to", number=s.number, word=said("word", word=word_of(s))),
        )
        for s in ordered
    )
    return Field(name, say, "choice", False, choices, choices[0].key)


STAGES = (
    Stage(
        "sign",
        shows=Shows("sign", _says, _buttons),
        commands={"sign": Handler(decide.sign), "again": Handler(wish.again)},
    ),
)
