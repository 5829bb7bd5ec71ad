"""A hub, an inbox and a practice mill made of plain data, and the scenes they show."""

from collections.abc import Callable, Mapping
from concurrent.futures import Future
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.templating import Environment
from flask.testing import FlaskClient
from jinja2.bccache import Bucket, BytecodeCache

from daq.audit.state import Shop
from daq.service.files import what_is_good
from daq.service.read_anew import ReadAnew
from daq.service.rise import Rise
from daq.service.set_up.shop_set_up import ShopSetUp
from daq.words import Ack, Command, Live, Said, SaidTrouble, Snapshot, said
from tests.web.scenes import MACHINE, SITUATIONS, scene
from web.app import create_app

LIVE = Live("bench", "run-1", 7, "1.204", "mm", 1.204, 12, True)
NONE = Live("", "", 0, "", "mm", 0.0, 0, False)


class Compiled(BytecodeCache):
    """Templates as compiled once, for every application that a test makes."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, str], Any] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        bucket.code = self._kept.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket: Bucket) -> None:
        self._kept[bucket.key, bucket.checksum] = bucket.code


class Templates(Environment):
    """An application's templates, compiled by whichever came first."""

    compiled = Compiled()

    def __init__(self, app: Flask, **options: Any) -> None:
        super().__init__(app, **{"bytecode_cache": self.compiled} | options)


Flask.jinja_environment = Templates


@dataclass(frozen=True)
class Name:
    key: str
    say: str
    amiss: Said | None = None


class FakeHub:
    """Shows what the test publishes. A stream's thread asks once a turn whether it is `still`."""

    def __init__(self) -> None:
        self.names: tuple[Name, ...] = (Name(MACHINE, "Practice mill"),)
        self.people: Mapping[str, str] = {}
        self.current = scene("idle")
        self.number = NONE
        self.ok = True
        self.held = False
        self.turns = 0
        self.told: list[Callable[[str, str], None]] = []
        self.rise = Rise(lambda: None)
        self.refused: list[tuple[str, str, str, str]] = []

    def machines(self) -> tuple[Name, ...]:
        return self.names

    def snapshot(self, machine: str) -> Snapshot:
        return replace(self.current, machine=machine)

    def live(self, machine: str) -> Live:
        return self.number

    @property
    def still(self) -> bool:
        self.turns += 1
        return self.held

    def follow(self, tell: Callable[[str, str], None]) -> None:
        self.told.append(tell)

    def refuse(self, machine: str, kind: str, why: str, command: str = "") -> None:
        self.refused.append((machine, kind, why, command))

    def health(self) -> Mapping[str, Any]:
        return {"ok": self.ok, "gauges": {"bench": "ok"}}

    def publish(self, live: Live | None = None, snapshot: Snapshot | None = None) -> None:
        self.number = live or self.number
        self.current = snapshot or self.current
        for tell in self.told:
            if live:
                tell(MACHINE, "live")
            if snapshot:
                tell(MACHINE, "snapshot")


class FakeInbox:
    """Answers every command with `code`, and remembers what reached it."""

    def __init__(self) -> None:
        self.got: list[Command] = []
        self.code = "ok"
        self.reason = ""
        self.changed: tuple[str, ...] = ()

    def hand_in(self, command: Command) -> "Future[Ack]":
        self.got.append(command)
        ok = self.code == "ok"
        reply: Future[Ack] = Future()
        seqs = (42,) if ok else ()
        reply.set_result(Ack(command.id, ok, seqs, self.code, self.reason, self.changed))
        return reply


PRACTICE = {
    "position": "front",
    "set_up": "ring",
    "contact": "set",
    "bolts": {"side": "tight", "nod": "loose"},
    "plugged": True,
    "fault": "none",
    "picture": {"side_deg": 6.0, "nod_deg": -3.5, "azimuth_deg": -90.0, "down": True},
    "lesson": said("lesson-aim", lesson="chip"),
    "operations": [
        {"verb": "swing", "say": said("panel-place", place="left"), "args": {"position": "left"}},
        {"verb": "push", "say": said("panel-push"), "args": {}},
        {
            "verb": "turn",
            "say": said("panel-turn", axis="nod", lower="front", much="a-touch"),
            "args": {"axis": "nod", "amount_mm": 0.004},
        },
        {"verb": "unplug", "say": said("panel-unplug"), "args": {}},
    ],
}


RUN = {
    "lesson": "chip",
    "name": said("lesson", lesson="chip"),
    "aim": said("lesson-aim", lesson="chip"),
    "nth": 2,
    "learner": "A. Learner",
    "audit": "11111111-2222-4333-8444-555555555555",
    "state": "signed",
    "say": said("workmanship", score=92, whole=100),
    "score": 92,
    "lost": [
        {"points": 8, "row": 12, "say": said("lost", why="spot", called="back", stood="left")}
    ],
    "shown": False,
    "truth": [],
}
LESSONS = {
    "lessons": [{key: RUN[key] for key in ("lesson", "name", "aim")}],
    "now": RUN,
    "runs": [RUN, {**RUN, "nth": 1, "learner": ""}],
}


class FakePractice:
    def __init__(self) -> None:
        self.did: list[tuple[str, str, Mapping[str, Any]]] = []
        self.began: list[tuple[str, str, tuple[float, float]]] = []
        self.showed: list[int] = []

    def lessons(self, machine: str) -> Mapping[str, Any]:
        return LESSONS

    def begin(self, machine: str, lesson: str, learner: str, error_mm: tuple[float, float]) -> None:
        if lesson not in ("", "chip", "known"):
            raise SaidTrouble(said("none-of-these", name="lesson", found=lesson, allowed="chip"))
        self.began.append((lesson, learner, error_mm))

    def show(self, machine: str, nth: int) -> None:
        self.showed.append(nth)

    def state(self, machine: str) -> Mapping[str, Any]:
        if machine != MACHINE:
            raise KeyError(machine)
        return PRACTICE

    def do(self, machine: str, verb: str, args: Mapping[str, Any]) -> None:
        if verb == "turn" and args.get("axis") not in ("side", "nod"):
            found = repr(args.get("axis"))
            why = said("none-of-these", name="axis", found=found, allowed="side, nod")
            raise SaidTrouble(why)
        self.did.append((machine, verb, args))


def shop_set_up(folder: Path) -> ShopSetUp:
    """What sets a shop up whose files are, or are to be, in `folder`; nothing is begun anew."""
    return ShopSetUp(folder, what_is_good(folder), lambda: "2026-11-29", ReadAnew(Shop))


@pytest.fixture
def hub() -> FakeHub:
    return FakeHub()


@pytest.fixture
def inbox() -> FakeInbox:
    return FakeInbox()


@pytest.fixture
def practice() -> FakePractice:
    return FakePractice()


@pytest.fixture
def app(hub: FakeHub, inbox: FakeInbox, practice: FakePractice) -> Flask:
    return create_app(hub, inbox, practice, hosts=("mill-pi.local",), max_streams=3)


@pytest.fixture
def scenes() -> dict[str, Snapshot]:
    """One snapshot for each step a screen can stand at."""
    return {name: scene(name) for name in SITUATIONS}


@pytest.fixture
def reading() -> Live:
    return LIVE


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    return app.test_client()
