"""A mistake in the program that nobody foresaw: better no service than one that looks alive."""

import sys
from contextlib import suppress

import pytest

from tests.system.daemon import Daemon

MISTAKEN = """
import sys
from daq.cli import main
from daq.service.decider import Decider

def decide(self, given, missed=False):
    raise RuntimeError("a mistake")

Decider._decide = decide
sys.exit(main())
"""


@pytest.fixture
def daemon(shop):
    running = Daemon(shop, program=(sys.executable, "-c", MISTAKEN)).start()
    yield running
    if running.alive:
        running.kill()


def test_the_process_ends_with_a_code_so_that_it_is_started_again(client, daemon):
    with suppress(ConnectionError):
        assert client.post("open", {"reason": "scheduled"}).status != 200
    assert daemon.ended() == 1
    assert "RuntimeError: a mistake" in daemon.stderr
    assert daemon.events() == []
