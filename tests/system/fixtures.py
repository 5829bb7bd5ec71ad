"""The rig: a shop, the daemon in it, and either a gauge the test sets or the virtual mill."""

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from daq.virtual import MillSpec, VirtualMill
from tests.system.client import Client
from tests.system.daemon import Daemon
from tests.system.person import Person
from tests.system.shop import Shop
from tests.system.ttygauge import TtyGauge

SPEED = 1000.0

__all__ = ["client", "daemon", "gauge", "mill", "person", "shop"]


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    return Shop(tmp_path)


@pytest.fixture
def gauge(shop: Shop) -> Iterator[TtyGauge]:
    with TtyGauge(shop.tty) as talking:
        yield talking


@pytest.fixture
def mill(shop: Shop) -> Iterator[VirtualMill]:
    """A quick mill in this process: it outlives the daemon."""
    made = VirtualMill(MillSpec(), tty_link=shop.tty, speed=SPEED, seed=1)
    made.start()
    yield made
    made.stop()


@pytest.fixture
def daemon(shop: Shop) -> Iterator[Daemon]:
    """Started; stopped at the end, which must come off cleanly and in time."""
    with closing(Daemon(shop).start()) as running:
        yield running


@pytest.fixture
def client(daemon: Daemon) -> Client:
    return daemon.client


@pytest.fixture
def person(gauge: TtyGauge, client: Client) -> Person:
    return Person(client, gauge)
