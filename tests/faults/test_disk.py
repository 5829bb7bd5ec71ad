"""A disk that fills up under the running service, and gets room again."""

import json
import os
import subprocess
import uuid
from contextlib import closing
from pathlib import Path

import pytest

from tests.system.daemon import HEADSWEEP, Daemon

DISK_MB = 24
"""The service wants 16 MB free; with the ledger's own files this leaves some."""
MOUNT = f'mount -t tmpfs -o size={DISK_MB}m tmpfs "$0" && exec "$@"'


class Disk:
    """A small disk under the data folder, in a mount name space that only the daemon lives in."""

    def __init__(self, daemon: Daemon) -> None:
        self._daemon = daemon
        folder = daemon.shop.data
        folder.mkdir()
        self.before = ["unshare", "--map-root-user", "--mount", "sh", "-c", MOUNT, str(folder)]

    @property
    def folder(self) -> Path:
        """The data folder as the daemon sees it."""
        return Path(f"/proc/{self._daemon.pid}/root") / self._daemon.shop.data.relative_to("/")

    @property
    def ballast(self) -> Path:
        return self.folder / "ballast"

    def fill(self, leave_bytes: int = 0) -> None:
        """Fill it up, but for so many bytes."""
        found = os.statvfs(self.folder)
        free = found.f_bavail * found.f_frsize
        with self.ballast.open("wb") as file:
            os.posix_fallocate(file.fileno(), 0, free - leave_bytes)

    def free(self) -> None:
        self.ballast.unlink()

    def positions(self) -> list[str]:
        """Where readings were taken, as the ledger has it."""
        inside = ["nsenter", "--target", str(self._daemon.pid), "--user", "--mount"]
        export = [HEADSWEEP, "ledger", "export", "--data", self._daemon.shop.data]
        done = subprocess.run(
            [*inside, "--preserve-credentials", *export], capture_output=True, text=True, check=True
        )
        bodies = [json.loads(json.loads(line)["body"]) for line in done.stdout.splitlines()]
        taken = [body["data"]["reading"] for body in bodies if body["type"] == "ReadingTaken"]
        return [reading["position"] for reading in taken]


@pytest.fixture
def daemon(shop):
    running = Daemon(shop)
    running.disk = Disk(running)
    with closing(running.start(running.disk.before)):
        yield running


def test_a_full_disk_is_on_the_screen_loses_nothing_and_needs_no_restart(
    person, gauge, client, daemon
):
    person.start()
    person.take("front", 1.200)
    assert client.snapshot()["recording"] == {"ok": True, "say": ""}
    daemon.disk.fill()
    snapshot = client.until(lambda snapshot: not snapshot["recording"]["ok"])
    assert snapshot["recording"]["say"].startswith("NOT RECORDED from now on: ")
    assert client.ask("GET", "/healthz").status == 503
    gauge.move_to(1.160)
    take = {"kind": "take", "payload": {"position": "right"}, "id": str(uuid.uuid4())}
    refused = client.post(**take)
    assert (refused.status, refused.body["code"]) == (503, "not-recorded")
    assert "the disk is full" in refused.body["reason"]
    full = client.snapshot()
    assert full["recording"]["say"].startswith("NOT RECORDED: ")
    assert (full["seq"], full["pages"]) == (snapshot["seq"], snapshot["pages"])
    daemon.disk.free()
    client.until(lambda snapshot: snapshot["recording"]["ok"])
    (seq,) = client.do(**take)
    assert seq == snapshot["seq"] + 1
    assert client.ask("GET", "/healthz").status == 200
    assert daemon.disk.positions() == ["front", "right"]


def test_a_disk_nearly_full_is_said_and_still_records(person, client, daemon):
    daemon.disk.fill(leave_bytes=8_000_000)
    snapshot = client.until(lambda snapshot: not snapshot["recording"]["ok"])
    assert snapshot["recording"]["say"].startswith("The disk is nearly full: ")
    person.start()
    assert client.snapshot()["recording"]["say"].startswith("The disk is nearly full: ")


def test_a_zero_pressed_while_the_disk_is_full_is_not_forgotten(person, gauge, client, daemon):
    """The stop-at is wrong from then on: nothing may be recorded before the zero is."""
    person.start()
    person.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    person.take("front", 1.200)
    assert client.console()["stop_at"] is not None
    daemon.disk.fill()
    client.until(lambda snapshot: not snapshot["recording"]["ok"])
    gauge.jump_to(0.0)
    client.until_live(lambda live: live.value_mm == 0.0)
    client.until(lambda snapshot: snapshot["recording"]["say"].startswith("NOT RECORDED: "))
    refused = client.post("loosened")
    assert (refused.status, refused.body["code"]) == (503, "not-recorded")
    daemon.disk.free()
    snapshot = client.until(lambda snapshot: snapshot["recording"]["ok"])
    console = snapshot["pages"]["console"]
    assert console["message"]["say"] == "Zeroed: read this spot again."
    assert console["stop_at"] is None
