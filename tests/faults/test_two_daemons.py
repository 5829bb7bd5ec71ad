"""Two of them, where only one can be."""

import pytest

from tests.system.client import faults
from tests.system.daemon import Daemon, run_in
from tests.system.shop import Shop


@pytest.fixture
def other(tmp_path, shop):
    """Another shop beside it, with the same gauge."""
    return Shop(tmp_path / "other", tty=shop.tty)


def test_a_second_daemon_on_the_data_folder_gives_up_in_words(daemon, shop, client):
    second = run_in(shop)
    assert (second.returncode, second.stdout) == (2, "")
    assert "another headsweep has this data folder open" in second.stderr
    assert str(shop.data) in second.stderr
    assert "Traceback" not in second.stderr
    assert client.ask("GET", "/healthz").status == 200


def test_a_second_daemon_on_the_port_gives_up_in_words(daemon, other, client):
    second = run_in(other, f"127.0.0.1:{client.port}")
    assert (second.returncode, second.stdout) == (2, "")
    assert f"cannot serve the screens on 127.0.0.1:{client.port}" in second.stderr
    assert "stop the program that uses it or choose another host or port" in second.stderr
    assert "Traceback" not in second.stderr
    assert client.ask("GET", "/healthz").status == 200


def test_a_second_daemon_on_the_gauge_says_so_and_takes_over_when_the_first_ends(
    gauge, daemon, client, other
):
    client.until_live(lambda live: live.fresh)
    second = Daemon(other).start()
    try:
        snapshot = second.client.until(faults)
        (fault,) = faults(snapshot)
        assert fault["code"] == "busy"
        assert "another program has its port open" in fault["say"]
        assert str(other.tty) not in fault["say"]
        assert client.live().fresh
        assert not second.client.live().fresh
        daemon.stop()
        second.client.until(lambda snapshot: not faults(snapshot))
        second.client.until_live(lambda live: live.fresh)
    finally:
        second.close()
