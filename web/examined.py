"""What the doctor found, as the setup page and its API show it."""

from dataclasses import dataclass

from daq.doctor.rounds import Rounds
from daq.words import Said, said


@dataclass(frozen=True)
class FoundLine:
    """What one thing is called, whether it is `fine`, what was `found`, what `todo` about it."""

    about: Said
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
    lines = tuple(
        FoundLine(said("doctor-about", it=each.about), each.fine, each.found, each.todo)
        for each in doctor.latest.found
    )
    return Examination(doctor.latest.n, doctor.busy, lines)
