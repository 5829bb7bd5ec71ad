"""The shop's files: everything that is wrong with them."""

from collections.abc import Iterator
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.doctor.shop import shop_files
from daq.words import said

ABOUT: Final = "config"


def config(patient: Patient) -> Iterator[Diagnosis]:
    """A line for each problem."""
    if not patient.config.is_dir():
        missing = said("doctor-no-folder", folder=str(patient.config))
        yield look_here(ABOUT, missing, said("doctor-name-config"))
        return
    files, problems = shop_files(patient)
    if files is not None:
        machines, gauges = len(files.machines), len(files.used_gauges)
        where = str(patient.config)
        yield fine(ABOUT, said("doctor-files", folder=where, machines=machines, gauges=gauges))
    for problem in problems:
        yield look_here(ABOUT, problem, said("doctor-mend-file"))


LOOK = config
