"""Whether what each gauge was learned from still decodes to the numbers that its face showed."""

from collections.abc import Iterator
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.gauges.capture import captures
from daq.settings import SettingsError
from daq.words import said

ABOUT: Final = "captures"


def learned_from(patient: Patient) -> Iterator[Diagnosis]:
    """A line for each gauge whose file has beside it what it was learned from."""
    for kept in captures(patient.config):
        from daq.gauges.learn.live.kept import again  # where none was learned, what learns is not

        try:
            found = again(kept)
        except SettingsError:
            continue  # its file: another look names what is wrong there
        except ValueError as error:
            broken = said("in-their-words", words=str(error))
            yield look_here(ABOUT, broken, said("doctor-no-capture", file=str(kept)))
            continue
        if found.same:
            yield fine(ABOUT, found.say)
        else:
            yield look_here(ABOUT, found.say, said("doctor-compare-face", gauge=kept.stem))


LOOK = learned_from
