"""The one clock. Everything that asks the time is handed this."""

import ctypes
import time
from pathlib import Path
from typing import Protocol

from daq.words import Stamp

_UNSYNCHRONISED = 5


class Clock(Protocol):
    """What the service asks of a clock."""

    def mono_ns(self) -> int:
        """Nanoseconds that only ever grow, since some start."""

    def stamp(self) -> Stamp:
        """Now, for the ledger."""


class SystemClock:
    """The machine's own clock; `boot` tells one monotonic count from the next."""

    def __init__(self, boot_file: Path = Path("/proc/sys/kernel/random/boot_id")) -> None:
        """Read the boot's identity once."""
        self.boot = boot_file.read_text(encoding="ascii").strip()
        self._libc = ctypes.CDLL(None, use_errno=True)

    def mono_ns(self) -> int:
        """Monotonic nanoseconds since the machine started."""
        return time.monotonic_ns()

    def stamp(self) -> Stamp:
        """Monotonic time, UTC in whole microseconds, and whether a time server set it."""
        return Stamp(
            mono_ns=time.monotonic_ns(),
            utc_us=time.time_ns() // 1000,
            boot=self.boot,
            utc_trusted=self._synchronised(),
        )

    def _synchronised(self) -> bool:
        """The kernel says so (adjtimex): a Pi without a clock starts in the past."""
        modes_zero = ctypes.create_string_buffer(512)
        state: int = self._libc.adjtimex(modes_zero)
        return 0 <= state < _UNSYNCHRONISED
