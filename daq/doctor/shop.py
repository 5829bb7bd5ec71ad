"""The shop's files, as far as they can be read."""

from pathlib import Path

from daq.doctor.patient import Patient
from daq.gauges.config import GaugeConfig, read
from daq.service.files import ShopFiles, load
from daq.service.machine_file import EXAMPLE
from daq.settings import SettingsError
from daq.words import Said


def shop_files(patient: Patient) -> tuple[ShopFiles | None, tuple[Said, ...]]:
    """The files, and everything that is wrong with them."""
    try:
        return load(patient.config), ()
    except SettingsError as error:
        return None, error.problems


def gauges(patient: Patient) -> dict[str, GaugeConfig]:
    """The gauges whose ports matter: those some machine names; of broken files, all that read."""
    files, _ = shop_files(patient)
    if files is not None:
        return files.used_gauges
    found = {}
    for path in sorted((patient.config / "gauges").glob("*.toml")):
        if not path.name.startswith(EXAMPLE):
            try:
                found[path.stem] = read(path)
            except SettingsError:
                continue
    return found


def port_of(gauge: GaugeConfig, patient: Patient) -> Path | None:
    """Where the port of a gauge's file lies; None for one that is no path of this computer."""
    url = gauge.line.url(patient.data)
    if "://" in url:
        return None
    return patient.at(url) if gauge.line.port.startswith("/") else Path(url)
