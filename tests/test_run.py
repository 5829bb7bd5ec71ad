"""`headsweep run` in this process: what it says at its start."""

import logging
import signal

import pytest

from daq.run import run
from tests.system.shop import Shop


@pytest.mark.parametrize(
    ("host", "said"),
    [("127.0.0.1", 0), ("localhost", 0), ("::1", 0), ("0.0.0.0", 1), ("::", 1)],
)
def test_a_service_that_others_reach_says_so_at_its_start(tmp_path, caplog, host, said):
    shop = Shop(tmp_path)
    addresses = []

    def tell(address):
        addresses.append(address)
        signal.raise_signal(signal.SIGTERM)

    before = {number: signal.getsignal(number) for number in (signal.SIGINT, signal.SIGTERM)}
    try:
        assert run(shop.config, shop.data, host, 0, tell, in_memory=True) == 0
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
    assert addresses
    lines = [r.getMessage() for r in caplog.records if r.levelno == logging.WARNING]
    told = [line for line in lines if "plain http" in line]
    assert len(told) == said
    for line in told:
        assert "\n" not in line
        assert "PINs included" in line
