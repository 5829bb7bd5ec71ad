"""The keys that press a step's buttons."""

from collections.abc import Iterable
from dataclasses import replace

from daq.audit.views.step import Action


def keyed(actions: Iterable[Action]) -> tuple[Action, ...]:
    """Enter for the primary action, u for taking back, digits for the others in order."""
    digit, found = 0, []
    for each in actions:
        key = each.key
        if each.primary:
            key = "Enter"
        elif not key:
            digit += 1
            key = str(digit) if digit < 10 else ""
        found.append(replace(each, key=key))
    return tuple(found)
