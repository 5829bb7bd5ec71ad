"""Which screens are open, and whether the wall beside the machine is."""

from collections.abc import Iterator
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.words import said

ABOUT: Final = "screens"
WALL: Final = "headsweep-wall.service"


def screens(patient: Patient) -> Iterator[Diagnosis]:
    """How many are open; nothing is to be said of them while no service runs."""
    running = patient.running
    if running is None:
        return
    found = said("doctor-screens", n=running.screens, most=running.most_screens)
    wall = (patient.ask(("systemctl", "is-active", WALL)) or "").strip() == "active"
    if running.screens >= running.most_screens:
        yield look_here(ABOUT, found, said("doctor-close-screens"))
    elif wall and not running.screens:
        yield look_here(ABOUT, said("doctor-wall-blank"), said("doctor-restart-wall", unit=WALL))
    else:
        yield fine(ABOUT, found)


LOOK = screens
