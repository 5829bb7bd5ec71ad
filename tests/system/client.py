"""A plain HTTP client of the daemon, as a screen or a pedal would be."""

import http.client
import json
import uuid
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from daq.service.rights import wall
from daq.words import Ack, Live
from tests.cards import READY
from tests.entry import as_own_wall, pins_of
from tests.patience import PATIENCE_S, until
from tests.system.shop import MACHINE


@dataclass(frozen=True)
class Answer:
    """One answer: its status and its JSON."""

    status: int
    body: Any


def faults(snapshot: dict[str, Any]) -> list[dict[str, Any]]:
    """What is said of gauges: not that a start still checks its record."""
    return [fault for fault in snapshot["faults"] if fault["code"] != "record"]


def codes(snapshot: dict[str, Any]) -> list[str]:
    return [fault["code"] for fault in faults(snapshot)]


class Client:
    """Asks one daemon as its own wall would; `port` is where it listens now."""

    def __init__(self) -> None:
        self.port = 0
        self.data = Path()
        self.headers = {"Content-Type": "application/json"}

    def enter(self, data: Path) -> None:
        """Come in by the key in the daemon's data folder, where it has one.

        Without a record nobody is asked who they are; once there is one, `ask` tries again.
        """
        self.data = data
        self.headers.pop("Cookie", None)
        if (data / wall.NAME).exists():
            with closing(self._line()) as line:
                self.headers |= as_own_wall(line, data)

    def _line(self) -> http.client.HTTPConnection:
        return http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE_S)

    def ask(self, method: str, path: str, body: object = None) -> Answer:
        """One request, JSON in and out; bytes are sent as they are."""
        answer = self._asked(method, path, body)
        if answer.status == http.HTTPStatus.FORBIDDEN and "Cookie" not in self.headers:
            self.enter(self.data)
            answer = self._asked(method, path, body)
        return answer

    def _asked(self, method: str, path: str, body: object) -> Answer:
        sent = body if isinstance(body, bytes | None) else json.dumps(body).encode()
        with closing(self._line()) as line:
            line.request(method, path, sent, self.headers)
            with line.getresponse() as answer:
                return Answer(answer.status, json.loads(answer.read()))

    def snapshot(self) -> dict[str, Any]:
        return self.ask("GET", f"/api/machines/{MACHINE}/snapshot").body

    def console(self) -> dict[str, Any]:
        return self.snapshot()["pages"]["console"]

    def live(self) -> Live:
        return Live(**self.ask("GET", f"/api/machines/{MACHINE}/live").body)

    def post(self, kind: str, payload: Mapping[str, Any] | None = None, **more: object) -> Answer:
        """Post a command; `more` are other fields of it, such as id or expects_seq."""
        pins = pins_of(self.data, kind, payload or {})
        body = {"id": str(uuid.uuid4()), "kind": kind, "payload": payload or {}, "pins": pins}
        body |= more
        return self.ask("POST", f"/api/machines/{MACHINE}/commands", body)

    def do(self, kind: str, payload: Mapping[str, Any] | None = None, **more: object) -> list[int]:
        """Post a command that must be carried out; returns the events it made."""
        answer = self.post(kind, payload, **more)
        assert answer.status == 200, answer
        return answer.body["seqs"]

    def opened(self, reason: str = "scheduled") -> None:
        """An audit opened, the table ready and the spindle warm: to be prepared."""
        self.do("open", {"reason": reason})
        self.do("readied", READY)
        self.do("warmed", {"warm": True})

    def press(self, kind: str, payload: Mapping[str, Any]) -> Ack:
        """Post what a person presses who looks at the newest screen."""
        return Ack(**self.post(kind, payload, expects_seq=self.snapshot()["seq"]).body)

    def until(self, true_of: Callable[[dict[str, Any]], object]) -> dict[str, Any]:
        """Wait for a snapshot of which something is true."""
        return until(lambda: s if true_of(s := self.snapshot()) else None, self.snapshot)

    def until_live(self, true_of: Callable[[Live], object]) -> Live:
        """Wait for a live number of which something is true."""
        return until(lambda: live if true_of(live := self.live()) else None, self.live)

    @contextmanager
    def stream(self) -> Iterator[http.client.HTTPResponse]:
        """An open event stream, its first lines read."""
        with closing(self._line()) as line:
            line.request("GET", f"/api/machines/{MACHINE}/stream", headers=self.headers)
            with line.getresponse() as answer:
                assert answer.status == 200
                assert answer.readline() == b"retry: 1000\n"
                yield answer


TOO_OFTEN = 429


class PatientClient(Client):
    """One that presses oftener than a person may, and waits where it is told so."""

    def ask(self, method: str, path: str, body: object = None) -> Answer:
        ask = super().ask

        def let_in() -> Answer | None:
            answer = ask(method, path, body)
            return None if answer.status == TOO_OFTEN else answer

        answer = until(let_in)
        assert answer is not None
        return answer
