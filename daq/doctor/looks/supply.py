"""Whether the supply holds its voltage, where the computer measures that."""

from collections.abc import Iterator
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.words import said

ABOUT: Final = "supply"
FIRMWARE: Final = "*/*firmware/get_throttled"
"""Below /sys/devices/platform: what a Pi's firmware saw, as bits of a hexadecimal number."""

LOW_NOW: Final = 1 << 0
LOW_ONCE: Final = 1 << 16
"""Under-voltage now, and since the start (Raspberry Pi's documentation, from memory)."""

SENSOR: Final = "rpi_volt"
"""The kernel's own driver for the same sensor; its `in0_lcrit_alarm` tells of now."""


def supply(patient: Patient) -> Iterator[Diagnosis]:
    """Both sensors, or that there is none."""
    now = once = known = False
    root = patient.at("/sys/devices/platform")
    for file in root.glob(FIRMWARE):
        bits = int(file.read_text(encoding="ascii").strip(), 16)
        now, once, known = now or bool(bits & LOW_NOW), once or bool(bits & LOW_ONCE), True
    for folder in patient.at("/sys/class/hwmon").glob("hwmon*"):
        if patient.read(f"/sys/class/hwmon/{folder.name}/name") == SENSOR:
            alarm = patient.number(f"/sys/class/hwmon/{folder.name}/in0_lcrit_alarm")
            now, known = now or bool(alarm), True
    if not known:
        yield fine(ABOUT, said("doctor-supply-unknown"))
    elif now or once:
        found = said("doctor-supply-low") if now else said("doctor-supply-was-low")
        yield look_here(ABOUT, found, said("doctor-mend-supply"))
    else:
        yield fine(ABOUT, said("doctor-supply-well"))


LOOK = supply
