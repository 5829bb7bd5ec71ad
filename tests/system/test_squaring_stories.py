"""A swung ram, a head off scale, shims, bolts and proofs, over the wire and over HTTP."""

import math

import pytest

from daq.audit.recompute import differences
from daq.ledger import LedgerView
from daq.virtual import Machinist
from tests.audit.rigid import RigidHead, mill
from tests.system.client import Client
from tests.system.daemon import Daemon
from tests.system.person import Person, refused
from tests.system.shop import Shop
from tests.words import en

MILL = "machines/practice-mill.toml"
GAUGE = "gauges/practice.toml"
SWUNG = math.tan(math.radians(15.0))
CHANGE_MM = 0.200
START_MM = CHANGE_MM * (1.0 + SWUNG**2)
"""Nod this far out is turned by 0.200 once side is to follow: side's move brings the rest."""
PAST = {"last_good": "2026-01-05", "disposition": "held and measured again"}
OUT = {"front": 1.200, "right": 1.160, "back": 1.120, "left": 1.160}


@pytest.fixture
def shop(shop):
    """The nod pivot 150 mm behind the spindle, the arm 100 mm long, both pivots 400 mm up."""
    shop.set(MILL, "sweep_radius", '"100 mm"')
    shop.set(MILL, "pivot_distance", '"150 mm"', "[nod]")
    for axis in ("[side]", "[nod]"):
        shop.set(MILL, "pivot_height", '"400 mm"', axis)
    return shop


def append(shop: Shop, text: str) -> None:
    """Write more at the end of the machine's file."""
    path = shop.config / MILL
    path.write_text(f"{path.read_text(encoding='utf-8')}\n{text}\n", encoding="utf-8")


def recheck(daemon: Daemon) -> None:
    """Every decision comes out again from what the ledger holds."""
    with LedgerView.open(daemon.shop.data) as view:
        assert list(differences(view.events(), view.chunk)) == []


def nod_squared_on_a_swung_ram(client, gauge, card):
    """Nod out by enough to be turned by 0.200 on a ram swung 15 degrees; side level."""
    head = RigidHead(mill(ram_deg=15.0), 0.0, START_MM)
    person = Person(client, gauge, head)
    person.start(**card)
    return Machinist(person)


def check_side_was_predicted(daemon, client, machinist):
    """The pair check of nod says what side did, and side is parked for without a question."""
    machinist.work("check")
    machinist.step()
    machinist.step()
    (check,) = daemon.events("CheckDone")
    assert START_MM - check.data["results"]["nod"]["d_mm"] == pytest.approx(CHANGE_MM, abs=0.001)
    # tan 15° · 0.200 = 0.054 (plane trigonometry).
    assert check.data["results"]["side"]["d_mm"] == pytest.approx(-SWUNG * CHANGE_MM, abs=0.0005)
    assert (check.data["strange"], check.data["said"]) == ("", None)
    assert client.console()["axes"][0]["value"] in ("-0.053", "-0.054")
    machinist.work("loosen")
    (_, parked) = daemon.events("Parked")
    assert (parked.data["axis"], parked.data["question"]) == ("side", None)
    assert client.console()["message"] is None
    recheck(daemon)


@pytest.fixture
def swung(shop):
    shop.add(MILL, 'ram_angle = "15 deg"')
    return shop


def test_with_the_ram_swung_in_the_file_what_nod_does_to_side_is_predicted(
    swung, gauge, client, daemon
):
    machinist = nod_squared_on_a_swung_ram(client, gauge, {})
    check_side_was_predicted(daemon, client, machinist)


def test_with_the_ram_swung_on_the_card_what_nod_does_to_side_is_predicted(gauge, client, daemon):
    card = {"ram_moved": True, "ram_angle": "15 deg"}
    machinist = nod_squared_on_a_swung_ram(client, gauge, card)
    check_side_was_predicted(daemon, client, machinist)


def test_with_no_angle_told_the_same_change_of_side_is_noticed(gauge, client, daemon):
    machinist = nod_squared_on_a_swung_ram(client, gauge, {})
    machinist.work("final-ram")
    client.do("answer", {"key": "not-sure"})
    final = daemon.events("SweepDone")[-1].data
    assert final["elsewhere"]
    assert final["results"]["side"]["d_mm"] == pytest.approx(-SWUNG * START_MM, abs=0.003)
    console = client.console()
    assert "a ram swung about 15°" in console["message"]["say"]
    assert (console["step"], console["axes"][0]["word"]) == ("park", "out")
    recheck(daemon)


def test_an_angle_that_makes_no_sense_is_refused_in_words(gauge, client):
    client.opened()
    for angle, told in (("75 deg", "-60 deg to 60 deg"), ("15 mm", "ram_angle")):
        card = {"serial_number": "P-0417", "ram_moved": True, "ram_angle": angle}
        assert told in refused(client, "prepared", card)
    assert client.console()["step"] == "prepare"


@pytest.fixture
def lever(shop):
    for key, value in (("kind", '"lever"'), ("travel", '"0.8 mm"')):
        shop.set(GAUGE, key, value)
    shop.add(GAUGE, 'stylus_angle = "15 deg"')
    return shop


def test_a_lever_gauge_that_falls_off_contact_at_the_back(lever, gauge, client, daemon):
    person = Person(client, gauge)
    gauge.move_to(0.0)
    client.opened()
    client.do("prepared", {"serial_number": "P-0417"})
    client.do("take")
    gauge.move_to(0.4)
    client.until_live(lambda live: live.value_mm > 0.3)
    gauge.move_to(0.0)
    client.do("pushed")
    person.take("front", 0.350)
    person.take("right", 0.180)
    answer = person.asked("back", 0.001)
    assert answer.status == 422
    assert answer.body["reason"].startswith("Off contact at back.")
    assert len(daemon.events("ReadingTaken")) == 2
    client.do("off-scale", {"position": "back"})
    (off,) = daemon.events("OffScale")
    # The front's 0.350 on the face, times cos 15°.
    assert en(off.data["said"]) == "off scale, beyond 0.338 mm at back"
    assert (client.console()["step"], client.console()["verdict"]) == ("arm-out-closer", None)
    assert daemon.events("SweepDone") == []
    for kind in ("arm-out", "closer", "arm-back"):
        client.do(kind)
    person.touch()
    person.sweep(front=0.301, right=0.300, back=0.300, left=0.301)
    client.do("cleared")
    assert "last_good" in refused(client, "sign", {"done_by": "T"})
    client.do("sign", {"done_by": "T", **PAST})
    (signed,) = daemon.events("Signed")
    assert (signed.data["verdict"], signed.data["as_found"]) == ("conforms", None)
    assert signed.data["off_scale"] == off.data["said"]
    recheck(daemon)


@pytest.fixture
def shims(shop):
    append(shop, '[nod.adjust]\nkind = "shim"\nbolt_spacing = "250 mm"')
    return shop


def test_a_head_with_shims_is_told_how_thick_and_where(shims, gauge, client):
    """0.080 over 200 is 0.100 over bolts 250 apart (similar triangles)."""
    person = Person(client, gauge)
    person.start()
    person.sweep(**OUT)
    person.take("front", 1.200)
    wanted = "0.100 shim behind the lower bolts"
    assert client.console()["stop_at"] is None
    client.do("arm-out")
    client.do("joint-open")
    console = client.console()
    assert console["title"] == f"Put {wanted}."
    assert client.snapshot()["pages"]["wall"]["title"] == console["title"]


@pytest.fixture
def fixed(shop):
    append(shop, '[nod.adjust]\nkind = "none"')
    return shop


def test_a_head_without_a_nod_adjuster_is_reported_only(fixed, gauge, client, daemon):
    person = Person(client, gauge)
    person.start()
    person.sweep(**OUT)
    console = client.console()
    assert (console["step"], console["stop_at"]) == ("clear", None)
    assert console["notes"][0] == "Nod: report only."
    client.do("cleared")
    client.do("sign", {"done_by": "T", **PAST})
    assert daemon.events("Signed")[0].data["verdict"] == "does-not-conform"
    assert daemon.events("Loosened") == []


BOLTS = tuple(f"nod bolt {number}" for number in (1, 2, 3, 4))


@pytest.fixture
def bolted(shop):
    named = ", ".join(f'"{bolt}"' for bolt in BOLTS)
    append(shop, f"[nod.tighten]\nbolts = [{named}]\npasses = 1\nlimit = '0.005 mm'")
    return shop


def squared(person: Person) -> None:
    """Nod moved by its 0.080, loose, the gauge parked at the front at 1.100."""
    person.start()
    person.sweep(**OUT)
    person.take("front", 1.200)
    person.done("loosened", 1.200)
    person.done("stopped", 1.100)
    person.take("back", 1.100)
    person.take("front", 1.100)


def out_after_tightening(person: Person) -> None:
    """Squared and tight, and the final sweep finds the nod out."""
    squared(person)
    person.client.do("tightened")
    person.take("front", 1.160)
    person.take("back", 1.160)
    person.sweep(**{**OUT, "front": 1.190, "back": 1.130})


def pull(client: Client, gauge, bolt: str, value_mm: float) -> None:
    gauge.move_to(value_mm)
    client.do("bolt", {"bolt": bolt})


def test_the_bolt_that_moves_the_head_is_named_and_no_verdict_stands(bolted, gauge, client, daemon):
    person = Person(client, gauge)
    squared(person)
    assert client.console()["do"]["bolt"] == BOLTS[0]
    pull(client, gauge, BOLTS[0], 1.100)
    pull(client, gauge, BOLTS[1], 1.101)
    assert client.console()["message"] is None
    assert "nod bolt 3" in refused(client, "bolt", {"bolt": BOLTS[3]})
    gauge.move_to(1.113)
    live = client.until_live(lambda live: live.text == "1.113")
    assert live.to_go == "-0.013"
    client.do("bolt", {"bolt": BOLTS[2]})
    said = client.console()["message"]["say"]
    assert said.startswith("Nod bolt 3 moved the head by 0.012; allowed is 0.005.")
    assert [each.data["over"] for each in daemon.events("BoltPulled")] == [False, False, True]
    pull(client, gauge, BOLTS[3], 1.112)
    for place in ("front", "back"):
        console = client.console()
        assert (console["step"], console["verdict"]) == ("check", None)
        refused(client, "sign", {"done_by": "T", **PAST})
        person.take(place, 1.112)
    console = client.console()
    assert (console["step"], console["verdict"]) == ("final", None)
    refused(client, "cleared")
    person.sweep(front=1.113, right=1.112, back=1.112, left=1.113)
    assert client.console()["verdict"]["word"] == "in"
    recheck(daemon)


def test_of_three_final_sweeps_the_first_decides_or_a_reason_is_required(gauge, client, daemon):
    person = Person(client, gauge)
    out_after_tightening(person)
    client.do("again", {"why": "the ring was not wiped"})
    person.sweep(**{**OUT, "front": 1.180, "back": 1.140})
    client.do("again", {"why": "the arm was loose"})
    person.sweep(front=1.161, right=1.160, back=1.160, left=1.161)
    client.do("cleared")
    (field,) = [f for f in client.console()["actions"][0]["fields"] if f["name"] == "as_left"]
    assert [int(choice["key"]) for choice in field["choices"]] == [2, 3, 4]
    chosen = {"done_by": "T", **PAST, "as_left": 4}
    assert "as_left_why: found nothing" in refused(client, "sign", chosen)
    client.do("sign", {**chosen, "as_left_why": "the ring had a chip under it"})
    (signed,) = daemon.events("Signed")
    listed = [
        (each["number"], each["purpose"], each["words"]["nod"], each["why"], each["as_left"])
        for each in signed.data["sweeps"]
    ]
    assert listed == [
        (1, "as-found", "out", "", False),
        (2, "final", "out", "", False),
        (3, "final", "out", "the ring was not wiped", False),
        (4, "final", "in", "the arm was loose", True),
    ]
    assert signed.data["verdict"] == "conforms"
    assert signed.data["as_left_why"] == "the ring had a chip under it"
    recheck(daemon)


def test_without_a_reason_the_first_final_sweep_decides(gauge, client, daemon):
    person = Person(client, gauge)
    out_after_tightening(person)
    client.do("again", {"why": "the arm was loose"})
    person.sweep(front=1.161, right=1.160, back=1.160, left=1.161)
    client.do("cleared")
    client.do("sign", {"done_by": "T", **PAST})
    (signed,) = daemon.events("Signed")
    assert signed.data["verdict"] == "does-not-conform"
    assert [each["as_left"] for each in signed.data["sweeps"]] == [False, True, False]
