"""The wiring of the service: which parts make it, and in which order they start and stop."""

import logging
import signal
import uuid
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from flask import Flask

from daq import __version__
from daq.audit.state import Shop
from daq.doctor.rounds import Rounds
from daq.gauges.config import GaugeConfig
from daq.gauges.reader import PortReader, Reader
from daq.gauges.ring import Ring
from daq.gauges.wire import openings
from daq.ledger.store import Ledger
from daq.report.of_view import reports
from daq.says import Language, language
from daq.service.alive import CutOff
from daq.service.behind import Behind
from daq.service.clock import SystemClock
from daq.service.collars import Collars
from daq.service.committed import NOBODY, Followers
from daq.service.decider import Decider
from daq.service.files import ShopFiles
from daq.service.gauge_bench import GaugeBench
from daq.service.hub import Hub
from daq.service.inbox import Inbox
from daq.service.keeper import SIGNALS, Keeper, Watched
from daq.service.listing import Listing
from daq.service.metrics import Metrics
from daq.service.no_record import NoRecord
from daq.service.on_record import OnRecord
from daq.service.outs import outs, ways
from daq.service.powers_off import PowersOff
from daq.service.read_anew import ReadAnew
from daq.service.rights.access import Access
from daq.service.sealing import begin
from daq.service.served import presses_of, served
from daq.service.set_up.shop_set_up import ShopSetUp
from daq.service.setup import Setup
from daq.service.shopfloor import Shopfloor
from daq.service.sources import Sources
from daq.service.trends import Trends
from daq.service.wired import wired
from daq.settings import SettingsError
from daq.words import GaugeStatus
from web.app import create_app
from web.ports import PracticePanel
from web.serve import serve

REACHED = (
    "others on the network reach port %d, by plain http: whoever listens there reads what "
    "screens send, PINs included; README says how a proxy brings https"
)

Say = Callable[[str], None]
"""Told the address of the pages once they are served."""

_log = logging.getLogger(__name__)


@dataclass(frozen=True)
class Service:
    """A running service, as the pages and the practice hands reach it."""

    files: ShopFiles
    hub: Hub
    inbox: Inbox
    setup: Setup
    trends: Trends
    on_record: OnRecord
    keeper: Keeper
    listing: Listing
    cut_off: CutOff | None
    anew: ReadAnew
    metrics: Metrics
    collars: Collars

    @property
    def again(self) -> bool:
        """Whether it is to be begun once more, not ended."""
        return self.anew.asked


@dataclass(frozen=True)
class WithoutRecord:
    """The pages of a shop whose data folder cannot be used."""

    files: ShopFiles
    hub: Hub
    inbox: NoRecord
    setup: Setup
    keeper: Keeper
    trends: None = None
    listing: None = None
    on_record: None = None
    cut_off: None = None
    anew: None = None
    metrics: None = None

    @property
    def again(self) -> bool:
        """Whether the record is to be tried once more."""
        return self.inbox.again


@contextmanager
def service(shop: ShopFiles, data: Path, also: Followers = NOBODY) -> Iterator[Service]:
    """Open the ledger, read the gauges and decide, for the length of the block; tell `also`, too.

    Raises:
        LedgerError: the data folder cannot be used; says which and why.
    """
    clock = SystemClock()
    ledger = Ledger.open(data, stamp=clock.stamp(), engine=__version__)
    with ExitStack() as opened:
        opened.callback(ledger.close)
        begun = begin(ledger)
        gauges, made = _gauges(shop, begun.shop), reports(shop.shop.language, __version__)
        hub = Hub(served(shop, begun.shop), clock.mono_ns)
        rings: dict[str, Ring] = {}
        readers: dict[str, Reader] = {}
        going = outs(shop, data, made, __version__, hub, readers, begun.shop, clock)
        behind = Behind(data, ledger, __version__, begun, shop.shop.record, clock, going)
        setup = Setup(shop, readers, begun.shop, data, clock, ways=lambda: ways(going))
        trends = Trends(shop.machines, begun.shop, clock, data)
        told = {"setup": setup.committed, "trends": trends.committed, **behind.followers, **also}
        collars, known = Collars(), behind.known
        floor = _floor(shop, gauges, rings, readers, collars)
        decider = wired(ledger, begun.shop, hub, clock, __version__, gauges, floor, told, *known)
        inbox = Inbox(decider, clock.mono_ns)
        readers |= _readers(gauges, data, hub, inbox, clock)
        rings |= {key: reader.ring for key, reader in readers.items()}
        opened.pop_all()
        keeper = Keeper(hub.hold, mono_ns=clock.mono_ns)
        opened.callback(keeper.stop)
        opened.enter_context(behind.working(lambda: inbox.failed))
        sources = Sources(shop.takes, hub, inbox, collars)
        opened.callback(sources.join)
        opened.callback(inbox.stop)
        inbox.start()
        _read(opened, readers)
        opened.callback(sources.stop)
        sources.start()
        _watch(keeper, hub, readers, behind.turns, decider, sources)
        opened.callback(keeper.end)
        beside = OnRecord(data), keeper, behind.listing, behind.alive.cut_off
        anew = ReadAnew(state := lambda: decider.shop)
        counted = (lambda: ledger.seq), state, (lambda: ways(going)), clock.mono_ns
        metrics = Metrics(__version__, hub, readers, *counted)
        yield Service(shop, hub, inbox, setup, trends, *beside, anew, metrics, collars)


def _read(opened: ExitStack, readers: Mapping[str, Reader]) -> None:
    """All begin to read; at the end every one is told before any is waited for."""
    for reader in readers.values():
        opened.callback(reader.stop)
        reader.start()
    for reader in readers.values():
        opened.callback(reader.end)


def _watch(
    keeper: Keeper,
    hub: Hub,
    readers: Mapping[str, Reader],
    behind: Mapping[str, Watched],
    decider: Decider,
    sources: Sources,
) -> None:
    """Every thread of the service, by the name it has, from now on."""
    watched: dict[str, Watched] = {"inbox": hub, **behind}
    watched |= {f"gauge-{key}": reader for key, reader in readers.items()}
    watched |= {**decider.followers, **sources.turns}
    for name, thread in watched.items():
        keeper.watch(name, thread)
    keeper.beside = PowersOff(hub).look
    keeper.start()


def _floor(
    shop: ShopFiles,
    gauges: Mapping[str, GaugeConfig],
    rings: Mapping[str, Ring],
    readers: Mapping[str, Reader],
    collars: Collars,
) -> Shopfloor:
    heard = presses_of(gauges), lambda: [reader.status for reader in readers.values()]
    return Shopfloor(shop.audit_setup, rings, *heard, shop.why_not, collars.since)


def _readers(
    gauges: Mapping[str, GaugeConfig], data: Path, hub: Hub, inbox: Inbox, clock: SystemClock
) -> dict[str, Reader]:
    token = uuid.uuid4().hex[:8]

    def tell(status: GaugeStatus) -> None:
        hub.on_status(status)  # the number goes at once, whatever the decider is doing
        inbox.on_status(status)

    lines = {key: (gauge.line, gauge.line.url(data)) for key, gauge in gauges.items()}
    ports = {line: PortReader(*line, now_ns=clock.mono_ns) for line in set(lines.values())}
    readers = {
        key: Reader(
            key,
            gauge,
            ports[lines[key]],
            on_sample=hub.on_sample,
            on_status=tell,
            new_run=openings(f"{token}-{key}"),
        )
        for key, gauge in gauges.items()
    }
    hub.wires = {key: partial(getattr, reader, "wire") for key, reader in readers.items()}
    return readers


def _gauges(shop: ShopFiles, state: Shop) -> dict[str, GaugeConfig]:
    """The gauges to read: those a machine names, and those bound to an audit left open."""
    jobs = [m.job for m in state.machines.values() if m.job is not None]
    bound = {gauge.key for job in jobs for gauge in job.setup.gauges}
    return {
        key: gauge for key, gauge in shop.gauges.items() if key in bound | set(shop.used_gauges)
    }


def spoken(shop: ShopFiles, config: Path) -> Language:
    """The language that the pages speak.

    Raises:
        SettingsError: there is none of that name; says which there are.
    """
    try:
        return language(shop.shop.language)
    except ValueError as error:
        raise SettingsError([f"{config / 'shop.toml'}: {error}"]) from None


def serve_pages(
    running: Service | WithoutRecord,
    says: Language,
    host: str,
    port: int,
    practice: PracticePanel | None,
    access: Access | None,
    say: Say,
    doctor: Rounds | None = None,
    set_up: ShopSetUp | None = None,
    bench: GaugeBench | None = None,
) -> int:
    """Serve the pages until SIGINT or SIGTERM; 1 if the service could not go on deciding."""
    server = serve(_pages(running, says, practice, access, doctor, set_up, bench), host, port)

    def stop(*_: object) -> None:
        running.inbox.end()
        server.close()

    for number in SIGNALS:
        signal.signal(number, stop)
    for name, thread in server.threads.items():
        running.keeper.watch(name, thread)
    running.inbox.when_failed = server.close
    if running.inbox.failed:
        server.close()
    if running.anew is not None:
        running.anew.when_asked = stop
    shown = "localhost" if host in ("0.0.0.0", "127.0.0.1", "::") else host
    if server.others_reach_it:
        _log.warning(REACHED, server.port)
    with running.keeper.heeding():
        say(address := f"http://{shown}:{server.port}/")
        running.keeper.ready(f"serves its pages at {address}")
        server.run()
    return 1 if running.inbox.failed or server.failed else 0


def _pages(
    running: Service | WithoutRecord,
    says: Language,
    practice: PracticePanel | None,
    access: Access | None,
    doctor: Rounds | None,
    set_up: ShopSetUp | None,
    bench: GaugeBench | None,
) -> Flask:
    shop = running.files.shop
    return create_app(
        running.hub, running.inbox, practice, setup=running.setup, trends=running.trends,
        on_record=running.on_record, listing=running.listing, shop=shop.name, hosts=shop.hosts,
        proxies=shop.proxies, wall_pedal=shop.wall_pedal, wall_far=shop.wall_scale, says=says,
        access=access, doctor=doctor, set_up=set_up, bench=bench,
        metrics=running.metrics if shop.metrics else None,
    )  # fmt: skip
