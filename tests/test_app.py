"""The wiring: a service that starts, answers and leaves nothing behind."""

import threading
import uuid
from dataclasses import replace

from daq.app import service
from daq.ledger import LedgerError
from daq.service import alive
from daq.service.files import load, shipped
from daq.words import Command
from tests.ledger.conftest import raw_hand
from tests.patience import until
from tests.words import en, told, troubled

PRACTICE_MACHINE = "practice-mill"


def test_a_service_opens_answers_and_is_gone(tmp_path):
    shop = load(shipped())
    shop = replace(shop, shop=replace(shop.shop, name="Test"))
    before = set(threading.enumerate())
    with service(shop, tmp_path / "data") as running:
        command = Command(str(uuid.uuid4()), PRACTICE_MACHINE, "open", {"reason": "practice"})
        assert running.inbox.submit(command).accepted
        page = told(running.hub.snapshot(PRACTICE_MACHINE).pages["wall"])
        assert page["step"] == "table"
        names = {thread.name for thread in set(threading.enumerate()) - before}
        assert "inbox" in names
    assert set(threading.enumerate()) == before
    with service(shop, tmp_path / "data") as running:
        assert told(running.hub.snapshot(PRACTICE_MACHINE).pages["wall"])["step"] == "table"


def test_a_service_goes_on_from_its_seal_and_tells_of_a_record_that_is_not_sound(tmp_path):
    shop = load(shipped())
    data = tmp_path / "data"
    with service(shop, data) as running:
        command = Command(str(uuid.uuid4()), PRACTICE_MACHINE, "open", {"reason": "practice"})
        assert running.inbox.submit(command).accepted
        command = Command(str(uuid.uuid4()), PRACTICE_MACHINE, "abandon", {"why": "x"})
        assert running.inbox.submit(command).accepted
    assert (data / "ledger.seal").exists()
    with raw_hand(data) as connection:
        connection.execute("UPDATE events SET body = replace(body, 'practice', 'practise')")
    with service(shop, data) as running:
        until(lambda: not running.hub.health()["ok"])
        say = running.hub.snapshot(PRACTICE_MACHINE).recording["say"]
        assert en(say).startswith("NOT RECORDED from now on: ") and "row 2 is altered" in en(say)
        command = Command(str(uuid.uuid4()), PRACTICE_MACHINE, "open", {"reason": "practice"})
        assert running.inbox.submit(command).code == "not-recorded"
    with troubled(LedgerError, match="row 2 is altered"), service(shop, data):
        pass


def test_a_service_that_was_cut_off_is_known_to_the_next_one_and_one_that_ended_is_not(tmp_path):
    shop, data = load(shipped()), tmp_path / "data"
    with service(shop, data) as running:
        assert running.cut_off is None
        kept = (data / alive.NAME).read_bytes()
        running.inbox.failed = OSError("it cannot go on")
    with service(shop, data) as running:
        assert running.cut_off.how == "killed"
    assert not (data / alive.NAME).exists()
    (data / alive.NAME).write_bytes(kept)
    with service(shop, data) as running:
        assert running.cut_off.how == "killed"
    with service(shop, data) as running:
        assert running.cut_off is None
