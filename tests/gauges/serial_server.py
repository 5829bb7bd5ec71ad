"""Debian's serial servers in front of a terminal: ser2net and socat, on loopback ports."""

import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

from tests.patience import until
from tests.service.messages.broker import free_port

SBIN = f"{os.environ['PATH']}:/usr/sbin"
NET, CAT = (shutil.which(program, path=SBIN) for program in ("ser2net", "socat"))
LISTENS, CONNECTED = "0A", "01"
"""Linux, net/tcp_states.h: a socket's state in /proc/net/tcp."""


class SerialServer:
    """One of them, that can be killed and started again on the same port."""

    def __init__(self, command: Callable[[int], list[str]], log: Path) -> None:
        assert NET and CAT, "ser2net or socat is not installed: tests/run does so"
        self.port = free_port()
        self._command = command(self.port)
        self._log = log
        self._process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        with self._log.open("ab") as log:
            self._process = subprocess.Popen(self._command, stdout=log, stderr=log)
        until(self._listens, lambda: self._log.read_text("utf-8"))

    def _listens(self) -> bool:
        """Whether it takes connections, or has taken the only one; trying would use that up."""
        assert self._process is not None and self._process.poll() is None, self._log.read_text()
        rows = [row.split() for row in Path("/proc/net/tcp").read_text("ascii").splitlines()[1:]]
        own = [row[3] for row in rows if row[1].endswith(f":{self.port:04X}")]
        return LISTENS in own or CONNECTED in own

    def kill(self) -> None:
        if self._process is not None:
            self._process.kill()
            self._process.wait()
            self._process = None


def ser2net(folder: Path, accepter: str, device: Path) -> SerialServer:
    """One connection at a time; `accepter` is "tcp" or "telnet(rfc2217),tcp"."""

    def command(port: int) -> list[str]:
        config = folder / "server.yaml"
        config.write_text(
            f"connection: &gauge\n  accepter: {accepter},127.0.0.1,{port}\n"
            f"  connector: serialdev,{device},9600n81,local\n",
            encoding="utf-8",
        )
        return [str(NET), "-n", "-u", "-c", str(config)]

    return SerialServer(command, folder / "server.log")


def socat(folder: Path, device: Path) -> SerialServer:
    """A plain connection."""

    def command(port: int) -> list[str]:
        listens = f"TCP-LISTEN:{port},bind=127.0.0.1,reuseaddr"
        return [str(CAT), listens, f"FILE:{device},raw,echo=0"]

    return SerialServer(command, folder / "server.log")
