"""What a client may count on when it posts commands."""

import uuid
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing

import pytest

from tests.cards import READY
from tests.system.daemon import Daemon
from tests.system.shop import MACHINE, Shop

COMMANDS = f"/api/machines/{MACHINE}/commands"
AT_ONCE = 6


@pytest.fixture(scope="module")
def untouched(tmp_path_factory):
    """A daemon for what must leave nothing behind: its ledger stays empty all along."""
    shop = Shop(tmp_path_factory.mktemp("untouched"))
    with closing(Daemon(shop).start()) as running:
        yield running
        assert running.events() == []


def command(**fields):
    return {"id": str(uuid.uuid4()), "kind": "open", "payload": {"reason": "scheduled"}} | fields


def all_at_once(client, bodies):
    with ThreadPoolExecutor(len(bodies)) as crowd:
        return list(crowd.map(lambda body: client.ask("POST", COMMANDS, body), bodies))


def test_an_id_sent_twice_is_carried_out_once(gauge, client, daemon):
    opened = command()
    first, again = (client.ask("POST", COMMANDS, opened) for _ in range(2))
    assert first == again
    assert (first.status, first.body["accepted"]) == (200, True)
    assert [e.seq for e in daemon.events()] == first.body["seqs"]


def test_an_id_sent_again_for_something_else_is_refused(gauge, client, daemon):
    opened = command()
    client.ask("POST", COMMANDS, opened)
    refused = client.ask("POST", COMMANDS, opened | {"kind": "abandon", "payload": {"why": "x"}})
    assert (refused.status, refused.body["code"]) == (422, "refused")
    assert "was used before, for something else" in refused.body["reason"]
    assert len(daemon.events()) == 1


def test_an_id_sent_by_many_at_once_is_carried_out_once(gauge, client, daemon):
    answers = all_at_once(client, [command(id=str(uuid.uuid4()))] * AT_ONCE)
    assert {(a.status, *a.body["seqs"]) for a in answers} == {(200, 2)}
    client.do("readied", READY)
    client.do("warmed", {"warm": True})
    client.do("prepared", {"serial_number": "P-0417"})
    free = command(kind="take", payload={})
    answers = all_at_once(client, [free] * AT_ONCE)
    assert {(a.status, *a.body["seqs"]) for a in answers} == {(200, 6)}
    assert client.ask("POST", COMMANDS, free) == answers[0]
    types = [event.type for event in daemon.events()]
    assert types == ["AuditOpened", "TableReadied", "Warmed", "Prepared", "FreeRead"]


def test_of_many_different_takes_at_once_one_is_carried_out(gauge, client, daemon):
    client.do("open", {"reason": "scheduled"})
    client.do("readied", READY)
    client.do("warmed", {"warm": True})
    client.do("prepared", {"serial_number": "P-0417"})
    answers = all_at_once(client, [command(kind="take", payload={}) for _ in range(AT_ONCE)])
    assert sorted(a.status for a in answers) == [200] + [422] * (AT_ONCE - 1)
    assert len(daemon.events("FreeRead")) == 1


def test_a_stale_screen_is_told_what_changed(gauge, client, daemon):
    client.do("open", {"reason": "scheduled"})
    client.do("readied", READY)
    client.do("warmed", {"warm": True})
    seen = client.snapshot()["seq"]
    client.do("prepared", {"serial_number": "P-0417"}, expects_seq=seen)
    before = daemon.events()
    stale = client.post("abandon", {"why": "late"}, expects_seq=seen)
    assert (stale.status, stale.body["code"], stale.body["accepted"]) == (409, "stale", False)
    assert stale.body["changed"] == ["the machine was prepared"]
    assert daemon.events() == before
    client.do("abandon", {"why": "late"}, expects_seq=client.snapshot()["seq"])


def test_a_sequence_number_nobody_ever_saw_is_stale_and_harms_nothing(client):
    stale = client.post("open", {"reason": "scheduled"}, expects_seq=10**6)
    assert (stale.status, stale.body["code"]) == (409, "stale")
    client.do("open", {"reason": "scheduled"})


@pytest.mark.parametrize("seq", [-1, 2**63, -(2**80)])
def test_a_sequence_number_no_row_can_have_is_refused_in_words(client, daemon, seq):
    refused = client.post("open", {"reason": "scheduled"}, expects_seq=seq)
    assert refused.status == 400
    (why,) = refused.body["problems"]
    assert f"expects_seq: found {seq}"[:30] in why and "allowed: 0 to " in why
    assert daemon.events() == []
    client.do("open", {"reason": "scheduled"})


def test_an_unknown_machine_is_404_and_names_the_known(untouched):
    answer = untouched.client.ask("POST", "/api/machines/nothing/commands", command())
    assert answer.status == 404
    assert MACHINE in answer.body["reason"]


@pytest.mark.parametrize(
    ("body", "said"),
    [
        (b"no json", "not JSON"),
        (b"[]", "found list"),
        (b'{"kind": "open"}', "id"),
        (command(id="17"), "found '17'; allowed: a UUID"),
        (command(kind=7), "kind: found 7; allowed: text"),
        (command(payload=[]), "payload: found a list; allowed: a table"),
        (command(expects_seq="3"), "expects_seq"),
        (command(kinds="open"), "unknown key 'kinds'; nearest known: 'kind'"),
    ],
)
def test_a_malformed_command_is_400_and_says_why(untouched, body, said):
    answer = untouched.client.ask("POST", COMMANDS, body)
    assert answer.status == 400
    assert said in " ".join(answer.body["problems"])
    assert untouched.events() == []


@pytest.mark.parametrize(
    ("kind", "payload", "said"),
    [
        ("take", {"position": "front"}, "No audit is open on this machine."),
        ("open", {"reason": "boredom"}, 'found "boredom"; allowed: one of "after-angled-work"'),
        ("open", {}, "reason"),
        ("open", {"reason": "scheduled", "speed": 3}, "unknown key 'speed'"),
        (
            "close",
            {},
            "found 'close'; allowed: abandon, add-to-signed, again, amend-report, angled, answer, "
            "arm-back",
        ),
    ],
)
def test_what_makes_no_sense_is_refused_in_words(untouched, kind, payload, said):
    refused = untouched.client.post(kind, payload)
    assert (refused.status, refused.body["code"]) == (422, "refused")
    assert said in refused.body["reason"]
    assert untouched.events() == []


@pytest.mark.parametrize("kind", ["zeroed", "gauge-fault", "gauge-back"])
def test_what_the_service_notices_nobody_else_may_say(gauge, client, daemon, kind):
    client.do("open", {"reason": "scheduled"})
    payload = {"code": "silent"} if kind == "gauge-fault" else {"run": "r"}
    refused = client.post(kind, {} if kind == "zeroed" else payload)
    assert refused.status == 422
    assert refused.body["reason"] == f"'{kind}' is for the service itself to notice."
    assert [e.type for e in daemon.events()] == ["AuditOpened"]


def test_a_payload_on_a_command_that_takes_none_is_not_swallowed(gauge, client):
    client.do("open", {"reason": "scheduled"})
    client.do("readied", READY)
    client.do("warmed", {"warm": True})
    client.do("prepared", {"serial_number": "P-0417"})
    client.do("take")
    refused = client.post("undo", {"steps": 2})
    assert refused.status == 422
    assert "unknown key 'steps'" in refused.body["reason"]
    client.do("undo")


@pytest.mark.parametrize("payload", [{"why": "\ud800"}, {"why": "x", "more": float("nan")}])
def test_what_cannot_be_written_down_is_refused_and_harms_nothing(client, daemon, payload):
    client.do("open", {"reason": "scheduled"})
    assert client.post("abandon", payload).status in (400, 422)
    assert client.post("abandon", {"why": "x"}, actor="\ud800").status in (400, 422)
    client.do("abandon", {"why": "done"})
    assert [e.type for e in daemon.events()] == ["AuditOpened", "Abandoned"]
