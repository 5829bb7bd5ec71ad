"""The gauge's own key: its press is the take, heard by the frame that it sends."""

from dataclasses import dataclass
from typing import Final

from daq.gauges.config import GaugeConfig
from daq.metrology.presses import GAP_S
from daq.service.switchboard import Press, Switchboard, primary
from daq.settings import quoted
from daq.words import Sample, said

KINDS: Final = ("take", "pushed")
"""The first buttons that a number answers. The others confirm what no gauge can see, and
turning an adjuster takes many presses to look at the number."""

_GAP_NS: Final = round(GAP_S * 1e9)


@dataclass(frozen=True)
class KeyOptions:
    """It has no keys of its own: how many presses make a reading is in the gauge's file."""


class Key:
    """Hands in a take at the first frame of a press; the decider waits for the rest of it."""

    turns = None  # it hears on the reader's thread

    def __init__(self, switchboard: Switchboard) -> None:
        """Listen from now on."""
        self._switchboard = switchboard
        self._last_ns = 0
        self._stopped = False
        presses = switchboard.gauge.talk.presses_a_reading or 1
        several = said("press-key-in-all", presses=presses)
        self._wait = several if presses > 1 else said("hold-still")
        switchboard.listen(self.hear)

    def hear(self, sample: Sample) -> None:
        """A frame came: it begins a press unless it follows close upon another."""
        begins = sample.mono_ns - self._last_ns >= _GAP_NS
        self._last_ns = sample.mono_ns
        if self._stopped or not begins:
            return
        seen = self._switchboard.look()
        action = primary(seen)
        if action is not None and action.kind in KINDS:
            # The frame itself belongs to the reading, so the take came just before it.
            given = Press(action.kind, action.payload, sample.mono_ns - 1, self._wait, second=True)
            self._switchboard.press(seen, given)

    def stop(self) -> None:
        """Hear no more."""
        self._stopped = True


class KeySource:
    """Found by its module's constant."""

    options = KeyOptions
    actor = "gauge key"

    def check(self, options: KeyOptions, gauge: GaugeConfig) -> None:
        """Refuse a gauge that sends without its key: each of its frames would be a take."""
        if gauge.talk.mode != "key":
            raise ValueError(
                f'found "key" for {quoted(gauge.name)}, whose file says '
                f'mode = "{gauge.talk.mode}"; '
                'allowed: with a gauge whose file says mode = "key"'
            )

    def start(self, options: KeyOptions, switchboard: Switchboard) -> Key:
        """Begin to listen."""
        return Key(switchboard)


SOURCE = KeySource()
