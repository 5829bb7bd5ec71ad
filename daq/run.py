"""`headsweep run`: the service, or pages that say why there is no record, until told to stop."""

import logging
import signal
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from pathlib import Path

from daq.app import Say, Service, WithoutRecord, serve_pages, service, spoken
from daq.audit.history import day_of
from daq.audit.state import Shop
from daq.doctor.patient import Patient
from daq.doctor.rounds import Rounds
from daq.ledger.errors import FolderInUse
from daq.ledger.medium import require_lasting
from daq.says import Language, language
from daq.screens.no_record import in_full
from daq.service.clock import SystemClock
from daq.service.files import Amiss, ShopFiles, what_is_good
from daq.service.gauge_bench import GaugeBench
from daq.service.hub import Hub
from daq.service.keeper import SIGNALS, Keeper
from daq.service.no_record import NoRecord
from daq.service.not_ours import not_ours
from daq.service.rights.access import Access
from daq.service.served import served
from daq.service.set_up.shop_set_up import ShopSetUp
from daq.service.setup import Setup
from daq.settings import SettingsError
from daq.words import SaidTrouble

_log = logging.getLogger(__name__)


def run(
    config: Path, data: Path, host: str, port: int, say: Say, *, in_memory: bool = False
) -> int:
    """`headsweep run`: the service on real ports, until it is told to stop.

    Where the data folder cannot be used, or what it keeps of screens and people, the pages come up
    all the same and say why; once it looks otherwise it is tried again. So do they where a file of
    the shop has a mistake, or there is none yet; all of them are read anew once a page has asked
    for that. `in_memory`: it may lie where a power cut takes it away.

    Raises:
        FolderInUse: another headsweep serves it already; with pages up, a command has it, and ends.
    """

    def tell(address: str) -> None:
        nonlocal port  # the same one the next time: somebody looks on
        port = int(address.rstrip("/").rpartition(":")[2])
        say(address)

    up = False
    while True:
        shop, says = readable(config)
        with ExitStack() as opened:
            without = None
            try:
                if not in_memory:
                    require_lasting(data)
                running = opened.enter_context(service(shop, data))
                access: Access | None = Access(data, SystemClock())
            except SaidTrouble as error:  # the record's; or of those who may do something
                if isinstance(error, FolderInUse) and not up:
                    raise
                _log.error("%s", not_ours(error, data) or says.words(error.said))
                opened.close()
                without = opened.enter_context(without_record(shop, data, error))
                access = None  # nothing is carried out, so nobody needs a right to anything
            beside = (None, None) if without else _beside(config, shop, running, opened)
            serving = without or running
            rounds = _rounds(config, data, serving)
            opened.enter_context(rounds.working())
            with _signals_as_before():
                code = serve_pages(serving, says, host, port, None, access, tell, rounds, *beside)
            if not serving.again:
                return code
            up = True


@contextmanager
def _signals_as_before() -> Iterator[None]:
    """After the block nobody is there to be told of a signal."""
    before = {each: signal.getsignal(each) for each in SIGNALS}
    yield
    for each, handler in before.items():
        signal.signal(each, handler)


def today() -> str:
    """The date, UTC, ISO; of a clock that nobody set, whatever it says."""
    return day_of(SystemClock().stamp())


def readable(config: Path) -> tuple[ShopFiles, Language]:
    """The shop as far as its files are good, and its language; what is not good is logged.

    A language that there is no file of is a mistake of `shop.toml` like any other.
    """
    shop = what_is_good(config)
    try:
        says = spoken(shop, config)
    except SettingsError as error:
        says = language()
        amiss = Amiss(config / "shop.toml", error.problems)
        shop = replace(shop, amiss=(*shop.amiss, amiss), unsure=True)
    for each in shop.amiss:
        for line in each.problems:
            _log.error("%s", says.words(line))
    return shop, says


def _beside(
    config: Path, shop: ShopFiles, running: Service, opened: ExitStack
) -> tuple[ShopSetUp, GaugeBench]:
    """What sets the shop up from its pages, and where a gauge is checked, until all is closed."""
    setup = running.setup
    known = shop, setup.readers, lambda: setup.shop
    bench = GaugeBench(config, *known, running.inbox, SystemClock())
    set_up = ShopSetUp(config, shop, today, running.anew)
    opened.callback(set_up.learning.stop)
    return set_up, bench


def _rounds(config: Path, data: Path, running: Service | WithoutRecord) -> Rounds:
    """The doctor of this service; it says on the screens, too, how the run before it ended."""
    cut = running.cut_off
    say = None if cut is None else cut.say(SystemClock().stamp())
    rounds = Rounds(Patient(config, data), running.hub.health, running.hub.rise, say)
    running.keeper.watch("doctor", rounds.turns)
    return rounds


@contextmanager
def without_record(shop: ShopFiles, data: Path, error: SaidTrouble) -> Iterator[WithoutRecord]:
    """Say why there is no record, for the length of the block; nothing is carried out."""
    clock = SystemClock()
    hub = Hub(served(shop, Shop()), clock.mono_ns)
    setup = Setup(shop, {}, Shop(), data, clock, in_full(error.said))
    inbox = NoRecord(hub, data, error.said, passing=isinstance(error, FolderInUse))
    keeper = Keeper(hub.hold, mono_ns=clock.mono_ns)
    keeper.watch("no-record", hub)
    inbox.start()
    keeper.start()
    try:
        yield WithoutRecord(shop, hub, inbox, setup, keeper)
    finally:
        keeper.end()
        inbox.stop()
        keeper.stop()
