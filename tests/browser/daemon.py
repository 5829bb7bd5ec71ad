"""`headsweep demo` in a process of its own, and its plain HTTP side."""

import http.client
import json
import os
import shutil
import signal
import subprocess
import sysconfig
import uuid
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

from daq.ledger import LedgerView
from daq.service.files import shipped
from daq.virtual.mill import VirtualMill
from daq.virtual.spec import MillSpec
from daq.words import Event
from tests import warm
from tests.patience import PATIENCE_S

HEADSWEEP = str(Path(sysconfig.get_path("scripts")) / "headsweep")
MACHINE = "practice-mill"
SPEED = 40
SEED = 4


class Demo:
    """One practice mill and its pages; `folder` keeps the record across restarts."""

    def __init__(self, folder: Path, program: Sequence[str] = ()) -> None:
        """Started by `program` where one is given, else from what has imported everything."""
        self.data = folder / "data"
        self.port = 0
        self._said = folder / "stderr.txt"
        self._program = program
        self._process: subprocess.Popen[str] | warm.Started | None = None

    def start(self) -> "Demo":
        """Start on a free port, or after that on the same one; returns once it serves."""
        options = ["demo", "--port", str(self.port), "--data", str(self.data), "--no-browser"]
        options += ["--speed", str(SPEED), "--seed", str(SEED)]
        with self._said.open("a", encoding="utf-8") as said:
            self._process = warm.started(self._program, options, said)
        assert self._process.stdout is not None
        address = self._process.stdout.readline()
        assert address.startswith("headsweep "), f"it did not start: {self.stderr}"
        self.port = int(address.rstrip("/\n").rpartition(":")[2])
        return self

    @property
    def stderr(self) -> str:
        return self._said.read_text(encoding="utf-8")

    @property
    def pid(self) -> int:
        assert self._process is not None
        return self._process.pid

    @contextmanager
    def frozen(self) -> Iterator[None]:
        """SIGSTOP for the length of the block."""
        os.kill(self.pid, signal.SIGSTOP)
        try:
            yield
        finally:
            os.kill(self.pid, signal.SIGCONT)

    def kill(self) -> None:
        """What a power cut looks like to a process."""
        self._end(signal.SIGKILL)

    def stop(self) -> None:
        """Stop it if it runs: it must end by itself, without a word."""
        if self._process is not None:
            assert self._end(signal.SIGTERM) == 0, self.stderr
            assert "Traceback" not in self.stderr, self.stderr

    def _end(self, number: signal.Signals) -> int:
        process, self._process = self._process, None
        assert process is not None
        assert process.stdout is not None
        process.send_signal(number)
        try:
            return process.wait(PATIENCE_S)
        finally:
            process.kill()
            process.wait()
            process.stdout.close()

    def config(self) -> Path:
        """The shop's files as shipped, in this demo's own folder; to be called before `start`."""
        folder = self.data / "config"
        shutil.copytree(shipped(), folder)
        return folder

    def address(self, page: str) -> str:
        """Where a browser finds one of the machine's pages."""
        return f"http://127.0.0.1:{self.port}/machines/{MACHINE}/{page}"

    def machines(self) -> list[str]:
        """The machines served."""
        return [str(machine["key"]) for machine in self._ask("GET", "/api/machines")]

    def snapshot(self) -> dict[str, Any]:
        return self._ask("GET", "snapshot")

    def press(self, kind: str, payload: Mapping[str, Any]) -> None:
        """Hand in a command as a screen does; it must be carried out."""
        self._ask("POST", "commands", {"id": str(uuid.uuid4()), "kind": kind, "payload": payload})

    def console(self) -> dict[str, Any]:
        return self.snapshot()["pages"]["console"]

    def verify(self) -> "subprocess.CompletedProcess[str]":
        """`headsweep ledger verify` on this demo's record."""
        return self.ledger("verify")

    def ledger(self, action: str) -> "subprocess.CompletedProcess[str]":
        """Any `headsweep ledger` command on this demo's record."""
        return subprocess.run(
            [HEADSWEEP, "ledger", action, "--data", str(self.data)],
            capture_output=True,
            text=True,
            timeout=PATIENCE_S,
            check=False,
        )

    def events(self, kind: str = "") -> list[Event]:
        """What the record holds of the machine, of one type or of all."""
        with LedgerView.open(self.data) as view:
            return [e for e in view.events() if e.machine and kind in ("", e.type)]

    def people(self) -> dict[str, str]:
        """The names of those the record's rows name, by id."""
        with LedgerView.open(self.data) as view:
            return view.people()

    def out_of_square_mm(self) -> dict[str, float]:
        """How far the stopped mill's head really is out, across the sweep."""
        spec = MillSpec()
        mill = VirtualMill(
            spec, tty_link=self.data / "unused", state_file=self.data / "practice-mill.json"
        )
        return {axis: 2 * spec.radius_mm * lean for axis, lean in mill.truth().items()}

    def _ask(self, method: str, path: str, body: object = None) -> Any:
        with closing(
            http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE_S)
        ) as line:
            sent = None if body is None else json.dumps(body)
            path = path if path.startswith("/") else f"/api/machines/{MACHINE}/{path}"
            line.request(method, path, sent, {"Content-Type": "application/json"})
            with line.getresponse() as answer:
                said = json.loads(answer.read())
                assert answer.status == 200, said
                return said

    # The mill's one pair of hands, without a screen.

    def do(self, verb: str, **args: str | float) -> None:
        self._ask("POST", "practice", {"verb": verb, "args": args})

    def face(self) -> str:
        """What stands on the gauge's own face, with its unit."""
        return str(self._ask("GET", "practice")["number"])
