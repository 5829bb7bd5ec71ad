"""Rows hold who signed as an id; the screens show the name that stands beside the rows."""

import io
import uuid
from concurrent.futures import Future

import pytest

from daq.audit.apply import fold
from daq.audit.recompute import differences
from daq.gauges.ring import Ring
from daq.ledger import Ledger, LedgerView
from daq.ledger.commands import show
from daq.ledger.errors import NotRecorded
from daq.service.files import load
from daq.service.hub import Hub, Served
from daq.service.people import People
from daq.service.shopfloor import Shopfloor
from daq.service.wired import wired
from daq.words import Asker, Command, Proved, said
from tests.cards import READY
from tests.service.rig import MILL
from tests.words import en, told

ANN, BO = "Anna Kelln", "Bo Harm"
SPOTS = ("front", "right", "back", "left", "front")


def done(rig, kind, payload=None):
    ack = rig.post(kind, payload, str(uuid.uuid4())).result(0)
    assert ack.accepted, ack.reason


def taken(rig, payload, value):
    rig.stream([value] * 3)
    reply = rig.post("take", payload, str(uuid.uuid4()))
    rig.stream([value] * 60)
    assert reply.result(0).accepted, reply.result(0).reason


def cleared(rig):
    """An audit of a head that stands square, ready to be signed."""
    done(rig, "open", {"reason": "scheduled"})
    done(rig, "readied", READY)
    done(rig, "warmed", {"warm": True})
    done(rig, "prepared", {"serial_number": "P-0417"})
    taken(rig, {}, 0.1)
    assert rig.push(0.1).accepted
    for place in SPOTS:
        taken(rig, {"position": place}, 1.2)
    done(rig, "cleared")


def signed(rig):
    return [event for event in rig.ledger.events() if event.type == "Signed"]


def detail(hub):
    return told(hub.snapshot(MILL).pages["wall"], hub.people)["detail"]


def renamed(rig, config, names):
    """What decides and the screens, anew on the same record, with these names put right."""
    rig.decider.close("over")
    rig.closed = True
    ledger = Ledger.open(rig.ledger.path.parent)
    ids = {name: person for person, name in ledger.people().items()}
    for old, new in names.items():
        ledger.rename(ids[old], new)
    shop = load(config)
    hub = Hub((Served(MILL, "Mill", "practice", 1000),), rig.clock.mono_ns)
    floor = Shopfloor(shop.audit_setup, {"practice": Ring()})
    state = fold(ledger.events())
    return wired(ledger, state, hub, rig.clock, "test", shop.used_gauges, floor, {}), hub


def test_one_name_in_any_case_is_one_person_and_no_row_holds_it(rig):
    cleared(rig)
    done(rig, "sign", {"done_by": ANN, "reviewed_by": BO})
    cleared(rig)
    done(rig, "sign", {"done_by": f"  {ANN.upper()} ", "reviewed_by": "anna kelln"})
    people = {name: person for person, name in rig.ledger.people().items()}
    assert set(people) == {ANN, BO}
    first, second = signed(rig)
    for event, reviewed in ((first, BO), (second, ANN)):
        for row in (event.data, event.cause["payload"]):
            assert (row["done_by"], row["reviewed_by"]) == (people[ANN], people[reviewed])
    assert [event.actor for event in signed(rig)] == [people[ANN]] * 2
    bodies = [body.decode().lower() for _, body, _ in rig.ledger.rows()]
    assert not [body for body in bodies if "kelln" in body or "harm" in body]
    assert list(differences(rig.ledger.events(), rig.ledger.chunk)) == []


def test_handed_over_and_added_to_rows_hold_ids_and_what_is_shown_holds_names(rig):
    cleared(rig)
    done(rig, "hand-over", {"left_by": ANN, "taken_by": BO})
    same = rig.post("hand-over", {"left_by": BO, "taken_by": " bo  harm "}, "same").result(0)
    assert same.reason == said("handed-to-oneself")
    done(rig, "sign", {"done_by": BO})
    audit = signed(rig)[0].audit
    done(rig, "add-to-signed", {"audit": audit, "kind": "other", "text": "x", "done_by": ANN})
    people = {name: person for person, name in rig.ledger.people().items()}
    (handed,) = [event for event in rig.ledger.events() if event.type == "HandedOver"]
    assert handed.data == {"left_by": people[ANN], "taken_by": people[BO]}
    assert handed.cause["payload"] == handed.data
    assert (handed.actor, handed.audit) == (people[ANN], audit)
    out = io.StringIO()
    show(rig.ledger.path.parent, out, audit)
    (line,) = [line for line in out.getvalue().splitlines() if " HandedOver " in line]
    assert line.endswith(f'{ANN}  {{"left_by":"{ANN}","taken_by":"{BO}"}}')
    (line,) = [line for line in out.getvalue().splitlines() if " Addendum " in line]
    assert f'"done_by":"{ANN}"' in line
    shown = told(rig.hub.snapshot(MILL).pages["console"], rig.hub.people)
    assert any(note.startswith(f"Handed over by {ANN} to {BO}, ") for note in shown["notes"])
    assert list(differences(rig.ledger.events(), rig.ledger.chunk)) == []


def test_a_new_person_who_did_and_reviewed_it_is_one(rig):
    cleared(rig)
    done(rig, "sign", {"done_by": "Cy", "reviewed_by": "cy"})
    assert list(rig.ledger.people().values()) == ["Cy"]


def test_the_wall_names_who_signed_and_a_corrected_name_after_a_restart(rig, config):
    cleared(rig)
    done(rig, "sign", {"done_by": ANN})
    assert f"Done by {ANN}." in detail(rig.hub)
    decider, hub = renamed(rig, config, {ANN: "Anna Keln"})
    assert "Done by Anna Keln." in detail(hub)
    decider.close("over")


def test_a_signature_that_is_refused_or_not_recorded_names_nobody(rig, monkeypatch):
    done(rig, "open", {"reason": "scheduled"})
    assert rig.post("sign", {"done_by": ANN}, "early").result(0).code == "refused"
    done(rig, "abandon", {"why": "x"})
    cleared(rig)
    assert "done_by" in en(rig.post("sign", {"done_by": " "}, "blank").result(0).reason)
    assert "done_by" in en(rig.post("sign", {"done_by": 7}, "number").result(0).reason)

    def full(*_):
        raise NotRecorded(said("disk-is-full"))

    with monkeypatch.context() as patch:
        patch.setattr(rig.ledger, "append", full)
        assert rig.post("sign", {"done_by": ANN}, "full").result(0).code == "not-recorded"
    half = rig.post("sign", {"done_by": "\ud800"}, "half").result(0)
    assert "cannot be written down" in en(half.reason)
    assert rig.ledger.people() == {}
    done(rig, "sign", {"done_by": BO})
    with LedgerView.open(rig.ledger.path.parent) as view:
        assert list(view.people().values()) == [BO]


def test_a_signature_sent_again_is_the_same_one(rig):
    cleared(rig)
    payload = {"done_by": ANN, "reviewed_by": BO, "note": "n"}
    first = rig.post("sign", payload, "s").result(0)
    assert first.accepted, first.reason
    for again in (payload, {**payload, "done_by": "anna kelln "}):
        assert rig.post("sign", again, "s").result(0) == first
    for other in ({**payload, "done_by": "Cy"}, {**payload, "note": "N"}, {"done_by": ANN}):
        assert "used before" in en(rig.post("sign", other, "s").result(0).reason)
    assert len(signed(rig)) == 1
    assert set(rig.ledger.people().values()) == {ANN, BO}


@pytest.mark.parametrize(
    "names",
    [{ANN: "Anna Keln"}, {BO: "-"}, {ANN: "someone else", BO: ANN}],
    ids=["put right", "taken out", "another's"],
)
def test_a_signature_sent_again_after_its_person_was_renamed_is_the_same_one(rig, config, names):
    cleared(rig)
    payload = {"done_by": ANN, "reviewed_by": BO, "note": "n"}
    first = rig.post("sign", payload, "s").result(0)
    assert first.accepted, first.reason
    decider, _ = renamed(rig, config, names)

    def again(payload):
        reply = Future()
        decider.receive(Command("s", MILL, "sign", payload), rig.clock.ns, reply)
        return reply.result(0)

    assert again(payload) == first
    unchanged = "reviewed_by" if BO not in names else "done_by" if ANN not in names else ""
    others = [{"note": "N"}, {"done_by": ""}, {"reviewed_by": " "}]
    for other in others + [{unchanged: "Cy"}] * bool(unchanged):
        assert "used before" in en(again({**payload, **other}).reason)
    decider.close("over")


def test_other_fields_and_commands_are_left_as_they_came():
    people = People({})
    for command in (
        Command("c", MILL, "sign", {"note": ANN, "done_by": 7}),
        Command("c", MILL, "abandon", {"why": ANN, "done_by": BO}),
    ):
        assert people.identified(command) == (command, {})


ANN_ID, BO_ID = str(uuid.uuid4()), str(uuid.uuid4())


def proved(rig, who, command_id):
    asker = Asker("sign", "", "screen-1", "192.168.7.30")
    payload = {key: each.name for key, each in who.items()}
    command = Command(command_id, MILL, "sign", payload, asker=asker, proved=who)
    reply = Future()
    rig.decider.receive(command, rig.clock.ns, reply)
    assert reply.result(0).accepted, reply.result(0).reason


def test_a_row_keeps_right_person_screen_and_address_and_a_proved_person_their_id(rig):
    cleared(rig)
    proved(rig, {"done_by": Proved(ANN_ID, ANN), "reviewed_by": Proved(BO_ID, BO)}, "first")
    assert rig.ledger.people() == {ANN_ID: ANN, BO_ID: BO}
    (event,) = signed(rig)
    assert event.cause["asker"] == {
        "role": "sign",
        "person": ANN_ID,
        "screen": "screen-1",
        "address": "192.168.7.30",
    }
    assert (event.actor, event.data["reviewed_by"]) == (ANN_ID, BO_ID)
    opened = next(e for e in rig.ledger.events() if e.type == "AuditOpened")
    assert set(opened.cause["asker"].values()) == {""}
    assert list(differences(rig.ledger.events(), rig.ledger.chunk)) == []


def test_whose_name_was_put_right_signs_under_the_same_id():
    """Their PIN is kept under the name as it was."""
    who = {"done_by": Proved(ANN_ID, ANN)}
    command = Command("second", MILL, "sign", {"done_by": ANN}, proved=who)
    found, named = People({ANN_ID: "Anna Keln"}).identified(command)
    assert (found.payload["done_by"], found.asker.person, named) == (ANN_ID, ANN_ID, {})
