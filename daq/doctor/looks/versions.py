"""What is installed: headsweep, what it stands on, and the packages it needs."""

import platform
import re
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, requires, version
from typing import Final

import apsw

from daq import __version__
from daq.doctor.diagnosis import Diagnosis, fine, look_here
from daq.doctor.patient import Patient
from daq.ledger.errors import LedgerError
from daq.ledger.version import require_sqlite
from daq.words import said

ABOUT: Final = "versions"
RELEASE: Final = re.compile(r'^PRETTY_NAME="?(.*?)"?$', re.MULTILINE)
"""os-release(5)"""

NAME: Final = re.compile(r"[\w.-]+")


def versions(patient: Patient) -> Iterator[Diagnosis]:
    """What it runs on; then the packages, or those that are not there."""
    system = RELEASE.search(patient.read("/etc/os-release") or "")
    found = said(
        "doctor-versions",
        headsweep=__version__,
        python=platform.python_version(),
        sqlite=apsw.sqlite_lib_version(),
        kernel=patient.read("/proc/sys/kernel/osrelease") or "?",
        system=system[1] if system else "?",
    )
    try:
        require_sqlite()
        yield fine(ABOUT, found)
    except LedgerError as error:
        yield look_here(ABOUT, error.said, said("doctor-install-anew"))
    there, missing = _packages()
    if missing:
        lacks = said("doctor-packages-missing", packages=", ".join(missing))
        yield look_here(ABOUT, lacks, said("doctor-install-anew"))
    else:
        yield fine(ABOUT, said("doctor-packages", packages=", ".join(there)))


def _packages() -> tuple[list[str], list[str]]:
    """The packages that headsweep cannot be without: with their versions, and those missing."""
    there, missing = [], []
    for line in requires("headsweep") or ():
        name = NAME.match(line)
        if name is None or "extra ==" in line:
            continue
        try:
            there.append(f"{name[0]} {version(name[0])}")
        except PackageNotFoundError:
            missing.append(name[0])
    return there, missing


LOOK = versions
