"""The real service in a process of its own, and the gauge's end of its cable."""

import contextlib
import http.client
import json
import os
import re
import socket
import subprocess
import sys
import time
import tty
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from daq.service.rights import wall

CONFIG = Path(__file__).resolve().parents[2] / "config"
PORT = Path("ttys/practice")
"""Where the shipped practice gauge has its port, in the data folder."""

STREAM = "/api/machines/practice-mill/stream"
HOST = "127.0.0.1"


class Wire:
    """A pseudo-terminal that sends numbered frames, named by a link where one is wanted.

    Both ends stay open here, so that no program coming or going hangs it up.
    """

    def __init__(self, link: Path | None = None) -> None:
        """Open it; `link` will point to the end that is read."""
        self._master, self._slave = os.openpty()
        tty.setraw(self._slave)
        os.set_blocking(self._master, False)
        self.name = os.ttyname(self._slave)
        if link is not None:
            link.parent.mkdir(parents=True, exist_ok=True)
            link.unlink(missing_ok=True)
            link.symlink_to(self.name)

    def send(self, number: int) -> None:
        """Send the frame of that number of micrometres; it is lost if nobody reads for long."""
        with contextlib.suppress(BlockingIOError):
            os.write(self._master, b"+%07.3f mm\r\n" % (number / 1000))

    def close(self) -> None:
        """Hang up."""
        os.close(self._slave)
        os.close(self._master)


@dataclass(frozen=True)
class Running:
    """A process that listens on `port`; `headers` go with whatever is asked of it."""

    pid: int
    port: int
    headers: Mapping[str, str] = field(default_factory=dict)

    def memory(self) -> int:
        """Return its resident memory, bytes."""
        return resident(self.pid)


def resident(pid: int) -> int:
    """Return a process's resident memory, bytes."""
    status = Path(f"/proc/{pid}/status").read_text(encoding="ascii")
    found = re.search(r"^VmRSS:\s*(\d+) kB$", status, re.MULTILINE)
    if found is None:
        raise ValueError(f"/proc/{pid}/status: no VmRSS; allowed: a live process")
    return 1024 * int(found[1])


@contextmanager
def running(command: list[str]) -> Iterator[Running]:
    """Start a program that tells its address ("…:PORT/") on a line; end it afterwards."""
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    try:
        assert process.stdout is not None
        line = process.stdout.readline()
        told = re.search(r":(\d+)/", line)
        if told is None:
            raise RuntimeError(f"{' '.join(command)}: said {line!r}; expected an address")
        port = int(told[1])
        yield Running(process.pid, port, _entered(command, port))
    finally:
        process.terminate()
        try:
            process.communicate(timeout=15)
        except subprocess.TimeoutExpired:
            process.kill()
            process.communicate()


def _entered(command: list[str], port: int) -> Mapping[str, str]:
    """What the service's own wall is known by; nothing where nobody asks who it is."""
    sent = {"Content-Type": "application/json"}
    if "--data" not in command:
        return sent
    key = wall.key(Path(command[command.index("--data") + 1]))
    with closing(http.client.HTTPConnection(HOST, port, timeout=60)) as line:
        line.request("GET", f"/own?ticket={wall.ticket(key, time.monotonic_ns())}")
        with line.getresponse() as answer:
            answer.read()
            sent["Cookie"] = str(answer.getheader("Set-Cookie")).partition(";")[0]
        line.request("GET", "/api/screen", headers=sent)
        with line.getresponse() as answer:
            return sent | {"X-Page-Token": json.loads(answer.read())["token"]}


def service(data: Path, config: Path = CONFIG) -> list[str]:
    """The command that runs the service; as shipped, on the practice gauge's port in `data`."""
    where = ["--config", str(config), "--data", str(data), "--listen", f"{HOST}:0"]
    # -P: the installed package is measured, whatever the current folder holds.
    return [sys.executable, "-P", "-m", "daq", "run", *where]


def screen(daemon: Running, stream: str = STREAM) -> socket.socket:
    """Return a connection that has just asked for a machine's stream."""
    connection = socket.create_connection((HOST, daemon.port), timeout=10)
    connection.sendall(f"GET {stream} HTTP/1.1\r\nHost: {HOST}\r\n{lines(daemon)}\r\n".encode())
    return connection


def lines(daemon: Running) -> str:
    """The headers as they stand in a request."""
    return "".join(f"{name}: {value}\r\n" for name, value in daemon.headers.items())
