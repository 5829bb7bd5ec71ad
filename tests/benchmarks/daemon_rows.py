"""Rows 12, 13 and 14: the daemon's memory, its first number, and screens that vanish."""

import http.client
import json
import select
import socket
import struct
import subprocess
import sys
import threading
import time
import uuid
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path
from statistics import median
from typing import Any

from daemon import HOST, PORT, Running, Wire, resident, running, screen, service

from daq.gauges.ring import CAPACITY
from daq.service.rights import pins
from daq.service.rights.store import Store
from daq.virtual.hands import Hands
from daq.virtual.mill import VirtualMill
from daq.virtual.spec import MillSpec
from daq.words import Ack, Live
from web.stream import BEAT_S

MACHINE = "/api/machines/practice-mill"
FRESH = b'"fresh":true'
SCREENS = 8
PIN = "271828"
SPEED = 8.0
"""How fast the practice hands work; the gauge still takes its time to settle."""

Row = tuple[str, float, float, float]


def first_number(folder: Path, repeats: int) -> list[Row]:
    """Row 13: from the command to a live number on a screen, against three imports."""
    own, bare = [], []
    for turn in range(repeats):
        data = folder / f"first-{turn}"
        with _talking(data / PORT, 50.0):
            begin = time.monotonic()
            with running(service(data)) as daemon, screen(daemon) as connection:
                _until(connection, FRESH)
                own.append(time.monotonic() - begin)
        begin = time.monotonic()
        with _imported("flask, numpy, pint"):
            bare.append(time.monotonic() - begin)
    label = "command to first live number / importing flask, numpy, pint"
    return [(label, median(own), median(bare), 3.0)]


def vanished(folder: Path, repeats: int) -> list[Row]:
    """Row 14: from a screen's hanging up to its place being free again; the worst of all.

    No gauge talks meanwhile: nothing but the beat is written to the screens.
    """
    own = []
    with (
        closing(Wire(folder / PORT)),
        running(service(folder)) as daemon,
        closing(http.client.HTTPConnection(HOST, daemon.port, timeout=10)) as health,
    ):
        for turn in range(repeats):
            connection = screen(daemon)
            _until(connection, b"event: beat")
            time.sleep(BEAT_S * turn / repeats)  # at another moment of the beat each time
            if turn % 2:  # reset, as by a screen that crashed, rather than closed
                linger = struct.pack("ii", 1, 0)
                connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, linger)
            begin = time.monotonic()
            connection.close()
            while _asked(daemon, health, "GET", "/healthz")["streams"]:
                time.sleep(0.005)
            own.append(time.monotonic() - begin)
    return [("worst time to free a vanished screen / heartbeat", max(own), BEAT_S, 2.0)]


def memory(folder: Path, repeats: int, audit_s: float, frames: int = CAPACITY) -> list[Row]:
    """Row 12, in bytes: the daemon with eight screens, against what it imports at the least.

    First as it began, then after an audit (or as much of one as `audit_s` allows), then after
    `frames` more samples: with the default, every place for samples is taken and nothing
    grows any more.
    """
    bare = []
    for _ in range(repeats):
        with _imported("flask, waitress, serial, apsw") as pid:
            bare.append(resident(pid))
    mill = VirtualMill(MillSpec(), tty_link=folder / PORT, speed=SPEED, seed=1)
    mill.start()
    with ExitStack() as opened:
        daemon = opened.enter_context(running(service(folder)))
        opened.enter_context(_watching(daemon))
        with screen(daemon) as connection:
            _until(connection, b"event: beat")
        begun = daemon.memory()
        try:
            _audit(daemon, folder, mill, audit_s)
        finally:
            mill.stop()
        audited = daemon.memory()
        wire = opened.enter_context(closing(Wire(folder / PORT)))
        with screen(daemon) as connection:
            wire.send(1)
            _until(connection, FRESH, lambda: wire.send(1))
        for number in range(frames):
            wire.send(number % 1000)
            time.sleep(0.0003)
        full = daemon.memory()
    anchor = median(bare)
    taken = {"at first": begun, "after an audit": audited, "with every sample kept": full}
    return [
        (f"memory {when} / importing flask, waitress, pyserial, apsw", own, anchor, 1.8)
        for when, own in taken.items()
    ]


@contextmanager
def _imported(modules: str) -> Iterator[int]:
    """A fresh interpreter (its process id) that has just imported these modules."""
    code = f"import {modules}; print(flush=True); input()"
    command = [sys.executable, "-P", "-c", code]
    pipe = subprocess.PIPE
    with subprocess.Popen(command, stdin=pipe, stdout=pipe) as process:
        assert process.stdout is not None
        process.stdout.readline()
        yield process.pid
        process.communicate(b"\n")


@contextmanager
def _beside(work: Callable[[threading.Event], None]) -> Iterator[None]:
    """Do something in a thread until the block ends."""
    over = threading.Event()
    thread = threading.Thread(target=work, args=(over,))
    thread.start()
    try:
        yield
    finally:
        over.set()
        thread.join()


@contextmanager
def _talking(link: Path, rate_hz: float) -> Iterator[None]:
    """A gauge that sends whether anybody reads or not."""
    with closing(Wire(link)) as wire:

        def talk(over: threading.Event) -> None:
            while not over.wait(1.0 / rate_hz):
                wire.send(1234)

        with _beside(talk):
            yield


@contextmanager
def _watching(daemon: Running) -> Iterator[None]:
    """Screens that read whatever comes."""
    with ExitStack() as opened:
        seats = [opened.enter_context(screen(daemon)) for _ in range(SCREENS)]

        def watch(over: threading.Event) -> None:
            while not over.is_set():
                for seat in select.select(seats, [], [], 0.1)[0]:
                    seat.recv(65536)

        with _beside(watch):
            yield


def _until(
    connection: socket.socket, wanted: bytes, again: Callable[[], None] = lambda: None
) -> None:
    """Read a stream until something stands in it, doing `again` at each piece."""
    seen = b""
    while wanted not in seen:
        data = connection.recv(65536)
        if not data:
            raise ConnectionError(f"hung up before {wanted!r}")
        seen = seen[-len(wanted) :] + data
        again()


def _asked(
    daemon: Running,
    line: http.client.HTTPConnection,
    method: str,
    path: str,
    body: Mapping[str, Any] | None = None,
) -> Any:
    line.request(method, path, json.dumps(body) if body else None, daemon.headers)
    with line.getresponse() as answer:
        return json.loads(answer.read())


def _audit(daemon: Running, data: Path, mill: VirtualMill, most_s: float) -> None:
    """Square the mill by the screen's own advice, until signed or for so long."""
    signed = threading.Event()

    def ask(method: str, path: str, body: Mapping[str, Any] | None = None) -> Any:
        with closing(http.client.HTTPConnection(HOST, daemon.port, timeout=30)) as line:
            return _asked(daemon, line, method, MACHINE + path, body)

    def post(kind: str, payload: Mapping[str, Any]) -> Ack:
        signs = dict.fromkeys(("done_by", "reviewed_by") if kind == "sign" else (), PIN)
        if signs:
            pins.enrol(Store(data), payload["done_by"], PIN, "sign", {})
        command = {"id": str(uuid.uuid4()), "kind": kind, "payload": payload, "pins": signs}
        ack = Ack(**ask("POST", "/commands", command))
        if kind == "sign" and ack.accepted:
            signed.set()
        return ack

    hands = Hands(lambda: ask("GET", "/snapshot"), post, lambda: Live(**ask("GET", "/live")), mill)
    hands.start()
    signed.wait(most_s)
    hands.stop()
