"""The installed `headsweep`, started as a shop starts it, and what may be asked of it."""

import signal
import subprocess
import sysconfig
from collections.abc import Sequence
from pathlib import Path

from daq.ledger import LedgerView
from daq.words import Event
from tests import warm
from tests.patience import PATIENCE_S
from tests.system.client import Client
from tests.system.shop import Shop

HEADSWEEP = str(Path(sysconfig.get_path("scripts")) / "headsweep")


def headsweep(*args: str | Path, timeout: float = PATIENCE_S) -> "subprocess.CompletedProcess[str]":
    """Run one command to its end."""
    return subprocess.run(
        [HEADSWEEP, *map(str, args)], capture_output=True, text=True, timeout=timeout, check=False
    )


def run_in(shop: Shop, listen: str = "127.0.0.1:0") -> "subprocess.CompletedProcess[str]":
    """`headsweep run` where it is expected to give up at once."""
    return headsweep("run", "--config", shop.config, "--data", shop.data, "--listen", listen)


class Daemon:
    """`headsweep run` in a process of its own, on a free port."""

    def __init__(
        self,
        shop: Shop,
        program: Sequence[str] = (),
        forker: warm.Forker | None = None,
        *,
        in_memory: bool = True,
    ) -> None:
        """Start `program` where one is given, else a service that has imported everything.

        `in_memory`: the tests' folders may be.
        """
        self.shop = shop
        self._options = ("--data-in-memory",) if in_memory else ()
        self._program = program
        self._forker = forker
        self.client = Client()
        self._said = shop.config.with_name("stderr.txt")
        self._process: subprocess.Popen[str] | warm.Started | None = None

    @property
    def pid(self) -> int:
        assert self._process is not None
        return self._process.pid

    @property
    def alive(self) -> bool:
        return self._process is not None and self._process.poll() is None

    @property
    def stderr(self) -> str:
        return self._said.read_text(encoding="utf-8")

    def start(self, before: Sequence[str] = ()) -> "Daemon":
        """Start it and wait until its pages are served; `before` goes before the command."""
        command = [*self.command(), *self._options]
        with self._said.open("a", encoding="utf-8") as said:
            program = (*before, *(self._program or (HEADSWEEP,))) if before else self._program
            self._process = warm.started(program, command, said, self._forker)
        assert self._process.stdout is not None
        address = self._process.stdout.readline()
        if not address.startswith("headsweep "):
            self.kill()
            raise AssertionError(f"it did not start: {self.stderr}")
        self.client.port = int(address.rstrip("/\n").rpartition(":")[2])
        # What it sees there may be a disk of its own.
        root = Path(f"/proc/{self.pid}/root") if before else Path("/")
        self.client.enter(root / self.shop.data.relative_to("/"))
        return self

    def command(self) -> Sequence[str]:
        """What the program is told."""
        return (
            *("run", "--config", str(self.shop.config), "--data", str(self.shop.data)),
            *("--listen", "127.0.0.1:0"),
        )

    def kill(self) -> None:
        """What a power cut looks like to a process."""
        self.end(signal.SIGKILL)

    def stop(self) -> None:
        """SIGTERM: it must end by itself, with exit code 0 and no traceback."""
        code = self.end(signal.SIGTERM)
        assert code == 0, f"exit code {code}: {self.stderr}"
        assert "Traceback" not in self.stderr

    def end(self, number: signal.Signals) -> int:
        """Send a signal, wait for the end and return the exit code."""
        assert self._process is not None
        self._process.send_signal(number)
        return self.ended()

    def ended(self) -> int:
        """Wait for the end and return the exit code."""
        process = self._process
        assert process is not None
        assert process.stdout is not None
        try:
            return process.wait(PATIENCE_S)
        finally:
            process.kill()
            process.wait()
            process.stdout.close()
            self._process = None

    def close(self) -> None:
        """The end of a test: stop it if it still runs."""
        if self._process is not None:
            self.stop()

    def events(self, kind: str = "") -> list[Event]:
        """What the ledger holds of the machine, of one type or of all."""
        with LedgerView.open(self.shop.data) as view:
            return [e for e in view.events() if e.machine and kind in ("", e.type)]
