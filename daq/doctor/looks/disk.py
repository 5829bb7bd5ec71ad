"""The disks of record and files: room, whether they can be written to, whether they last."""

from collections.abc import Iterator
from pathlib import Path
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.ledger.errors import LedgerError
from daq.ledger.growth import SOON_DAYS, days_left
from daq.ledger.medium import MOUNTS, require_lasting
from daq.ledger.room import room
from daq.ledger.view import LedgerView
from daq.words import Figure, said

ABOUT: Final = "disk"
LITTLE_BYTES: Final = 500_000_000
"""Less free than that is soon gone on a system that logs and is brought up to date."""


def disk(patient: Patient) -> Iterator[Diagnosis]:
    """The disk under each of both folders, once; then what the file systems say of themselves."""
    there = [each for each in (patient.data, patient.config) if each.exists()]
    for folder in {each.stat().st_dev: each for each in reversed(there)}.values():
        yield _of(folder, patient)
    for folder in sorted(patient.at("/sys/fs/ext4").glob("*")):
        errors = patient.number(f"/sys/fs/ext4/{folder.name}/errors_count")
        if errors:
            found = said("doctor-disk-errors", disk=folder.name, errors=errors)
            yield look_here(ABOUT, found, said("doctor-check-disk"))


def _of(folder: Path, patient: Patient) -> Diagnosis:
    left = room(folder)
    free = said("doctor-room", folder=str(folder), gb=Figure(left.free_bytes / 1e9, 1))
    if left.say is not None:
        return look_here(ABOUT, left.say, said("doctor-make-room"))
    try:
        require_lasting(folder, patient.at(MOUNTS))
    except LedgerError as error:
        return look_here(ABOUT, error.said, said("doctor-keep-on-disk", folder=str(folder)))
    days = _days(folder, left.free_bytes, patient)
    if days is not None and days < SOON_DAYS:
        return look_here(ABOUT, said("room-lasts", free=free, days=days), said("doctor-make-room"))
    if left.free_bytes < LITTLE_BYTES:
        return look_here(ABOUT, free, said("doctor-make-room"))
    return fine(ABOUT, free if days is None else said("room-lasts", free=free, days=days))


def _days(folder: Path, free_bytes: int, patient: Patient) -> int | None:
    try:
        with LedgerView.open(folder) as view:
            return days_left(view, free_bytes, patient.clock.stamp())
    except LedgerError:
        return None


LOOK = disk
