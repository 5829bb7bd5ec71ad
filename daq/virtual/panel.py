"""The practice mill as the practice page works it."""

from collections.abc import Mapping
from typing import Any

from daq.virtual.mill import VirtualMill

PRACTICE_MACHINE = "practice-mill"


class Panel:
    """The practice mill as the practice page reaches it."""

    def __init__(self, mill: VirtualMill) -> None:
        """Show and work this mill."""
        self._mill = mill

    def state(self, machine: str) -> Mapping[str, Any]:
        """How the mill stands; KeyError for a machine that is no practice mill."""
        if machine != PRACTICE_MACHINE:
            raise KeyError(machine)
        return self._mill.state()

    def do(self, machine: str, verb: str, args: Mapping[str, Any]) -> None:
        """One operation; ValueError in plain words when it cannot be done now."""
        if machine != PRACTICE_MACHINE:
            raise KeyError(machine)
        self._mill.do(verb, args)
