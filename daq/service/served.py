"""Which machines there are to be shown, by the shop's files and by what is on record."""

from collections.abc import Mapping
from typing import Final

from daq.audit.chosen import offers
from daq.audit.state import Shop
from daq.gauges.config import GaugeConfig
from daq.service.files import ShopFiles
from daq.service.hub import Served

STALE_MS: Final = 1000
"""How old a live number may be of a gauge that no file describes any more."""


def served(shop: ShopFiles, state: Shop) -> tuple[Served, ...]:
    """Every machine that has a file, good or not, and any other still open or not safe to run."""
    served = [
        Served(key, m.name, m.gauge, _stale_ms(shop.gauges[m.gauge]), offers(m), shop.why_not(key))
        for key, m in shop.machines.items()
    ]
    for key, machine in state.machines.items():
        left = machine.job or (machine.last if machine.unsafe is not None else None)
        if left is not None and key not in shop.machines:
            setup = left.setup
            why = shop.why_not(key)
            served.append(Served(key, setup.machine.name, setup.gauge.key, STALE_MS, amiss=why))
    known = {each.key for each in served}
    served += [
        Served(key, key, "", STALE_MS, amiss=shop.why_not(key))
        for key in shop.broken
        if key not in known
    ]
    return tuple(served)


def _stale_ms(gauge: GaugeConfig) -> int | None:
    return None if gauge.talk.stale_s is None else round(1000 * gauge.talk.stale_s)


def presses_of(gauges: Mapping[str, GaugeConfig]) -> dict[str, int]:
    """How many presses of its key make one reading, for each gauge that sends on its key."""
    presses = {key: gauge.talk.presses_a_reading for key, gauge in gauges.items()}
    return {key: count for key, count in presses.items() if count is not None}
