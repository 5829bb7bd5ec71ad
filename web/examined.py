"""What the doctor found, as the setup page and its API show it."""

from dataclasses import dataclass

from daq.doctor.diagnosis import Diagnosis
from daq.doctor.rounds import Rounds
from daq.words import Said, said


@dataclass(frozen=True)
class FoundLine:
    """Of one thing: whether it is `fine`, a line of what was `found`, what `todo` about it."""

    fine: bool
    found: Said
    todo: Said | None


@dataclass(frozen=True)
class Examination:
    """The latest, what is not fine first. `n`: the how many-th since the start, 0 for none yet;
    `busy`: another is under way."""

    n: int
    busy: bool
    lines: tuple[FoundLine, ...]


def examination(doctor: Rounds) -> Examination:
    """As it stands now; the first one is begun by whoever asks first."""
    if not doctor.latest.n:
        doctor.ask()
    latest = doctor.latest
    return Examination(latest.n, doctor.busy, tuple(_line(each) for each in latest.found))


def _line(each: Diagnosis) -> FoundLine:
    about = said("doctor-about", it=each.about)
    return FoundLine(each.fine, said("doctor-line", about=about, found=each.found), each.todo)
