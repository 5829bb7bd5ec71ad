"""Ledgers with something to tell, and a broker, made once each."""

from dataclasses import replace

import pytest

from daq.ledger.store import Ledger
from daq.service.messages import line
from tests.audit.conftest import Bench, setup_of
from tests.audit.save_golden import put
from tests.service.messages.broker import broker, listening


@pytest.fixture(scope="session")
def told(tmp_path_factory):
    """An audit with all that is told, signed, and another one in practice."""
    folder = tmp_path_factory.mktemp("told")
    b = Bench(setup_of())
    b.rows = 1
    b.start()
    b.take("front", 1.0)
    b.do("undo")
    b.do("gauge-fault", {"code": "unplugged"})
    b.do("gauge-back", {"run": "run-1", "gauge": "arm"})
    b.sweep(1.0, 1.0, 1.0, 1.0)
    b.do("cleared")
    b.do("sign", {"done_by": "Ann"})
    b.start(reason="practice")
    b.take("front", 1.0)
    put(folder, b)
    return folder


@pytest.fixture(scope="session")
def many(told, tmp_path_factory):
    """A ledger of an open audit with a thousand readings."""
    from daq.ledger.view import LedgerView
    from tests.audit.save_golden import _draft

    folder = tmp_path_factory.mktemp("many")
    with LedgerView.open(told) as view:
        events = list(view.events())
    opened = next(e for e in events if e.type == "AuditOpened")
    read = next(e for e in events if e.type == "ReadingTaken")
    drafts = [_draft(opened), *[replace(_draft(read), evidence=()) for _ in range(1000)]]
    ledger = Ledger.open(folder, stamp=opened.stamp)
    try:
        ledger.append(drafts, [])
    finally:
        ledger.close()
    return folder


@pytest.fixture(scope="module")
def running(tmp_path_factory):
    """A broker that runs; whoever stops it starts it again."""
    with broker(tmp_path_factory.mktemp("broker")) as found:
        yield found


@pytest.fixture
def listener(running, request):
    with listening(running.port, name=request.node.name) as found:
        yield found


@pytest.fixture(autouse=True)
def quick(monkeypatch):
    """Pauses of half a second, and a broker that is held is given up after two."""
    monkeypatch.setattr(line, "FIRST_WAITS", 1)
    monkeypatch.setattr(line, "MOST_WAITS", 1)
    monkeypatch.setattr(line, "KEEPALIVE_S", 1)
