"""A real broker on a loopback port, that can be killed, held and started again, and who listens."""

import getpass
import json
import os
import shutil
import signal
import socket
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from paho.mqtt.client import Client
from paho.mqtt.enums import CallbackAPIVersion

from tests.patience import until

MOSQUITTO = shutil.which("mosquitto", path=f"{os.environ['PATH']}:/usr/sbin")
LINES = """
user {user}
persistence true
persistence_location {folder}/
autosave_on_changes true
autosave_interval 20
"""


def free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as held:
        return held.getsockname()[1]


class Broker:
    """Forgets nobody who subscribed: what comes while it was killed is there once it is back."""

    def __init__(self, folder: Path, lines: str = "allow_anonymous true") -> None:
        self.port = free_port()
        folder.mkdir(exist_ok=True)
        self._config = folder / "broker.conf"
        known = LINES.format(user=getpass.getuser(), folder=folder)
        self._config.write_text(f"listener {self.port} 127.0.0.1\n{lines}{known}", "utf-8")
        self._log = folder / "broker.log"
        self._process: subprocess.Popen[bytes] | None = None
        assert MOSQUITTO, "mosquitto is not installed: tests/run does so"

    @property
    def log(self) -> str:
        return self._log.read_text("utf-8")

    def start(self) -> "Broker":
        with self._log.open("ab") as log:
            command = [MOSQUITTO, "-c", self._config, "-v"]
            self._process = subprocess.Popen(command, stdout=log, stderr=log)
        until(self._answers, lambda: self.log)
        return self

    def _answers(self) -> bool:
        assert self._process is not None and self._process.poll() is None, self.log
        with suppress(OSError), socket.create_connection(("127.0.0.1", self.port)):
            return True
        return False

    def signal(self, number: signal.Signals) -> None:
        assert self._process is not None
        self._process.send_signal(number)

    def kill(self) -> None:
        """SIGKILL: nobody is told."""
        if self._process is not None:
            self._process.kill()
            self._process.wait()
            self._process = None


@contextmanager
def broker(folder: Path, lines: str = "allow_anonymous true") -> Iterator[Broker]:
    made = Broker(folder, lines)
    try:
        yield made.start()
    finally:
        made.kill()


class Listener:
    """Hears every topic; each message is kept with its topic as it came."""

    def __init__(self, port: int, name: str = "listener") -> None:
        self.got: list[tuple[str, dict[str, object], bool]] = []
        self.subscribed = 0
        self._client = Client(CallbackAPIVersion.VERSION2, client_id=name, clean_session=False)
        self._client.reconnect_delay_set(1, 1)
        self._client.on_connect = lambda client, *_: client.subscribe("#", qos=1)
        self._client.on_subscribe = self._on
        self._client.on_message = self._message
        self._client.connect_async("127.0.0.1", port)
        self._client.loop_start()
        until(lambda: self.subscribed)

    def _on(self, *_: object) -> None:
        self.subscribed += 1

    def _message(self, _client, _data, message) -> None:
        self.got.append((message.topic, json.loads(message.payload), message.retain))

    def of(self, kind: str) -> list[dict[str, object]]:
        return [each for _, each, _ in list(self.got) if each["kind"] == kind]

    def rows(self) -> list[int]:
        return [each["seq"] for _, each, _ in list(self.got) if "seq" in each]

    def close(self) -> None:
        self._client.disconnect()
        self._client.loop_stop()


@contextmanager
def listening(port: int, name: str) -> Iterator[Listener]:
    listener = Listener(port, name)
    try:
        yield listener
    finally:
        listener.close()
