"""A thread held inside a call that does not come back: it is said, and it holds up nothing else."""

import os
import signal
import sys
import threading
import uuid
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, suppress

import pytest

from daq.ledger.verify import verify
from tests.faults.lines import unread
from tests.patience import until
from tests.system.client import codes, faults
from tests.system.daemon import Daemon

HELD = """
import os, sys
from pathlib import Path
from daq.cli import main
from daq.{module} import {cls}

hold, ordinary = Path(sys.argv.pop(1)), {cls}.{call}

def held(self, *args):
    if hold.exists():
        os.close(os.open(hold, os.O_RDONLY))
    return ordinary(self, *args)

{cls}.{call} = held
sys.exit(main())
"""
"""While the pipe `hold` is there, the call waits in the kernel for somebody to write to it."""


class Hold:
    def __init__(self, path):
        self.path = path

    def hold(self):
        os.mkfifo(self.path)

    def let_go(self):
        """Once it is held; whoever comes later goes through."""
        writer = os.open(self.path, os.O_WRONLY)
        self.path.unlink()
        os.close(writer)


@pytest.fixture
def hold(tmp_path):
    return Hold(tmp_path / "hold")


@pytest.fixture
def daemon(shop, hold, request):
    code = HELD.format(**request.param)
    with closing(Daemon(shop, program=(sys.executable, "-c", code, str(hold.path)))) as running:
        yield running.start()


READER = {"module": "gauges.link", "cls": "Link", "call": "read"}
WRITER = {"module": "ledger.store", "cls": "Ledger", "call": "append"}


def card(client):
    gauges = client.ask("GET", "/api/setup").body["gauges"]
    return next(gauge["code"] for gauge in gauges if gauge["key"] == "practice")


@pytest.mark.parametrize("daemon", [READER], indirect=True)
def test_a_held_reader_is_named_until_it_goes_on(person, gauge, client, daemon, hold):
    person.start()
    hold.hold()
    snapshot = client.until(lambda snapshot: "stuck" in codes(snapshot))
    assert "Pull its cable and put it back" in faults(snapshot)[0]["say"]
    health = client.ask("GET", "/healthz")
    assert (health.status, health.body["service"]["gauges"]["practice"]["code"]) == (503, "stuck")
    assert card(client) == "stuck"
    hold.let_go()
    client.until(lambda snapshot: codes(snapshot) == [])
    until(lambda: client.ask("GET", "/healthz").status == 200)
    assert card(client) == "ok"
    (lost,) = daemon.events("GaugeFault")
    assert lost.data["code"] == "stuck"
    until(lambda: len(daemon.events("GaugeBack")) == 1)  # shown at once, recorded after it


@pytest.mark.parametrize("daemon", [READER], indirect=True)
def test_a_held_reader_does_not_hold_the_end(person, gauge, client, daemon, hold):
    person.start()
    hold.hold()
    client.until_live(lambda live: not live.fresh)
    assert daemon.end(signal.SIGTERM) == 0
    assert "its reader is held in" in daemon.stderr
    data = daemon.shop.data
    assert not (data / "ledger.db-wal").exists(), "the ledger was not closed"
    assert verify(data).ok


@pytest.mark.parametrize("daemon", [WRITER], indirect=True)
def test_a_held_writer_is_said_while_it_hangs(gauge, client, daemon, hold):
    answers = []
    press = {"kind": "open", "payload": {"reason": "scheduled"}, "id": str(uuid.uuid4())}
    waiting = threading.Thread(target=lambda: answers.append(client.post(**press)))
    with client.stream() as stream:
        hold.hold()
        waiting.start()
        snapshot = client.until(lambda snapshot: not snapshot["recording"]["ok"])
        assert snapshot["recording"]["say"].startswith("NO ANSWER from recording")
        assert client.ask("GET", "/healthz").status == 503
        assert snapshot["pages"]["console"]["actions"] == []
        while b"NO ANSWER from recording" not in stream.readline():
            pass
        hold.let_go()
        waiting.join()
        while b'"recording":{"ok":true' not in stream.readline():
            pass
    client.until(lambda snapshot: snapshot["recording"]["ok"])
    assert client.do(**press) == [2]
    until(lambda: client.ask("GET", "/healthz").status == 200)


@pytest.mark.parametrize("daemon", [WRITER], indirect=True)
def test_a_held_writer_does_not_hold_the_end(gauge, client, daemon, hold):
    hold.hold()
    threading.Thread(target=ask_and_forget, args=(client,), daemon=True).start()
    client.until(lambda snapshot: not snapshot["recording"]["ok"])
    daemon.end(signal.SIGTERM)
    assert daemon.events() == []


@pytest.mark.parametrize("daemon", [WRITER], indirect=True)
def test_at_the_end_whoever_waits_for_a_held_writer_is_answered(gauge, client, daemon, hold):
    hold.hold()
    with ThreadPoolExecutor(2) as others:
        presses = [others.submit(client.post, "open", {"reason": "scheduled"})]
        client.until(lambda snapshot: not snapshot["recording"]["ok"])
        presses.append(others.submit(client.post, "abandon", {"why": "x"}))
        until(lambda: unread(client.port).count(0) == 2)
        daemon.end(signal.SIGTERM)
        answers = [press.result() for press in presses]
    said = [(answer.status, answer.body["reason"]) for answer in answers]
    unknown = (503, "The service does not answer; nothing is known to be recorded.")
    assert said[0] == unknown
    assert said[1] in (unknown, (422, "The service is stopping."))
    assert daemon.events() == []


def ask_and_forget(client):
    with suppress(OSError):
        client.post("open", {"reason": "scheduled"})
