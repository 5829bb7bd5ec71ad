"""What screens say besides their machine's state: what became of a press, and what is amiss."""

import itertools
from collections.abc import Callable, Mapping
from typing import Any

from daq.words import Said

REFUSED_NS = 10_000_000_000
"""How long a refused press is said."""
TAKEN_NS = 1_500_000_000
"""How long it is said what was taken."""
_LASTS_NS = {"refused": REFUSED_NS, "taken": TAKEN_NS}


class Sayings:
    """The latest of each machine; any thread may say something or look."""

    def __init__(self, mono_ns: Callable[[], int]) -> None:
        """There is nothing to say yet."""
        self._mono_ns = mono_ns
        self._said: dict[str, tuple[Mapping[str, Any], int]] = {}
        self._numbers = itertools.count(1)
        self._amiss: dict[str, Mapping[str, Said]] = {}

    def say(self, machine: str, told: Mapping[str, Any]) -> None:
        """Say what became of a press, until it is dropped or something else is said."""
        self._said[machine] = {**told, "n": next(self._numbers)}, self._mono_ns()

    def drop(self, machine: str) -> bool:
        """Say no more of presses; whether something was said."""
        return self._said.pop(machine, None) is not None

    def said(self, machine: str) -> Mapping[str, Any] | None:
        """What is said of a press now; of one that is through for its time."""
        told, since_ns = self._said.get(machine, (None, 0))
        if told is None or told["outcome"] not in _LASTS_NS:
            return told
        left_ms = (_LASTS_NS[told["outcome"]] - (self._mono_ns() - since_ns)) // 1_000_000
        return {**told, "left_ms": left_ms} if left_ms > 0 else None

    def amiss(self, machine: str, code: str, why: Said | None) -> None:
        """Warn of something until `why` is None."""
        others = {each: say for each, say in self._amiss.get(machine, {}).items() if each != code}
        self._amiss[machine] = others if why is None else {**others, code: why}

    def warned(self, machine: str) -> tuple[Mapping[str, Any], ...]:
        """What it is warned of, as faults of a snapshot."""
        amiss = self._amiss.get(machine, {})
        return tuple({"code": code, "kind": "warning", "say": say} for code, say in amiss.items())
