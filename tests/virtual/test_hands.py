"""The practice hands, against a small made-up page that asks for one thing after another."""

import dataclasses
import datetime
import itertools
import threading
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from daq.virtual import Hands, MillSpec, VirtualMill
from daq.words import PARKED, Ack, Axis, Live
from tests.patience import PATIENCE_S

SWEEP = ("front", "right", "back", "left", "front")


def page(step: str, do: dict[str, Any], kind: str, **given: Any) -> dict[str, Any]:
    fields = given.pop("fields", [])
    first = {"kind": "undo", "say": "Undo", "payload": {}, "primary": False}
    action = {"kind": kind, "payload": given, "primary": True, "fields": fields}
    return {"step": step, "do": do, "actions": [first, action], "audit": "A", "question": None}


def take(step: str, position: str) -> dict[str, Any]:
    return page(step, {"kind": "swing", "position": position}, "take", position=position)


NAME = {"name": "done_by", "type": "text", "required": True}
DATE = {"name": "last_good", "type": "date", "required": True}
CHOICE = {
    "name": "disposition",
    "type": "choice",
    "required": True,
    "choices": [{"key": "none-made", "say": "Nothing was made"}, {"key": "held", "say": "Held"}],
}
NOTE = {"name": "note", "type": "text", "required": False}


def one_axis(axis: Axis) -> list[dict[str, Any]]:
    return [
        take("park", PARKED[axis]),
        page("loosen", {"kind": "loosen", "axis": axis}, "loosened", axis=axis),
        page("move", {"kind": "turn", "axis": axis, "stop_at_text": "?"}, "moved", axis=axis),
        page("tighten", {"kind": "tighten", "axis": axis}, "tightened", axis=axis),
    ]


def script() -> list[dict[str, Any]]:
    nothing: dict[str, Any] = {"kind": "nothing"}
    idle = page("idle", nothing, "open", reason="after-angled-work")
    idle["actions"].append({"kind": "open", "payload": {"reason": "scheduled"}})
    asking = page("question", nothing, "answer", key="other-way")
    asking["question"] = {"say": "?", "answers": [{"key": "other-way", "say": "Yes"}]}
    return [
        idle,
        page("prepare", nothing, "prepared"),
        page("touch-free", {"kind": "free"}, "take", position=None),
        page("touch-push", {"kind": "push"}, "pushed"),
        *(take("as-found", p) for p in SWEEP),
        asking,
        *one_axis("nod"),
        *one_axis("side"),
        *(take("final", p) for p in SWEEP),
        page("sign", nothing, "sign", fields=[NAME, DATE, CHOICE, NOTE]),
        page("signed", nothing, "open", reason="scheduled"),
    ]


class Inbox:
    """A stand-in for the whole house: shows the script, takes what is pressed, knows no mill.

    The stop-at comes from the textbook rule: base + (R + p)(w - t) - h/2 (w² - t²).
    """

    def __init__(self, mill: VirtualMill, pages: list[dict[str, Any]], *, told: bool) -> None:
        self.mill = mill
        self.pages = pages
        self.at = 0
        self.told = told
        self.posts: list[tuple[str, Mapping[str, Any]]] = []
        self.grudge: dict[int, list[str]] = {}
        self.stop_at: float | None = None
        self.count = itertools.count()
        self.ends: list[float] = []
        self.base = 0.0
        self.parked_lean = mill.truth()

    def snapshot(self) -> dict[str, Any]:
        shown = self.pages[self.at]
        if shown["do"]["kind"] == "turn" and self.stop_at is not None:
            shown = {**shown, "do": {**shown["do"], "stop_at_text": f"{self.stop_at:.3f}"}}
        return {"pages": {"console": shown}}

    def live(self) -> Live:
        text = self.mill.state()["number"].split()[0]
        go = None if self.stop_at is None else self.stop_at - float(text)
        mm = go if self.told else None
        return Live("g", "r", next(self.count), text, "mm", float(text), 5, True, None, mm)

    def post(self, kind: str, given: dict[str, Any]) -> Ack:
        if self.grudge.get(self.at):
            return Ack("c", False, (), self.grudge[self.at].pop(), "not now")
        wanted = [a["kind"] for a in self.pages[self.at]["actions"]]
        assert kind in wanted[1:], (kind, wanted)
        self.posts.append((kind, given))
        self.follow(kind, given)
        self.at = (self.at + 1) % len(self.pages)
        return Ack("c", True, (1,), "ok")

    def follow(self, kind: str, given: Mapping[str, Any]) -> None:
        number = float(self.mill.state()["number"].split()[0])
        if kind == "loosened":
            axis: Axis = given["axis"]
            joint = self.mill.spec.joint(axis)
            x, y, lean = joint.pivot_x_mm, joint.pivot_y_mm, self.parked_lean[axis]
            p = -x + joint.coupling * y if axis == "side" else y - joint.coupling * x
            reach = self.mill.spec.radius_mm + p
            self.stop_at = self.base - reach * lean + joint.pivot_height_mm / 2.0 * lean**2
        elif kind == "moved":
            assert self.stop_at is not None
            self.ends.append(number - self.stop_at)
            self.stop_at = None
        elif kind == "take":
            self.base, self.parked_lean = number, self.mill.truth()


@pytest.mark.parametrize("told", [True, False])
def test_hands_square_the_head_by_doing_what_the_page_says(mill: VirtualMill, told: bool) -> None:
    inbox = Inbox(mill, script(), told=told)
    hands = Hands(inbox.snapshot, inbox.post, inbox.live, mill, pause_s=0.0)
    start = {axis: lean * 200.0 for axis, lean in mill.truth().items()}
    assert all(abs(lean) == pytest.approx(0.5) for lean in start.values())
    while inbox.pages[inbox.at]["step"] != "signed":
        assert hands.step()
    # Left over: the tightening's shift, the other axis's coupling, 2 µm of hand.
    assert all(abs(lean * 200.0) < 0.03 for lean in mill.truth().values())
    assert len(inbox.ends) == 2
    assert all(abs(end) <= 0.003 for end in inbox.ends)
    kinds = [kind for kind, _ in inbox.posts]
    assert kinds[:4] == ["open", "prepared", "take", "pushed"]
    assert inbox.posts[0][1] == {"reason": "scheduled"}
    assert ("answer", {"key": "other-way"}) in inbox.posts
    assert mill.state()["bolts"] == {"side": "tight", "nod": "tight"}


def test_signing_fills_what_must_be_filled_and_nothing_else(mill: VirtualMill) -> None:
    inbox = Inbox(mill, script()[-2:], told=True)
    assert Hands(inbox.snapshot, inbox.post, inbox.live, mill, pause_s=0.0).step()
    kind, given = inbox.posts[0]
    assert kind == "sign"
    assert given["done_by"] == "Practice hands"
    assert given["disposition"] == "none-made"
    assert datetime.date.fromisoformat(given["last_good"]) < datetime.date.today()
    assert "note" not in given


def test_signed_the_head_is_thrown_again_once_and_the_next_audit_opened(mill: VirtualMill) -> None:
    inbox = Inbox(mill, script()[-1:], told=True)
    inbox.grudge = {0: ["stale", "refused"]}
    hands = Hands(inbox.snapshot, inbox.post, inbox.live, mill, pause_s=0.0)
    before = mill.truth()
    assert not hands.step()
    thrown = mill.truth()
    assert thrown != before
    assert not hands.step()
    assert hands.step()
    assert mill.truth() == thrown
    assert inbox.posts == [("open", {"reason": "scheduled"})]


def test_a_lost_number_is_not_pressed_away(mill: VirtualMill) -> None:
    inbox = Inbox(mill, one_axis("nod"), told=True)
    inbox.at = 2
    hands = Hands(inbox.snapshot, inbox.post, inbox.live, mill, pause_s=0.0)
    assert not hands.step()
    assert inbox.posts == []


FOR_EVER_S = 3600.0
"""A thread that waited for the end of such a pause would never come to an end itself."""


def test_the_thread_tries_again_after_refusals_and_errors_and_stops_at_once(
    mill: VirtualMill, tmp_path: Path
) -> None:
    inbox = Inbox(mill, script(), told=True)
    inbox.grudge = {1: ["stale"], 2: ["refused", "not-recorded"]}
    failed = iter([True])
    done = threading.Event()

    def shaky() -> dict[str, Any]:
        if inbox.at == 3 and next(failed, False):
            raise OSError("the page is away")
        if inbox.pages[inbox.at]["step"] == "as-found":
            done.set()
        return inbox.snapshot()

    hands = Hands(shaky, inbox.post, inbox.live, mill, pause_s=FOR_EVER_S)
    hands.start()
    hands.start()
    assert done.wait(PATIENCE_S)
    hands.stop()
    hands.stop()
    assert inbox.at >= 4


def test_stopping_does_not_wait_for_the_pause(mill: VirtualMill) -> None:
    inbox = Inbox(mill, script()[-1:], told=True)
    looked = threading.Event()

    def snapshot() -> dict[str, Any]:
        looked.set()
        return inbox.snapshot()

    hands = Hands(snapshot, inbox.post, inbox.live, mill, pause_s=FOR_EVER_S)
    hands.start()
    assert looked.wait(PATIENCE_S)
    hands.stop()
    assert inbox.posts == []


def test_hands_pull_up_the_bolts_one_by_one_as_they_are_named(mill: VirtualMill) -> None:
    mill.loosen("nod")
    bolts = ("upper", "lower", "upper", "lower")
    pages = [
        page("tighten", {"kind": "bolt", "axis": "nod", "bolt": bolt}, "bolt", bolt=bolt)
        for bolt in bolts
    ]
    inbox = Inbox(mill, pages, told=True)
    hands = Hands(inbox.snapshot, inbox.post, inbox.live, mill, pause_s=0.0)
    seen = [mill.truth()["nod"]]
    for _ in bolts:
        assert hands.step()
        seen.append(mill.truth()["nod"])
    assert len(set(seen)) == 5
    assert [given["bolt"] for _, given in inbox.posts] == list(bolts)
    assert mill.state()["bolts"]["nod"] == "tight"


@pytest.mark.parametrize(("kind", "turned"), [("turn-ring", "ring_deg"), ("turn-arm", "arm_deg")])
def test_hands_turn_ring_and_arm_under_the_lifted_contact_and_set_it_down(
    mill: VirtualMill, kind: str, turned: str
) -> None:
    mill.set_on()
    inbox = Inbox(mill, [page("reverse", {"kind": kind}, "turned")], told=True)
    assert Hands(inbox.snapshot, inbox.post, inbox.live, mill, pause_s=0.0).step()
    assert getattr(mill._head.state, turned) == 180.0
    assert mill.state()["contact"] == "set"


@pytest.mark.parametrize("axis", ["side", "nod"])
def test_a_little_turn_back_goes_against_the_last_turn_of_a_move(
    mill: VirtualMill, axis: Axis
) -> None:
    pages = [
        page("move", {"kind": "nudge", "axis": axis, "back": back}, "stopped")
        for back in (False, True)
    ]
    mill.loosen(axis)
    inbox = Inbox(mill, pages, told=True)
    hands = Hands(inbox.snapshot, inbox.post, inbox.live, mill, pause_s=0.0)
    seen = [mill.truth()[axis]]
    for _ in pages:
        assert hands.step()
        seen.append(mill.truth()[axis])
    assert (seen[1] - seen[0]) * (seen[2] - seen[1]) < 0.0


def test_hands_let_go_of_the_adjuster_before_they_press(tmp_path: Path) -> None:
    joint = dataclasses.replace(MillSpec().nod, rest_mm=0.005)
    mill = VirtualMill(MillSpec(nod=joint), tty_link=tmp_path / "gauge", speed=1000.0, seed=3)
    mill.set_on()
    inbox = Inbox(mill, one_axis("nod"), told=True)
    hands = Hands(inbox.snapshot, inbox.post, inbox.live, mill, pause_s=0.0)
    for _ in range(3):
        assert hands.step()
    # Raising the front was the last turn; 5 µm across the sweep go back where the gauge
    # stands, at the front, (100 + 180) / 200 of them.
    assert inbox.ends[0] == pytest.approx(0.005 * 280.0 / 200.0, abs=0.0035)


def test_hands_on_an_untold_mill_need_no_port(tmp_path: Path) -> None:
    """Everything but the number's way to the house works with the cable out."""
    mill = VirtualMill(MillSpec(), tty_link=tmp_path / "gauge", speed=1000.0)
    inbox = Inbox(mill, script(), told=True)
    hands = Hands(inbox.snapshot, inbox.post, inbox.live, mill, pause_s=0.0)
    for _ in range(5):
        assert hands.step()
    assert mill.state()["contact"] == "set"
