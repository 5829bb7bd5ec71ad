"""Who starts the service anew if it hangs, and the computer if all of it does."""

from collections.abc import Iterator
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.doctor.processes import recorder
from daq.words import said

ABOUT: Final = "watchdog"
UNIT: Final = "headsweep.service"
NONE: Final = ("", "0", "infinity")


def watchdog(patient: Patient) -> Iterator[Diagnosis]:
    """The service manager's over the service, while that runs; the computer's own."""
    told = patient.ask(("systemctl", "show", "--property=ActiveState,WatchdogUSec", UNIT)) or ""
    unit = dict(line.split("=", 1) for line in told.splitlines() if "=" in line)
    if unit.get("ActiveState") == "active":
        yield _of_service(unit.get("WatchdogUSec", ""), patient)
    yield _of_computer(patient)


def _of_service(within: str, patient: Patient) -> Diagnosis:
    if within in NONE:
        return look_here(ABOUT, said("doctor-unwatched"), said("doctor-install"))
    if _told_nobody(patient):
        return look_here(ABOUT, said("doctor-not-by-unit"), said("doctor-start-by-unit"))
    return fine(ABOUT, said("doctor-watched", within=within))


def _told_nobody(patient: Patient) -> bool:
    """Whether a service runs that no manager asked to be told; what cannot be read is trusted."""
    one = recorder(patient)
    given = one and patient.read(f"/proc/{one.pid}/environ")
    return bool(given) and not any(
        each.startswith("NOTIFY_SOCKET=") for each in (given or "").split("\0")
    )


def _of_computer(patient: Patient) -> Diagnosis:
    if not any(patient.at("/dev").glob("watchdog*")):
        return fine(ABOUT, said("doctor-no-hardware-watchdog"))
    told = patient.ask(("systemctl", "show", "--property=RuntimeWatchdogUSec")) or ""
    within = told.strip().partition("=")[2]
    if within in NONE:
        todo = said("doctor-set-hardware-watchdog")
        return look_here(ABOUT, said("doctor-hardware-watchdog-off"), todo)
    return fine(ABOUT, said("doctor-hardware-watchdog", within=within))


LOOK = watchdog
