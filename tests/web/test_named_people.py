"""Whoever adds to a signed audit, leaves one or takes one over proves who they are."""

import uuid

import pytest

from daq.service.clock import SystemClock
from daq.service.rights.access import Access
from tests.entry import PIN, enrolled, paired
from tests.web.test_rights import ANN, COMMANDS
from web.app import create_app
from web.rights import HEADER

ADDED = {"audit": "a", "kind": "other", "text": "x", "done_by": ANN}
HANDED = {"left_by": ANN, "taken_by": "Bo Harm"}


@pytest.fixture
def app(hub, inbox, tmp_path):
    return create_app(hub, inbox, access=Access(tmp_path, SystemClock()))


@pytest.mark.parametrize(("kind", "payload"), [("add-to-signed", ADDED), ("hand-over", HANDED)])
def test_an_addendum_and_a_handing_over_want_the_pin_of_each_person_they_name(
    app, inbox, tmp_path, kind, payload
):
    enrolled(tmp_path, ANN)
    client, token = paired(app)
    people = [key for key in payload if key.endswith("_by")]

    def pressed(pins):
        sent = {"id": str(uuid.uuid4()), "kind": kind, "payload": payload, "pins": pins}
        return client.post(COMMANDS, json=sent, headers={HEADER: token}).status_code

    if kind == "hand-over":
        assert pressed(dict.fromkeys(people, PIN)) == 403, "to somebody unknown"
        enrolled(tmp_path, "Bo Harm")
    wrong = [{}, *(dict.fromkeys(people, PIN) | {key: "0000"} for key in people)]
    assert [pressed(pins) for pins in wrong] == [403] * len(wrong)
    assert inbox.got == []
    assert pressed(dict.fromkeys(people, PIN)) == 200
    (got,) = inbox.got
    assert got.asker.role == "sign"
    assert {key: who.name for key, who in got.proved.items()} == {
        key: payload[key] for key in people
    }
    assert PIN not in repr(got)
