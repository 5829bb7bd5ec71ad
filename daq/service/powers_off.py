"""That the Pi is about to power off, on every screen: `headsweep power` leaves word in a file."""

import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Final

from daq.service.hub import Hub
from daq.service.rights.store import write
from daq.words import Said, said

FOLDER: Final = Path("/run/headsweep-power")
"""The service manager makes it for `headsweep power`, and removes it once that is gone."""
NAME: Final = "off-at"
LATE_NS: Final = 60_000_000_000
"""So long after it was to power off it did not."""


def leave_word(folder: Path, off_ns: int | None) -> None:
    """Write down when the Pi powers off, on the kernel's monotonic clock; None: it does not."""
    with suppress(OSError):  # it powers off, whether anybody is told or not
        if off_ns is None:
            (folder / NAME).unlink(missing_ok=True)
        else:
            write(folder / NAME, str(off_ns), 0o644)


class PowersOff:
    """Tells the screens."""

    def __init__(self, hub: Hub, mono_ns: Callable[[], int] = time.monotonic_ns) -> None:
        """Nothing is told before the first look."""
        self._hub = hub
        self._mono_ns = mono_ns
        self._said: Said | None = None

    def look(self) -> None:
        """Look whether there is word, and for how many seconds the Pi still runs."""
        say = self._word()
        if say != self._said:
            self._said = say
            for machine in self._hub.machines():
                self._hub.amiss(machine.key, "powers-off", say)

    def _word(self) -> Said | None:
        try:
            left_ns = int((FOLDER / NAME).read_text(encoding="ascii")) - self._mono_ns()
        except (OSError, ValueError):
            return None
        if left_ns <= 0:
            return said("powers-off-now") if left_ns > -LATE_NS else None
        return said("powers-off-soon", seconds=-(-left_ns // 10**9))
