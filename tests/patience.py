"""Waiting for a thing to happen: how busy the machine is decides nothing."""

import time
from collections.abc import Callable
from typing import TypeVar

T = TypeVar("T")

PATIENCE_S = 60.0
"""Only a test that hangs ever waits so long."""

LOOK_AGAIN_S, LONGER, AT_MOST_S = 0.002, 1.5, 0.05
"""Soon at first, then less often: to ask a service all the time takes what it works with."""


def until(look: Callable[[], T], told: Callable[[], object] = str) -> T:
    """Look again and again until there is something to see, and return it.

    `told` says what there was instead, should it never come.
    """
    end = time.monotonic() + PATIENCE_S
    pause_s = LOOK_AGAIN_S
    while not (seen := look()):
        assert time.monotonic() < end, f"it never came about: {told()}"
        time.sleep(pause_s)
        pause_s = min(LONGER * pause_s, AT_MOST_S)
    return seen
