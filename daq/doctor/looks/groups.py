"""Whether whoever runs the service may use its ports and pins, and which command lets them."""

import stat
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from daq.doctor import people
from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.doctor.shop import gauges, port_of
from daq.words import said

ABOUT: Final = "groups"
PINS: Final = "gpiochip*"
PORTS: Final = "dialout"
"""The group that Debian gives serial ports to, for while none is plugged in."""


def groups(patient: Patient) -> Iterator[Diagnosis]:
    """A line for each group that is missing."""
    who = people.worker(patient)
    if who is None:
        yield look_here(ABOUT, said("doctor-user-unknown"), said("doctor-look-again"))
        return
    name, number, member_of = who
    names = people.groups(patient)
    wanted = {group: device for device in _devices(patient) for group in _group(device, number)}
    by_name = {name: number for number, name in names.items()}
    if PORTS in by_name:
        wanted.setdefault(by_name[PORTS], Path("/dev/ttyUSB0"))
    lacking = sorted(wanted.keys() - member_of) if number else []
    for each in lacking:
        group = names.get(each, str(each))
        found = said("doctor-no-group", user=name, group=group, device=wanted[each].name)
        yield look_here(ABOUT, found, said("doctor-add-group", user=name, group=group))
    if not lacking:
        has = ", ".join(sorted(names.get(each, str(each)) for each in wanted)) or PORTS
        yield fine(ABOUT, said("doctor-groups", user=name, groups=has))


def _devices(patient: Patient) -> Iterator[Path]:
    """The ports that gauges' files name, and the pins' where some switch is on a pin."""
    for gauge in gauges(patient).values():
        port = port_of(gauge, patient)
        if port is not None:
            yield port
    if any(table.get("source") == "pins" for table in patient.files.shop.takes):
        yield from sorted(patient.at("/dev").glob(PINS))


def _group(device: Path, user: int) -> Iterator[int]:
    """The group that a user needs for a device; none where it is not there, the user's own, or
    anybody's."""
    try:
        found = device.stat()
    except OSError:
        return
    if found.st_uid != user and not found.st_mode & stat.S_IWOTH:
        yield found.st_gid


LOOK = groups
