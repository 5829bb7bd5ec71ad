"""How worn a soldered card is, as it says itself; most cards that are plugged in do not."""

from collections.abc import Iterator
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.words import said

ABOUT: Final = "card"
TENTHS_LEFT: Final = 8
"""JESD84-B51, DEVICE_LIFE_TIME_EST (from memory): 1 for up to a tenth of its life used, 10 for all
but a tenth, 11 for more than all. From 8 on, it is time for another one."""

NORMAL: Final = 1
"""The same, PRE_EOL_INFO: 2 once 80 % of the spare blocks are used, 3 when it is urgent."""


def card(patient: Patient) -> Iterator[Diagnosis]:
    """Every card there is."""
    for folder in sorted(patient.at("/sys/block").glob("mmcblk[0-9]")):
        at = f"/sys/block/{folder.name}/device"
        worn = [int(each, 16) for each in (patient.read(f"{at}/life_time") or "").split()]
        spare = int(patient.read(f"{at}/pre_eol_info") or "0", 16)
        if not any(worn):
            yield fine(ABOUT, said("doctor-card-silent", card=folder.name))
            continue
        used = 10 * max(worn)
        found = said("doctor-card", card=folder.name, used=used)
        if max(worn) >= TENTHS_LEFT or spare > NORMAL:
            yield look_here(ABOUT, found, said("doctor-change-card"))
        else:
            yield fine(ABOUT, found)


LOOK = card
