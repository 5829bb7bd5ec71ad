"""The service and a real broker: from the gauge and the press to whoever listens."""

import signal
from contextlib import closing

import jsonschema
import pytest

from daq.service.messages.published import message_schema
from tests.patience import until
from tests.service.messages.broker import broker, listening
from tests.system.daemon import Daemon
from tests.system.person import Person


@pytest.fixture
def listener(tmp_path, shop):
    """Of a broker that the shop names."""
    with broker(tmp_path / "broker") as running, listening(running.port, "shop") as found:
        table = f'\n[mqtt]\nhost = "127.0.0.1"\nport = {running.port}\nlive_hz = 5\n'
        with (shop.config / "shop.toml").open("a", encoding="utf-8") as file:
            file.write(table)
        found.broker = running
        yield found


def test_what_the_gauge_shows_and_what_is_taken_arrives_until_the_service_is_killed(
    listener, shop, gauge
):
    daemon = Daemon(shop).start()
    try:
        person = Person(daemon.client, gauge)
        gauge.move_to(1.25)
        until(lambda: any(each["value_mm"] == 1.25 for each in listener.of("live")))
        person.start()
        until(lambda: listener.of("take"))
        listener.broker.signal(signal.SIGSTOP)  # whoever presses does not notice
        person.take("front", 1.0)
        assert [e.type for e in daemon.events()][-1] == "ReadingTaken"
        assert not [e for e in listener.of("take") if e["event"] == "ReadingTaken"]
        listener.broker.signal(signal.SIGCONT)
        until(lambda: [e for e in listener.of("take") if e["event"] == "ReadingTaken"])
        gauge.unplug()
        until(lambda: listener.of("fault"))
        until(lambda: not listener.of("live")[-1]["fresh"])
        rows = {e.seq: e for e in daemon.events()}
        health = daemon.client.ask("GET", "/healthz").body
        assert health["deliveries"]["broker"]["to"] == f"127.0.0.1:{listener.broker.port}"
    finally:
        daemon.end(signal.SIGKILL)
    until(lambda: listener.of("status")[-1]["status"] == "offline")
    with listening(listener.broker.port, "late") as late:  # what is retained, and nothing else is
        until(lambda: late.got)
        assert [(m["kind"], m["status"], kept) for _, m, kept in late.got] == [
            ("status", "offline", True)
        ]
    for _, message, _ in listener.got:
        jsonschema.validate(message, message_schema())
    taken, faults = listener.of("take"), listener.of("fault")
    assert [e["event"] for e in taken] == ["FreeRead", "ReadingTaken"]
    for message in (*taken, *faults):
        assert rows[message["seq"]].type == message["event"]
    assert listener.of("live")[-1]["value_mm"] is None


def test_what_was_taken_while_no_broker_was_there_arrives_after_a_power_cut(listener, shop, gauge):
    daemon = Daemon(shop).start()
    try:
        until(lambda: listener.of("status"))
        listener.broker.kill()
        person = Person(daemon.client, gauge)
        person.start()
        person.take("front", 1.0)
        taken = [e.seq for e in daemon.events() if e.type in ("FreeRead", "ReadingTaken")]
    finally:
        daemon.kill()
    before = listener.subscribed
    listener.broker.start()
    until(lambda: listener.subscribed > before)
    with closing(Daemon(shop).start()) as again:
        until(lambda: len(listener.rows()) >= len(taken), lambda: listener.got)
        assert again.alive
    assert len(taken) == 2 and listener.rows()[:2] == taken
