"""What the ports have in common that only bring bytes, and where their libraries are found."""

import importlib
import sys
from importlib.machinery import PathFinder
from importlib.util import module_from_spec
from types import ModuleType
from typing import TYPE_CHECKING, Final

from serial import SerialException
from serial.serialutil import SerialBase

if TYPE_CHECKING:
    from _typeshed import ReadableBuffer

DISTRIBUTION: Final = "/usr/lib/python3/dist-packages"
"""Where Debian's packages for Python lie; an environment of its own does not look there."""


class NotInstalledError(SerialException):
    """A port's library is missing; `package` is the distribution's that brings it."""

    def __init__(self, package: str) -> None:
        """Keep the package's name."""
        self.package = package
        super().__init__(package)


def library(name: str, package: str) -> ModuleType:
    """Return a library that few shops need: from this environment, else from the distribution.

    Not every library has a wheel for a Pi; the distribution's is built for its own Python, which
    a service installed there runs with.

    Raises:
        NotInstalledError: neither has it.
    """
    try:
        return importlib.import_module(name)
    except ImportError:
        spec = PathFinder.find_spec(name, [DISTRIBUTION])
    if spec is None or spec.loader is None:
        raise NotInstalledError(package)
    module = sys.modules[name] = module_from_spec(spec)
    try:
        spec.loader.exec_module(module)
    except ImportError:  # it is built for another Python
        del sys.modules[name]
        raise NotInstalledError(package) from None
    return module


class Incoming(SerialBase):
    """A port that only brings bytes.  The line's settings are taken, and mean nothing."""

    def open(self) -> None:
        """Open it.

        Raises:
            OSError: it is not there, or may not be opened.
            NotInstalledError: its library is missing.
        """
        self._came = bytearray()
        self.start(str(self.port))
        self.is_open = True

    def start(self, url: str) -> None:
        """Open what `url` names; each port its own way."""
        raise NotImplementedError

    def brought(self, wait_s: float) -> bytes:
        """Return what has come, waiting so long for the first.  Raises OSError: it has gone."""
        raise NotImplementedError

    @property
    def in_waiting(self) -> int:
        """How many bytes have come."""
        self._came += self.brought(0.0)
        return len(self._came)

    def read(self, size: int = 1) -> bytes:
        """Return up to `size` bytes, waiting for the first for as long as `timeout`."""
        if not self._came:
            self._came += self.brought(self.timeout or 0.0)
        taken = bytes(self._came[:size])
        del self._came[:size]
        return taken

    def write(self, data: "ReadableBuffer", /) -> int:
        """Take bytes that nobody hears."""
        return memoryview(data).nbytes

    def _reconfigure_port(self, force_update: bool = False) -> None:
        """Take settings that mean nothing here."""

    _update_dtr_state = _update_rts_state = _reconfigure_port
