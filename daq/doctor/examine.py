"""All the looks at a place, each with an end."""

import threading
import time
from subprocess import TimeoutExpired
from typing import Final

from daq.doctor.diagnosis import Diagnosis, look_here
from daq.doctor.looks import LookAt, looks
from daq.doctor.patient import Patient
from daq.words import Said, said

WITHIN_S: Final = 20.0
"""So long all the looks have together, on a computer that has just started, too; a disk that
answers no more would hold one up for ever."""


def examine(patient: Patient, within_s: float = WITHIN_S) -> tuple[Diagnosis, ...]:
    """What all the looks find: what somebody is to look at first, then what is fine.

    A look that breaks off, or is not back in time, is something to look at.
    """
    found: dict[str, tuple[Diagnosis, ...]] = {}

    def work(name: str, look: LookAt) -> None:
        found[name] = _looked(name, look, patient)

    # Threads of their own: nothing else gets back from a look that a dead disk holds.
    threads = {
        name: threading.Thread(target=work, args=(name, look), name=f"look-{name}", daemon=True)
        for name, look in looks().items()
    }
    for thread in threads.values():
        thread.start()
    until = time.monotonic() + within_s
    for thread in threads.values():
        thread.join(max(0.0, until - time.monotonic()))
    late = said("doctor-no-end", seconds=round(within_s))
    every = [each for name in threads for each in found.get(name, (_again(name, late),))]
    return tuple(sorted(every, key=lambda each: each.fine))


def _looked(name: str, look: LookAt, patient: Patient) -> tuple[Diagnosis, ...]:
    try:
        return tuple(look(patient))
    except PermissionError as error:
        closed = said("doctor-not-allowed", file=str(error.filename))
        return (look_here(name, closed, said("doctor-ask-as-root")),)
    except TimeoutExpired as error:
        return (_again(name, said("doctor-no-end", seconds=round(error.timeout))),)
    except Exception as error:  # whatever it is, the others go on
        return (_again(name, said("doctor-broke-off", error=f"{type(error).__name__}: {error}")),)


def _again(name: str, found: Said) -> Diagnosis:
    return look_here(name, found, said("doctor-look-again"))
