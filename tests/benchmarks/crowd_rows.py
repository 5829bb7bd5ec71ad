"""Row 15: how soon /healthz answers while presses wait, and while connections are left open."""

import http.client
import json
import math
import socket
import threading
import time
import uuid
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, closing, contextmanager, suppress
from itertools import cycle
from pathlib import Path
from typing import Any

from daemon import HOST, PORT, Running, Wire, lines, running, service

READY = dict.fromkeys(
    ("bare", "clean", "centred", "locked"), True
)  # the first card, all four ticked

COMMANDS = "/api/machines/practice-mill/commands"
SERIAL_NUMBER = "P-0417"
READY = dict.fromkeys(("bare", "clean", "centred", "locked"), True)
"""The first card, all four ticked."""
RATE_HZ = 50
TAKES, IDLE, SLOW = 60, 500, 100
A_PEER = 15
"""Fewer than the service lets wait, or keeps, of one address."""

REACH_S = 0.5
TRICKLES_S = 0.1

Row = tuple[str, float, float, float]


def measure(folder: Path, asked: int) -> list[Row]:
    """The 99th percentile of so many answers in a crowd, against as many while it is quiet."""
    with _shaken(folder / PORT), running(service(folder)) as daemon:
        _press(daemon, "open", {"reason": "practice"})
        _press(daemon, "readied", READY)
        _press(daemon, "warmed", {"warm": True})
        _press(daemon, "prepared", {"serial_number": SERIAL_NUMBER})
        quiet = _p99(daemon, asked)
        with _takes(daemon):
            takes = _p99(daemon, asked)
        with _connections(daemon):
            left = _p99(daemon, asked)
    reach = REACH_S / quiet
    return [
        (f"/healthz with {TAKES} takes waiting / while it is quiet", takes, quiet, reach),
        (f"/healthz with {IDLE} idle, {SLOW} slow connections / quiet", left, quiet, reach),
    ]


def _p99(daemon: Running, asked: int) -> float:
    took = []
    for _ in range(asked):
        begin = time.monotonic()
        with closing(http.client.HTTPConnection(HOST, daemon.port, timeout=60)) as line:
            line.request("GET", "/healthz", headers=daemon.headers)
            line.getresponse().read()
        took.append(time.monotonic() - begin)
    return sorted(took)[math.ceil(0.99 * asked) - 1]


@contextmanager
def _shaken(link: Path) -> Iterator[None]:
    """A gauge whose number never rests, so that no take settles."""
    with closing(Wire(link)) as wire, _again_and_again(1.0 / RATE_HZ) as numbers:
        numbers.append(lambda turn: wire.send(500 * (turn % 2)))
        yield


@contextmanager
def _again_and_again(every_s: float) -> Iterator[list[Any]]:
    """Do what is put into the list, with the number of the turn, until the block ends."""
    over, work = threading.Event(), list[Any]()

    def turn() -> None:
        number = 0
        while not over.wait(every_s):
            number += 1
            for each in work:
                each(number)

    thread = threading.Thread(target=turn)
    thread.start()
    try:
        yield work
    finally:
        over.set()
        thread.join()


def _request(kind: str, payload: Mapping[str, Any]) -> bytes:
    return json.dumps({"id": str(uuid.uuid4()), "kind": kind, "payload": payload}).encode()


def _press(daemon: Running, kind: str, payload: Mapping[str, Any]) -> None:
    with closing(http.client.HTTPConnection(HOST, daemon.port, timeout=60)) as line:
        line.request("POST", COMMANDS, _request(kind, payload), daemon.headers)
        with line.getresponse() as answer:
            if answer.status != http.client.OK:
                raise RuntimeError(f"{kind}: {answer.read()!r}")


def _peers(daemon: Running, count: int, first: int) -> Iterator[socket.socket]:
    """Connections of so many addresses that none has too many."""
    addresses = cycle(f"127.0.{first}.{n}" for n in range(1, 2 + count // A_PEER))
    for _, address in zip(range(count), addresses, strict=False):
        yield socket.create_connection((HOST, daemon.port), 60, (address, 0))


@contextmanager
def _takes(daemon: Running) -> Iterator[None]:
    """One take, sent as often as an impatient crowd would: all wait for it that may."""
    body = _request("take", {})
    head = f"POST {COMMANDS} HTTP/1.1\r\nHost: {HOST}\r\n{lines(daemon)}"
    with ExitStack() as opened:
        for peer in _peers(daemon, TAKES, 1):
            opened.enter_context(peer)
            peer.sendall(f"{head}Content-Length: {len(body)}\r\n\r\n".encode() + body)
        yield


@contextmanager
def _connections(daemon: Running) -> Iterator[None]:
    """Idle connections, and some that send a request so slowly that it is never whole."""
    with ExitStack() as opened:
        for peer in _peers(daemon, IDLE, 2):
            opened.enter_context(peer)
        slow = [opened.enter_context(peer) for peer in _peers(daemon, SLOW, 3)]
        sends = opened.enter_context(_again_and_again(TRICKLES_S))
        sends.append(lambda turn: _trickle(slow, b"G" if turn == 1 else b"e"))
        yield


def _trickle(slow: list[socket.socket], byte: bytes) -> None:
    for each in slow:
        with suppress(OSError):  # the service may hang up on it
            each.send(byte)
