"""What is handed any bytes: each must come to its end, or to one of the product's own sentences.

A target takes bytes and raises for whatever a stranger, a worn cable or a dying card must never
bring about. Where bytes choose (a shape, a file, a route, a place in a ledger), the first ones do.
"""

import contextlib
import io
import itertools
import json
import math
import shutil
import tempfile
from collections.abc import Callable, Mapping
from concurrent.futures import Future
from functools import cache
from pathlib import Path
from typing import Any, get_args

from flask.testing import FlaskClient

from daq import cli
from daq.audit.apply import fold
from daq.audit.state import Shop
from daq.gauges import frames
from daq.gauges.config import read
from daq.ledger import Ledger, LedgerError
from daq.ledger.body import encode
from daq.ledger.reads import DB_NAME
from daq.says import language
from daq.service.files import load, shipped
from daq.service.in_memory import InMemory
from daq.settings import SettingsError
from daq.words import Ack, Command, Draft, Stamp, said
from tests.fuzz.golden import commits, lay_down
from tests.web.conftest import FakeHub, FakePractice, Name
from tests.web.scenes import MACHINE
from tests.words import en
from web.app import create_app

CAPTURES = Path(__file__).parents[1] / "gauges" / "captures"
LONGEST_PROBLEM = 400
"""Characters of one line about a file: what a person reads."""


def pick(data: bytes, among: Any) -> tuple[Any, bytes]:
    """What the first byte chooses, and the other bytes."""
    return among[(data[0] if data else 0) % len(among)], data[1:]


@cache
def gauges() -> tuple[Path, ...]:
    return tuple(sorted(CAPTURES.glob("*.toml")) + sorted((shipped() / "gauges").glob("*.toml")))


@cache
def frame(path: Path) -> Mapping[str, Any]:
    return read(path).frame


def decoders(data: bytes) -> None:
    """Any bytes, split anyhow, to the decoder of any shape."""
    path, data = pick(data, gauges())
    step, data = pick(data, range(1, 18))
    table = frame(path)
    whole, split = frames.decoder(table, path.name), frames.decoder(table, path.name)
    got = whole.feed(data)
    parts = [split.feed(data[at : at + step]) for at in range(0, len(data), step)]
    assert list(itertools.chain(*parts)) == got
    assert split.bad == whole.bad
    for one in got:
        assert math.isfinite(one.value), one
    whole.gap()
    whole.feed(b"")
    assert frames.decoder(table, path.name).amiss(data) in (None, *get_args(frames.Amiss))


@cache
def _shop() -> Path:
    folder = Path(tempfile.mkdtemp()) / "config"
    shutil.copytree(shipped(), folder)
    return folder


@cache
def files() -> tuple[tuple[Path, bytes], ...]:
    paths = sorted(_shop().rglob("*.toml"))
    return tuple((path, path.read_bytes()) for path in paths)


def config(data: bytes) -> None:
    """Any bytes in the place of any file of a shop."""
    (path, was), data = pick(data, files())
    path.write_bytes(data)
    try:
        load(_shop())
    except SettingsError as error:
        for problem in map(en, error.problems):
            assert str(_shop()) in problem, problem
            assert len(problem) < LONGEST_PROBLEM + len(str(path)), problem
    finally:
        path.write_bytes(was)


class House:
    """In the place of the service: decides with its own functions, at any step of an audit."""

    def __init__(self) -> None:
        setup = load(shipped()).audit_setup("practice-mill")
        assert setup is not None
        self.house = InMemory(setup, language().told)
        self.house.machine = commits()[0][0].machine
        self.states = [Shop()]
        for commit in commits():
            self.states.append(fold(commit, self.states[-1]))
        self.at = 0

    def hand_in(self, command: Command) -> "Future[Ack]":
        self.house.shop = self.states[self.at]
        self.house.events.clear()
        reply: Future[Ack] = Future()
        reply.set_result(self.answer(command))
        return reply

    def answer(self, command: Command) -> Ack:
        ack = self.house.press(command.kind, command.payload, lambda: [0.1] * 12)
        try:
            for event in self.house.events:
                json.dumps(event.data)
                encode(_draft(command), "x", event.seq)
        except (RecursionError, TypeError, ValueError):
            return Ack(command.id, False, (), "refused", said("no-audit"))
        return ack


def _draft(command: Command) -> Draft:
    cause = {"payload": dict(command.payload)}
    return Draft("T", 1, "m", "a", Stamp(1, 1, "b", True), "screen", cause, {})


@cache
def _web() -> tuple[FlaskClient, House, tuple[str, ...]]:
    house = House()
    hub = FakeHub()
    hub.names = (Name(MACHINE, "Practice mill"), Name(house.house.machine, "Mill"))
    app = create_app(hub, house, FakePractice(), says=language())  # type: ignore[arg-type]
    rules = [rule for rule in app.url_map.iter_rules() if "POST" in (rule.methods or ())]
    at = {True: MACHINE, False: house.house.machine}
    routes = (r.rule.replace("<machine>", at[r.rule.endswith("/practice")]) for r in rules)
    # Those of machines first: the seeds name a route by its number, whatever else there is.
    ordered = sorted(routes, key=lambda route: ("/machines/" not in route, route))
    return app.test_client(), house, tuple(ordered)


def bodies(data: bytes) -> int:
    """Any body posted to any route, at any step of two audits; gives the answer's status."""
    client, house, routes = _web()
    route, data = pick(data, routes)
    house.at, data = pick(data, range(len(house.states)))
    answer = client.post(route, data=data, content_type="application/json")
    assert answer.status_code in (200, 400, 404, 409, 413, 415, 422, 429), answer.status_code
    assert answer.is_json, answer.data
    return int(answer.status_code)


ACTIONS = ("verify", "show", "export", "recheck", "people", "backup", "open", "restore", "let-go")
CODES = (0, 2, 3, 4)
UNSOUND = 3
FILES = (DB_NAME, f"{DB_NAME}-wal", "ledger.lock", "ledger.seal")


@cache
def _ledger() -> Path:
    """Rows of an audit, most of them still in the log, as a killed service leaves it."""
    folder = Path(tempfile.mkdtemp())
    lay_down(folder / "sound")
    return folder


def ledgers(data: bytes) -> None:
    """A ledger with bytes of any of its files changed, and what may be asked of one."""
    action, data = pick(data, ACTIONS)
    folder = _ledger() / "changed"
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(_ledger() / "sound", folder)
    while len(data) >= 8:
        (name, size, at, data) = (*pick(data, FILES)[:1], data[1], data[2:5], data[5:])
        _patch(folder / name, int.from_bytes(at), data[: size % 32])
        data = data[size % 32 :]
    _asked(action, folder)


def _patch(path: Path, at: int, by: bytes) -> None:
    """Other bytes at a place; none: the file ends there."""
    was = path.read_bytes() if path.exists() else b""
    at %= len(was) + 1
    path.write_bytes(was[:at] + by + was[at + len(by) :] if by else was[:at])


def _kept(folder: Path) -> dict[str, bytes]:
    """What is in a ledger's files, but for what its connections share."""
    return {path.name: path.read_bytes() for path in folder.iterdir() if "shm" not in path.name}


def _asked(action: str, folder: Path) -> None:
    """Only an opening for writing that comes off may change anything."""
    before = _kept(folder)
    try:
        if action == "open":
            Ledger.open(folder, engine="fuzz").close()
            return
        code = _command(action, folder)
        if action == "let-go" and code != UNSOUND:  # it has opened it for writing
            return
    except LedgerError as error:
        assert language().words(error.said)
    assert _kept(folder) == before


def _command(action: str, folder: Path) -> int:
    copy = folder.with_name("copy")
    shutil.rmtree(copy, ignore_errors=True)
    told = {
        "backup": ["--data", str(folder), "--to", str(copy)],
        "restore": ["--data", str(copy), "--from", str(folder)],
        "let-go": ["--data", str(folder), "--older-than", "36500", "--any-clock"],
    }
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = cli.main(["ledger", action, *told.get(action, ["--data", str(folder)])])
    assert code in CODES, code
    assert code == 0 or out.getvalue() or err.getvalue()
    if action in ("backup", "restore") and code == 0:
        Ledger.open(copy).close()
    return code


TARGETS: dict[str, Callable[[bytes], object]] = {
    "decoders": decoders,
    "config": config,
    "bodies": bodies,
    "ledgers": ledgers,
}
