"""Against a real broker: what is on record arrives, whatever happens to broker or service."""

import json
import signal
import socket
import subprocess
from contextlib import suppress

import jsonschema

from daq.ledger.view import LedgerView
from daq.service.messages.of_row import rows_after
from daq.service.messages.published import message_schema
from tests.patience import until
from tests.service.messages.rig import owing, telling


def sent_rows(data):
    """The rows of a ledger that are told, and those of practice that are not."""
    with LedgerView.open(data) as view:
        practice = [e.seq for e in view.events() if e.type == "AuditOpened"][1:]
        rows = rows_after(view, 0)
    return [row for row in rows if not practice or row < practice[0]]


def settled(found):
    until(lambda: found.ways["broker"].owed == 0, lambda: found.ways)


def in_order(rows):
    """Each once, but for one that came again as the same."""
    return list(dict.fromkeys(rows)) == sorted(set(rows))


def test_rows_arrive_in_the_published_form_then_offline_is_said(told, running):
    """As another client, none of Python's, hears it: QoS, whether retained, topic, message."""
    asked = ["mosquitto_sub", "-p", str(running.port), "-q", "1", "-t", "shop/#"]
    asked += ["-F", "%q %r %t %p"]
    before = running.log.count("SUBACK")
    with subprocess.Popen(asked, stdout=subprocess.PIPE, text=True) as other:
        until(lambda: running.log.count("SUBACK") > before)
        owing(told, seen=0)
        found = telling(told, running.port, prefix="shop/mills", live_hz=5.0)
        found.start()
        settled(found)
        found.stop()
        heard = []
        for line in other.stdout:
            heard.append(line.rstrip().split(" ", 3))
            if "offline" in line:
                break
        other.terminate()
    messages = [json.loads(text) for *_, text in heard]
    for (qos, retain, topic, _), message in zip(heard, messages, strict=True):
        jsonschema.validate(message, message_schema(), cls=jsonschema.Draft202012Validator)
        kind = message["kind"]
        machine = "" if kind == "status" else "mill/"
        on_record = "0" if kind in ("status", "live") else "1"
        assert (topic, qos, retain) == (f"shop/mills/{machine}{kind}", on_record, "0")
    assert {each["kind"] for each in messages} >= {"status", "live", "take", "verdict"}
    assert [each["seq"] for each in messages if "seq" in each] == sent_rows(told)
    status = [each["status"] for each in messages if each["kind"] == "status"]
    assert status == ["online", "offline"]


def test_a_thousand_rows_over_three_restarts_all_come_in_order(many, running, listener):
    owing(many, seen=0)
    rows = sent_rows(many)
    for upto in (200, 600, 1000):
        found = telling(many, running.port)
        found.start()
        until(lambda upto=upto: len(listener.rows()) >= upto)
        found.stop()
    assert len(rows) == 1000
    until(lambda: set(listener.rows()) == set(rows))
    assert in_order(listener.rows()) and len(listener.rows()) <= 1003


def test_a_broker_killed_and_started_again_has_everything_once_it_is_back(many, running, listener):
    rows = sent_rows(many)
    owing(many, rows[:300])
    found = telling(many, running.port)
    found.start()
    until(lambda: len(listener.rows()) > 50)
    running.kill()
    until(lambda: (why := found.ways["broker"].why) and why.code == "address-not-reached")
    assert found.ways["broker"].owed > 0
    running.start()
    settled(found)
    assert found.ways["broker"].why is None
    until(lambda: set(listener.rows()) >= set(rows[:300]))
    assert in_order(listener.rows())
    found.stop()


def test_a_line_that_is_half_open_is_found_out_and_nothing_is_lost(many, running, listener):
    """The broker is held: its computer still takes bytes, and nobody reads them."""
    rows = sent_rows(many)
    owing(many, rows[:300])
    found = telling(many, running.port)
    found.start()
    until(lambda: len(listener.rows()) > 20)
    running.signal(signal.SIGSTOP)
    try:
        until(lambda: (why := found.ways["broker"].why) and why.code == "broker-gone")
        assert found.ways["broker"].owed > 0
    finally:
        running.signal(signal.SIGCONT)
    settled(found)
    found.stop()
    until(lambda: set(listener.rows()) >= set(rows[:300]))
    assert in_order(listener.rows())


def test_a_broker_that_talks_nonsense_is_left_and_tried_again(told):
    """CONNACK as MQTT 3.1.1 has it (3.2), then bytes that are no packet."""
    owing(told, rows=[6])
    with socket.create_server(("127.0.0.1", 0)) as server:
        found = telling(told, server.getsockname()[1])
        found.start()
        for _ in range(2):
            line, _ = server.accept()
            with line, suppress(ConnectionResetError):
                assert b"MQTT" in line.recv(4096)
                line.sendall(b"\x20\x02\x00\x00" + b"\x40\x00" + b"\xff" * 64)
                while line.recv(4096):
                    pass
        assert found.ways["broker"].owed == 1 and found.ways["broker"].why is not None
        found.stop()
