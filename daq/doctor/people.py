"""Users and groups of the system, as passwd(5) and group(5) keep them."""

from collections.abc import Iterator

from daq.doctor.patient import Patient
from daq.doctor.processes import process, recorder

SERVICE_USER = "headsweep"
"""Whom the installation has the service run as."""


def _rows(patient: Patient, file: str) -> Iterator[list[str]]:
    for line in (patient.read(file) or "").splitlines():
        fields = line.split(":")
        if len(fields) > 3 and fields[2].isdecimal():
            yield fields


def groups(patient: Patient) -> dict[int, str]:
    """Every group's name by its number."""
    return {int(fields[2]): fields[0] for fields in _rows(patient, "/etc/group")}


def worker(patient: Patient) -> tuple[str, int, frozenset[int]] | None:
    """Name, number and groups of the user for whom it matters.

    That is whoever runs the service; while none runs the installation's user, and where there is
    none such, whoever asks.
    """
    users = {int(fields[2]): fields[0] for fields in _rows(patient, "/etc/passwd")}
    at_work = recorder(patient)
    if at_work is None and SERVICE_USER in users.values():
        number = next(number for number, name in users.items() if name == SERVICE_USER)
        return SERVICE_USER, number, _member_of(patient, SERVICE_USER)
    one = at_work or process(patient, "self")
    return None if one is None else (users.get(one.user, str(one.user)), one.user, one.groups)


def _member_of(patient: Patient, name: str) -> frozenset[int]:
    first = (int(f[3]) for f in _rows(patient, "/etc/passwd") if f[0] == name and f[3].isdecimal())
    more = (int(f[2]) for f in _rows(patient, "/etc/group") if name in f[3].split(","))
    return frozenset([*first, *more])
