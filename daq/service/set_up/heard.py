"""What comes from a port that no reader holds, for a moment, read as an example would.

One listens at a time. To open a port can wake what hangs on it; nothing is sent but what the
example asks with.
"""

import threading
import time
from collections.abc import Callable, Mapping
from contextlib import closing, suppress
from pathlib import Path
from typing import Final

from daq.gauges.config import GaugeConfig
from daq.gauges.errors import LinkError
from daq.gauges.identity import SERIAL_TREE, identity
from daq.gauges.link import Link
from daq.gauges.listen import rounds
from daq.gauges.ports_list import Port, ports
from daq.gauges.wire import Wire
from daq.words import SaidTrouble, Sample, said
from daq.words.set_up import HeardCard, PortCard

MOST_S: Final = 1.2
"""The longest that one is listened to: twelve times the interval of the examples."""

LEAST_S: Final = 0.25
"""So long at least, that a number on the page is not the first that came."""

_WAIT_S: Final = 0.1


class Ears:
    """Listens at free ports; any thread may ask, and one at a time is answered."""

    def __init__(
        self,
        used: Mapping[str, GaugeConfig],
        examples: Mapping[str, GaugeConfig],
        root: Path = SERIAL_TREE,
        now_ns: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        """`used`: the gauges whose readers hold their ports."""
        self._used = used
        self._examples = examples
        self._root = root
        self._now_ns = now_ns
        self._one = threading.Lock()
        self._kept = ""

    def ports(self) -> tuple[PortCard, ...]:
        """Every port that is plugged in."""
        return tuple(
            PortCard(_name(port), ", ".join(port.gauges), bool(port.own))
            for port in ports(self._used, self._root)
            if port.by_id or port.by_path or port.own
        )

    def listen(self, port: str, example: str) -> HeardCard:
        """What comes from a port within a moment.

        Raises:
            SaidTrouble: there is no such port or example, a reader holds the port, or somebody
                else listens.
        """
        config = self._examples.get(example)
        if config is None:
            raise SaidTrouble(said("set-up-no-example", example=example))
        self._free(port)
        if not self._one.acquire(timeout=LEAST_S):
            raise SaidTrouble(said("set-up-listening"))
        try:
            if port == self._kept:
                raise SaidTrouble(said("learn-under-way"))
            return self._heard(config, port, example)
        except LinkError as error:
            return HeardCard(example, "", "", 0, 0, 0, error.say)
        finally:
            self._one.release()

    def keep(self, port: str) -> None:
        """Have nobody listen at a port until `let_go`: it is for whoever learns what is there.

        Raises:
            SaidTrouble: there is no such port, a reader holds it, or somebody listens on and on.
        """
        self._free(port)
        if not self._one.acquire(timeout=2.0 * MOST_S):
            raise SaidTrouble(said("set-up-listening"))
        self._kept = port
        self._one.release()

    def let_go(self) -> None:
        """Anybody may listen at it again."""
        self._kept = ""

    def _free(self, port: str) -> None:
        found = next((each for each in self.ports() if each.port == port), None)
        if found is None:
            raise SaidTrouble(said("set-up-no-port", port=port))
        if found.gauge:
            raise SaidTrouble(said("set-up-port-held", port=port, gauge=found.gauge))

    def _heard(self, config: GaugeConfig, port: str, example: str) -> HeardCard:
        begun, last, wire = self._now_ns(), None, Wire()
        with closing(Link(config.line, port, _WAIT_S, identity(port))) as link:
            for hearing, _, samples in rounds(config, link, self._now_ns, MOST_S):
                last, wire = samples[-1] if samples else last, hearing.wire()
                if last is not None and self._now_ns() - begun >= LEAST_S * 1e9:
                    break
        counts = (wire.good, wire.bad, wire.came)
        if last is None:
            why = said("set-up-silent") if not wire.came else said("set-up-no-number", n=wire.came)
            return HeardCard(example, "", "", *counts, why)
        return HeardCard(example, last.text, last.unit, *counts, step=_step(last))


def _step(sample: Sample) -> str:
    """One step of the last digit of a number as sent; a gauge may count in larger ones."""
    digits = len(sample.text.replace(",", ".").partition(".")[2])
    return f"{10.0**-digits:.{digits}f} {sample.unit}"


def _name(port: Port) -> str:
    """The name to write: one under by-id, unless another adapter answers to the same one."""
    if port.by_id and port.by_path:
        with suppress(OSError):
            named = identity(port.name)
            node = Path(port.device).stat().st_rdev
            if named is not None and named.adapter(node).kin:
                return port.by_path[0]
    return port.name
