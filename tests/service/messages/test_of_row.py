"""What each row says, in the published form, and what says nothing."""

import json
import re
from typing import get_args, get_type_hints

import jsonschema
import pytest

from daq.ledger.view import LedgerView
from daq.service.messages.of_row import SENT, Rows, rows_after
from daq.service.messages.published import message_schema
from daq.service.messages.shapes import Message, body, topic
from tests.house.conftest import ROOT

FORM = jsonschema.Draft202012Validator(message_schema())


@pytest.fixture(scope="module")
def rows(told):
    with LedgerView.open(told) as view:
        return {event.seq: event for event in view.events()}


@pytest.fixture(scope="module")
def sent(told, rows):
    """Each row's message as its bytes say."""
    found = {row: Rows(told).message(row) for row in rows}
    return {row: json.loads(body(each)) for row, each in found.items() if each is not None}


def test_every_message_is_of_the_published_form_and_names_its_row(sent, rows):
    jsonschema.Draft202012Validator.check_schema(message_schema())
    for row, message in sent.items():
        FORM.validate(message)
        event = rows[row]
        stamp = event.stamp.utc_us // 1000
        assert (message["v"], message["machine"], message["seq"]) == (1, event.machine, row)
        assert (message["ledger"], message["audit"]) == (event.ledger, event.audit)
        assert message["utc"].endswith(f".{stamp % 1000:03d}Z")
        with pytest.raises(jsonschema.ValidationError):
            FORM.validate({**message, "more": 1})
    assert {each["kind"] for each in sent.values()} == {"take", "taken-back", "fault", "verdict"}


def test_what_is_practice_goes_nowhere_and_no_message_names_a_person(told, rows, sent):
    practice = [row for row, e in rows.items() if e.type == "AuditOpened"][1]
    with LedgerView.open(told) as view:
        owed = rows_after(view, 0)
    assert max(owed) > practice and max(sent) < practice
    assert set(sent) == {row for row in owed if row < practice}
    (signed,) = (e for e in rows.values() if e.type == "Signed")
    assert signed.data["done_by"] == "Ann" and "Ann" not in json.dumps([*sent.values()])


def test_a_reading_a_fault_and_what_was_taken_back_say_what_the_record_says(sent, rows):
    taken = [each for each in sent.values() if each["kind"] == "take"]
    read = next(each for each in taken if each["event"] == "ReadingTaken")
    data = rows[read["seq"]].data["reading"]
    assert (read["place"], read["reading"]["mean_mm"], read["second"]) == ("front", 1.0, None)
    assert (read["reading"]["gauge"], read["reading"]["count"]) == (data["gauge"], data["count"])
    faults = [(e["event"], e["code"]) for e in sent.values() if e["kind"] == "fault"]
    assert faults == [("GaugeFault", "unplugged"), ("GaugeBack", "back")]
    (back,) = (each for each in sent.values() if each["kind"] == "taken-back")
    assert read["seq"] in back["rows"]


def test_a_verdict_is_the_signed_one_and_its_anchor_finds_the_row(sent, told):
    (verdict,) = (each for each in sent.values() if each["kind"] == "verdict")
    assert (verdict["verdict"], verdict["check"]) == ("conforms", "")
    assert (verdict["reason"], verdict["moves"]) == ("scheduled", 0)
    assert verdict["as_left"]["nod"]["word"] == "in"
    with LedgerView.open(told) as view:
        head = view.hash_of(verdict["seq"])
    assert verdict["anchor"] == f"headsweep-anchor:{verdict['ledger']}:{verdict['seq']}:{head}"


def test_a_topic_holds_no_sign_that_means_something_else_there():
    """MQTT 3.1.1, 4.7: + and # are wildcards, / parts levels."""
    assert topic("shop/a", "mill 1", "take") == "shop/a/mill 1/take"
    assert topic("h", "a+b#c/d%", "live") == "h/a%2Bb%23c%2Fd%25/live"
    assert topic("h", "", "status") == "h/status"


def test_each_kind_of_message_has_a_form_and_each_row_that_is_sent_a_kind():
    assert len(message_schema()["oneOf"]) == len(get_args(Message)) == 6
    assert len(set(SENT)) == len(SENT) == 11


def test_the_readmes_examples_are_of_the_published_form_and_its_table_has_every_kind():
    readme = (ROOT / "README.md").read_text("utf-8")
    (examples,) = re.findall(r"```json\n(.*?)```", readme, re.DOTALL)
    for line in examples.splitlines():
        message = json.loads(line)
        FORM.validate(message)
        assert json.dumps(message, sort_keys=True) == line  # as it is sent
    kinds = {get_args(get_type_hints(each)["kind"])[0] for each in get_args(Message)}
    assert set(re.findall(r"^\| `PREFIX/(?:MACHINE/)?([a-z-]+)`", readme, re.MULTILINE)) == kinds
