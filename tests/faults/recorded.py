"""What a service does to its disk and what it answers, written down in one order."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests import warm
from tests.faults.calls import Call, Calls
from tests.system.client import Answer, PatientClient


@dataclass(frozen=True)
class Answered:
    """A press was answered: its events are in these rows, or (none) it was told not recorded."""

    id: str
    seqs: tuple[int, ...]


Record = list[Call | Answered]


class Heard(PatientClient):
    """A client that writes down what it was told, after all that was done before it was told."""

    def __init__(self, record: Record) -> None:
        super().__init__()
        self._record = record

    def ask(self, method: str, path: str, body: object = None) -> Answer:
        answer = super().ask(method, path, body)
        if isinstance(body, Mapping) and path.endswith("/commands"):
            told: dict[str, Any] = answer.body
            if answer.status == 200:
                self._record.append(Answered(body["id"], tuple(told["seqs"])))
            elif told["code"] == "not-recorded":
                self._record.append(Answered(body["id"], ()))
        return answer


class Watch:
    """Services whose calls under `root` are written down; `deny` says which of them fail."""

    def __init__(self, root: Path) -> None:
        self.root = str(root)
        self.record: Record = []
        self.deny = deny_none
        self.calls = Calls(self._heed)
        fd = self.calls.theirs.fileno()
        self.forker = warm.Forker(self.calls.python(), pass_fds=[fd])
        self.calls.begin()

    def close(self) -> None:
        self.forker.end()
        self.calls.close()

    def _heed(self, call: Call) -> int:
        if not (call.path.startswith(self.root) or call.to.startswith(self.root)):
            return 0
        wrong = self.deny(call)
        if not wrong:
            self.record.append(call)
        return wrong


def deny_none(call: Call) -> int:
    return 0
