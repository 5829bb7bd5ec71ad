"""Whether each gauge is heard: their ports belong to the service, so it is asked."""

from collections.abc import Iterator
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.words import said

ABOUT: Final = "gauges"


def gauges(patient: Patient) -> Iterator[Diagnosis]:
    """A line for each gauge that is read."""
    if patient.running is None:
        yield look_here(ABOUT, said("doctor-gauges-unknown"), said("doctor-ask-again"))
        return
    for key, heard in sorted(patient.running.gauges.items()):
        if heard.code == "ok":
            yield fine(ABOUT, said("doctor-gauge-heard", gauge=key))
            continue
        found = said("doctor-gauge-not-heard", gauge=key, code=heard.code)
        if heard.say:
            found = said("in-their-words", words=heard.say)
        yield look_here(ABOUT, found, said("doctor-mend-gauge", gauge=key))
    if not patient.running.gauges:
        yield look_here(ABOUT, said("doctor-no-gauge"), said("doctor-name-gauge"))


LOOK = gauges
