"""The shop's files: everything that is wrong with them."""

from collections.abc import Iterator
from typing import Final

from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.words import said

ABOUT: Final = "config"


def config(patient: Patient) -> Iterator[Diagnosis]:
    """A line for each mistake."""
    if not patient.config.is_dir():
        missing = said("doctor-no-folder", folder=str(patient.config))
        yield look_here(ABOUT, missing, said("doctor-name-config"))
        return
    files = patient.files
    if not any(each.is_file() for each in patient.config.rglob("*.toml")):
        empty = said("doctor-empty-shop", folder=str(patient.config))
        yield look_here(ABOUT, empty, said("doctor-set-up"))
        return
    for each in files.amiss:
        todo = said("doctor-mend-file") if each.path.is_file() else said("doctor-set-up")
        yield from (look_here(ABOUT, problem, todo) for problem in each.problems)
    if not files.amiss:
        machines, gauges = len(files.machines), len(files.used_gauges)
        where = str(patient.config)
        yield fine(ABOUT, said("doctor-files", folder=where, machines=machines, gauges=gauges))


LOOK = config
