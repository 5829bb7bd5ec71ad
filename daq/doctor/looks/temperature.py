"""How warm the computer is: too warm, it runs slower, and at last not at all."""

from collections.abc import Iterator
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.words import said

ABOUT: Final = "temperature"
SLOWER: Final = 80
"""°C from which a Pi runs slower to cool down (its documentation, from memory)."""

NEAR: Final = 5
"""So many degrees below what the kernel itself calls too warm, it is said."""


def temperature(patient: Patient) -> Iterator[Diagnosis]:
    """The warmest of the places that have a thermometer."""
    warmest = None
    for zone in sorted(patient.at("/sys/class/thermal").glob("thermal_zone*")):
        milli = patient.number(f"/sys/class/thermal/{zone.name}/temp")
        if milli is None:
            continue
        trips = (patient.number(f"/sys/class/thermal/{zone.name}/{trip.name}")
                 for trip in zone.glob("trip_point_*_temp"))  # fmt: skip
        limits = [SLOWER, *(trip // 1000 - NEAR for trip in trips if trip is not None and trip > 0)]
        limit, now = min(limits), round(milli / 1000)
        if warmest is None or now - limit > warmest[0] - warmest[1]:
            warmest = now, limit
    if warmest is None:
        yield fine(ABOUT, said("doctor-no-thermometer"))
        return
    now, limit = warmest
    found = said("doctor-warm", degrees=now, limit=limit)
    if now >= limit:
        yield look_here(ABOUT, found, said("doctor-cool"))
    else:
        yield fine(ABOUT, found)


LOOK = temperature
