"""A file tried on the gauge itself, as the service will read it."""

from collections.abc import Callable
from typing import Final

from daq.gauges.config import GaugeConfig
from daq.gauges.errors import LearnError
from daq.gauges.listen import OpenPort, rounds
from daq.gauges.wire import Wire
from daq.words import said

_SHORTEST_S: Final = 2.0
_INTERVALS: Final = 3.0
_FEWEST: Final = 2
_QUIET_TIMEOUTS: Final = 2.0
"""Before a gauge is asked at all, its line must have been quiet for so long."""
_BAD: Final = 0.05
_SPARE: Final = 1.5
_TIMES: Final = 3
"""So often it may be tried: a busy machine may have torn the frames of one time."""


def tried(
    config: GaugeConfig, port: OpenPort, now_ns: Callable[[], int], key_s: float, others: float
) -> tuple[int, int]:
    """Read the port by the file; return how many good and bad frames came.

    A gauge that sends on its key is given `key_s` seconds for one press. `others`: how many
    frames of others came to each of ours while it was learned.

    Raises:
        LearnError: too few good frames came, or too many bad ones, or some without a request.
        LinkError: the port has gone.
    """
    for left in reversed(range(1 if config.talk.mode == "key" else _TIMES)):
        wire, wanted = _read(config, port, now_ns, key_s)
        if wire.discarded:
            raise LearnError(said("learn-unasked", n=wire.discarded))
        if wire.good >= wanted and wire.bad <= 1 + (_BAD + _SPARE * others) * wire.good:
            break
        if not left:
            raise LearnError(said("learn-file-reads-badly", good=wire.good, bad=wire.bad))
    return wire.good, wire.bad


def _read(
    config: GaugeConfig, port: OpenPort, now_ns: Callable[[], int], key_s: float
) -> tuple[Wire, int]:
    """Return what came in one time, and how many good frames are to come at least."""
    talk = config.talk
    wanted, most_s = _FEWEST, max(_SHORTEST_S, _INTERVALS * (talk.interval or 0.0))
    if talk.mode == "asks":
        most_s += _QUIET_TIMEOUTS * talk.timeout_s
    elif talk.mode == "key":
        wanted, most_s = talk.presses_a_reading or 1, key_s
    wire = Wire()
    for hearing, _, _ in rounds(config, port, now_ns, most_s):
        wire = hearing.wire()
        if talk.mode == "key" and wire.good >= wanted:
            break
    return wire, wanted
