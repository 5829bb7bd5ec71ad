"""`headsweep power`: watches button and supply beside the service, and ends the Pi in good order.

It is a program of its own, as it alone needs the right to power off. The service is then ended
as at any other time, and closes its record within 5 s.
"""

import signal
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from daq.service.inputs import Inputs
from daq.service.keeper import SIGNALS
from daq.service.power import Power, PowerOptions
from daq.service.powers_off import FOLDER, leave_word
from daq.settings import build, read_toml
from daq.words import Said, said

OFF: Final = ("systemctl", "poweroff")
OFF_S: Final = 20.0
"""The manager takes the order at once; whoever waits longer for it waits for nothing."""


@dataclass(frozen=True)
class _OfShop:
    power: PowerOptions = field(default_factory=PowerOptions)


def options(file: Path) -> PowerOptions:
    """What the file says of it; what is wrong elsewhere in it keeps no Pi from being powered off.

    Raises:
        SettingsError: every problem of its `[power]`, or that it is no TOML.
    """
    own = {key: each for key, each in read_toml(file).items() if key == "power"}
    return build(_OfShop, own, str(file)).power


def run(config: Path, words: Callable[[Said], str]) -> int:
    """Watch until it is told to end; what happens is written down, for the journal.

    Raises:
        SettingsError: see `options`.
    """
    asked = options(config / "shop.toml")

    def say(what: Said) -> None:
        sys.stdout.write(f"{words(what)}\n")
        sys.stdout.flush()

    def tell(what: Said | None, off_ns: int | None) -> None:
        leave_word(FOLDER, off_ns)
        say(said("power-well") if what is None else what)

    if asked.wiring is None:
        say(said("power-nothing"))
        return 0
    _watch(Inputs(asked.wiring, Power(asked, lambda: _off(say), tell), "headsweep power"))
    return 0


def _off(say: Callable[[Said], None]) -> bool:
    """Order it; whether that came off."""
    try:
        subprocess.run(OFF, check=True, timeout=OFF_S)
    except (OSError, subprocess.SubprocessError) as error:
        say(said("off-failed", why=str(error)))
        return False
    return True


def _watch(inputs: Inputs) -> None:
    before = {number: signal.signal(number, lambda *_: inputs.end()) for number in SIGNALS}
    inputs.run()
    for number, handler in before.items():
        signal.signal(number, handler)
    inputs.close()
