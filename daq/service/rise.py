"""What every screen says after a run that was cut off: what happened, and what is not fine."""

import itertools
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from daq.words import Said, said

OFFERED_NS: Final = 600_000_000_000
"""A screen that comes later is not told: the Pi's own is there long before."""

SHOWN_MS: Final = 60_000
"""How long a screen says it."""

NAMED: Final = 2
"""So many things to look at are named where letters are large."""


@dataclass(frozen=True, slots=True)
class NotFine:
    """Something to be looked at: its name alone, a line of what was found, what to do."""

    about: Said
    found: Said
    todo: Said | None


class Rise:
    """What one start has to say; any thread may ask.

    A machine's screens say it until its step is another: then what that step shows has the room.
    """

    def __init__(
        self, wake: Callable[[], None], mono_ns: Callable[[], int] = time.monotonic_ns
    ) -> None:
        """There is nothing to say; `wake` is called when that changes."""
        self._wake = wake
        self._mono_ns = mono_ns
        self._numbers = itertools.count(1)
        self._said: Mapping[str, Any] | None = None
        self._until_ns = 0
        self._steps: dict[str, str] = {}

    def say(self, what: Said, amiss: Sequence[NotFine] | None) -> None:
        """Say `what` happened, and what is not fine; None while nobody has looked yet."""
        self._until_ns = self._until_ns or self._mono_ns() + OFFERED_NS
        new = {"say": _in_short(what, amiss), "amiss": tuple(amiss or ()), "left_ms": SHOWN_MS}
        if self._said is None or new != {key: self._said[key] for key in new}:
            self._said = {**new, "n": next(self._numbers)}
            self._wake()

    def away(self) -> None:
        """Somebody has read it; of what is found later nothing is said either."""
        self._said, self._until_ns = None, self._mono_ns()
        self._wake()

    def now(self, machine: str, pages: Mapping[str, Any]) -> Mapping[str, Any] | None:
        """What a machine's screens say besides these pages, None for nothing."""
        told = self._said
        if told is None or self._mono_ns() >= self._until_ns:
            return None
        step = getattr(pages.get("wall"), "step", "")
        return told if self._steps.setdefault(machine, step) == step else None


def _in_short(what: Said, amiss: Sequence[NotFine] | None) -> Said:
    """For the wall: in words that carry across a shop."""
    if amiss is None:
        return said("cut-off-looking", what=what)
    names: list[Said] = []
    for each in amiss:
        if each.about not in names:
            names.append(each.about)
    if not names:
        return said("cut-off-fine", what=what)
    more = len(names) - NAMED
    if more > 0:
        names[NAMED:] = [said("so-many-more", n=more)]
    return said("cut-off-look", what=what, at=tuple(names))
