"""The gauges of the shop's files, as far as these can be used, and where their ports lie."""

from pathlib import Path

from daq.doctor.patient import Patient
from daq.gauges.config import GaugeConfig
from daq.service.machine_file import EXAMPLE


def gauges(patient: Patient) -> dict[str, GaugeConfig]:
    """The gauges whose ports matter: those some machine names; beside a machine whose file does not
    tell, all there are."""
    files = patient.files
    if not files.broken:
        return files.used_gauges
    return {key: each for key, each in files.gauges.items() if not key.startswith(EXAMPLE)}


def port_of(gauge: GaugeConfig, patient: Patient) -> Path | None:
    """Where the port of a gauge's file lies; None for one that is no path of this computer."""
    url = gauge.line.url(patient.data)
    if "://" in url:
        return None
    return patient.at(url) if gauge.line.port.startswith("/") else Path(url)
