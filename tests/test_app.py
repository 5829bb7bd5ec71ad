"""The wiring: a service that starts, answers and leaves nothing behind."""

import threading
import uuid
from dataclasses import replace
from importlib.resources import as_file, files

from daq.app import PRACTICE_MACHINE, service
from daq.service.files import load
from daq.words import Command


def test_a_service_opens_answers_and_is_gone(tmp_path):
    with as_file(files("daq") / "config") as shipped:
        shop = load(shipped)
    shop = replace(shop, shop=replace(shop.shop, name="Test"))
    before = set(threading.enumerate())
    with service(shop, tmp_path / "data") as running:
        command = Command(str(uuid.uuid4()), PRACTICE_MACHINE, "open", {"reason": "practice"})
        assert running.desk.submit(command).accepted
        page = running.hub.snapshot(PRACTICE_MACHINE).pages["wall"]
        assert page["step"] == "prepare"
        names = {thread.name for thread in set(threading.enumerate()) - before}
        assert "desk" in names
    assert set(threading.enumerate()) == before
    with service(shop, tmp_path / "data") as running:
        assert running.hub.snapshot(PRACTICE_MACHINE).pages["wall"]["step"] == "prepare"
