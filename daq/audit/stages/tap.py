"""What a check found askew is tapped in: one end, by hand, until the gauge reads what it is to."""

from dataclasses import dataclass, replace

from daq.audit import events as e
from daq.audit.facts import certain, shown_face, tap_of
from daq.audit.folding import leave
from daq.audit.input import Input
from daq.audit.parts import Next
from daq.audit.rounds import Tap
from daq.audit.stage import Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.tapping import TAPPED
from daq.audit.views import rounds
from daq.audit.views.afterwards import face
from daq.audit.views.common import STOP
from daq.audit.views.step import Action, Come, Wording
from daq.words import Said, said


@dataclass(frozen=True)
class Tapped(e.OfStage):
    """One end was tapped and all is tight again; or it was not, and it stays as it is."""

    done: bool
    next: Next


@dataclass(frozen=True)
class HowTapped:
    """The payload of `tapped`."""

    done: bool = True


def tapped(job: Job, given: Input) -> tuple[e.Data, ...]:
    """Tapped it is read again, all of it; left as it is it goes to the signature."""
    done = given.payload(HowTapped).done
    return (Tapped(done, Next("stations" if done else "clear")),)


def _tapped(job: Job, data: Tapped) -> Job:
    after = leave(job, data.next)
    why = TAPPED if data.done else ""
    return replace(after, reads=replace(after.reads, why=why))


def _tap(job: Job) -> Tap:
    return certain(tap_of(job))


def _says(job: Job) -> Wording:
    tap = _tap(job)
    title = said("tap-end", end=said("jaw-end", end=tap.end), by=shown_face(job, tap.by_mm))
    stop = shown_face(job, tap.stop_face_mm)
    how = said("tap-how", stop=stop)
    return Wording(title, said("and-then", first=tap.station.hands, next=how))


def _buttons(job: Job) -> list[Action]:
    again = Action("tapped", said("tapped-tight"), {"done": True}, primary=True)
    return [again, Action("tapped", said("leave-it"), {"done": False})]


def _hands(job: Job) -> Come:
    tap = _tap(job)
    there = rounds.there(tap.station)
    return replace(there, what="tap-end", to={**there.to, "reads": tap.stop_face_mm})


def _detail(job: Job, data: Tapped) -> tuple[Said, ...]:
    """How far, to which reading; or that it stays."""
    if not data.done:
        return (said("row-not-tapped"),)
    tap = _tap(job)
    stop = face(job, tap.stop_face_mm)
    return (
        said("row-tapped", end=said("jaw-end", end=tap.end), by=face(job, tap.by_mm), stop=stop),
    )


STAGES = (
    Stage(
        "tap",
        shows=Shows(
            "stations",
            _says,
            _buttons,
            hands=_hands,
            cautions=just((said("caution-tap"),)),
            halt=just((STOP, said("halt-tap"))),
        ),
        commands={"tapped": Handler(tapped)},
        took={Tapped: Took(_tapped, told=said("end-was-tapped"), detail=_detail)},
    ),
)
