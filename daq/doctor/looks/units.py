"""Whether all comes up by itself after a power cut: the units that the installation put there."""

from collections.abc import Iterator
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.words import said

ABOUT: Final = "units"
SERVICE: Final = "headsweep.service"
ENDS: Final = ("headsweep-power.service", "headsweep-backup.service")
"""These end by themselves: where no button and no supply's signal is wired; once it is copied."""

UNITS: Final = (SERVICE, "headsweep-wall.service", "headsweep-backup.timer", *ENDS)
ASKED: Final = ("Id", "LoadState", "ActiveState", "UnitFileState", "NRestarts")


def units(patient: Patient) -> Iterator[Diagnosis]:
    """A line for each unit there is."""
    told = patient.ask(("systemctl", "show", f"--property={','.join(ASKED)}", *UNITS)) or ""
    blocks = [
        dict(line.split("=", 1) for line in block.splitlines() if "=" in line)
        for block in told.split("\n\n")
    ]
    there = {each["Id"]: each for each in blocks if each.get("LoadState") == "loaded"}
    if SERVICE not in there:
        yield look_here(ABOUT, said("doctor-not-installed"), said("doctor-install"))
    for unit, each in there.items():
        if unit not in ENDS or each.get("ActiveState") != "inactive":
            yield _of(unit, each)


def _of(unit: str, each: dict[str, str]) -> Diagnosis:
    state, enabled = each.get("ActiveState", ""), each.get("UnitFileState", "")
    again = each.get("NRestarts", "0")
    if state == "failed":
        log = said("doctor-read-log", unit=unit)
        return look_here(ABOUT, said("doctor-unit-failed", unit=unit), log)
    if enabled == "disabled":
        enable = said("doctor-enable-unit", unit=unit)
        return look_here(ABOUT, said("doctor-unit-disabled", unit=unit), enable)
    if state not in ("active", "activating", "reloading"):
        start = said("doctor-start-unit", unit=unit)
        return look_here(ABOUT, said("doctor-unit-idle", unit=unit), start)
    return fine(ABOUT, said("doctor-unit", unit=unit, again=int(again) if again.isdecimal() else 0))


LOOK = units
