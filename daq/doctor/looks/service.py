"""Whether the service runs, all of it goes round, and what is pressed is recorded."""

from collections.abc import Iterator
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import AtWork, Patient
from daq.doctor.processes import process, recorder
from daq.words import said

ABOUT: Final = "service"


def service(patient: Patient) -> Iterator[Diagnosis]:
    """The process that has the record, and what it says of itself."""
    one, running = recorder(patient), patient.running
    if running is not None:
        wrong = tuple(_wrong(running))
        yield from wrong or (fine(ABOUT, said("doctor-service-runs")),)
    elif one is None:
        yield look_here(ABOUT, said("doctor-service-not-running"), said("doctor-start-service"))
    else:
        silent = said("doctor-service-silent", pid=str(one.pid), name=one.name)
        asker = process(patient, "self")
        as_root = asker is not None and asker.user == 0
        todo = said("doctor-restart-service") if as_root else said("doctor-ask-as-root")
        yield look_here(ABOUT, silent, todo)


def _wrong(running: AtWork) -> Iterator[Diagnosis]:
    restart = said("doctor-restart-service")
    if running.held:
        held = ", ".join(running.held)
        yield look_here(ABOUT, said("doctor-thread-still", threads=held), restart)
    if running.dropped:
        dropped = ", ".join(running.dropped)
        yield look_here(ABOUT, said("doctor-thread-dropped", threads=dropped), restart)
    for machine, say in running.unrecorded.items():
        found = said("doctor-not-recorded", machine=machine, say=say)
        yield look_here(ABOUT, found, said("doctor-see-record"))


LOOK = service
