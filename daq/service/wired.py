"""The parts that decide, write and tell, put together."""

from collections.abc import Mapping

from daq.audit.state import Shop
from daq.gauges.config import GaugeConfig
from daq.ledger.store import Ledger
from daq.service.attesting import Attests, Nobody
from daq.service.clock import Clock
from daq.service.committed import Publisher, Subscriber
from daq.service.decider import Decider
from daq.service.hub import SCREENS, Hub
from daq.service.letting_go import LettingGo
from daq.service.people import People
from daq.service.proof import Known, Proven
from daq.service.screens import Screens
from daq.service.shopfloor import Shopfloor
from daq.service.steps import ClockWatch
from daq.service.writer import Writer

_KNOWN, _NOBODY = Known(), Nobody()


def wired(
    ledger: Ledger,
    shop: Shop,
    hub: Hub,
    clock: Clock,
    engine: str,
    readable: Mapping[str, GaugeConfig],
    floor: Shopfloor,
    followers: Mapping[str, Subscriber],
    proof: Proven = _KNOWN,
    attests: Attests = _NOBODY,
    letting_go: LettingGo | None = None,
) -> Decider:
    """Return what decides, all machines shown; `shop` is what the ledger's events fold to.

    `engine`: the release. `readable`: the gauges that have a reader. `followers`: who is told
    of each commit besides the screens, by the name that the health report gives them.
    `proof`: what is known of the record. `attests`: what the shop's key signs.
    `letting_go`: what finds samples that are no longer kept.
    """
    people = People(ledger.people(), ledger.renamed())
    screens = Screens(hub, shop, ledger.head, clock, readable, proof, people)
    publisher = Publisher({SCREENS: screens.committed, **followers}, hub.drop)
    writer = Writer(ledger, hub.record, clock, proof, people, letting_go)
    last = ledger.event(ledger.seq)
    watch = ClockWatch(None if last is None else last.stamp)
    return Decider(shop, writer, publisher, screens, floor, clock, engine, proof, watch, attests)
