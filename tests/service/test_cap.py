"""A practice record that is full takes nothing more, and begins anew at the next start."""

import pytest

from daq.ledger.errors import LedgerError
from daq.ledger.store import Ledger
from daq.service.cap import FILES, Cap
from daq.service.clock import SystemClock
from daq.service.inbox import Inbox
from daq.words import Command, said


def begun(data):
    return Ledger.open(data, stamp=SystemClock().stamp(), engine="test")


def test_a_full_record_refuses_and_begins_anew(tmp_path):
    data = tmp_path / "data"
    ledger = begun(data)
    first = ledger.uuid
    kept = data / "practice-mill.json"
    kept.write_text("{}", encoding="utf-8")
    small = Cap(data, most_bytes=0)
    assert small.refusal() == said("practice-full")
    with pytest.raises(LedgerError):
        small.begin_anew()
    ledger.close()
    roomy = Cap(data)
    assert roomy.refusal() is None
    roomy.begin_anew()
    assert any((data / name).exists() for name in FILES)
    small.begin_anew()
    assert [name for name in FILES if (data / name).exists()] == []
    assert kept.exists()
    again = begun(data)
    assert again.uuid != first
    again.close()


class Nobody:
    busy = False


def test_what_is_refused_reaches_nobody():
    inbox = Inbox(Nobody())
    inbox.refusal = lambda: said("practice-full")
    ack = inbox.submit(Command("1", "mill", "take"))
    assert (ack.code, ack.reason, ack.accepted) == ("refused", said("practice-full"), False)
