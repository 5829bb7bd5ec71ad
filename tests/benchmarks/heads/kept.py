"""What was measured, a head a line in a file: a run that was stopped goes on where it was.

A line says what was asked (`Asked`), the digest of the code that was measured, the processor time
it took, and what came of it. Another code is another answer: its lines are left and not read.
"""

import hashlib
import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import daq

ROOMS = ("audit", "checks", "metrology", "screens", "settings", "squaring", "virtual", "words")
"""What decides an audit in memory, besides `service/in_memory.py`."""
SHOWN = ("kept.py", "shown.py", "table.py")
"""What of this folder only shows what was measured."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is done to one head: which cell's series, by whom, so many audits of it."""

    cell: str
    series: str
    by: str
    seed: int
    number: int
    audits: int


@dataclass(frozen=True, slots=True)
class Result:
    """What came of a head, an entry an audit, and the processor time that took."""

    entries: list[dict[str, Any]]
    cpu_s: float


def digest() -> str:
    """Which code this is: of what decides and of what is decided about, as installed."""
    house, here = Path(daq.__file__).parent, Path(__file__).parent
    files = [path for room in ROOMS for path in house.joinpath(room).rglob("*.py")]
    files += [house / "service" / "in_memory.py", house / "units.py"]
    files += [path for path in here.glob("*.py") if path.name not in SHOWN]
    found = hashlib.sha256()
    for path in sorted(files):
        found.update(path.name.encode() + path.read_bytes())
    return found.hexdigest()[:12]


class Kept:
    """Results by what was asked, of one code; in a file too, if there is one.

    `only`: nothing more is to be measured.
    """

    def __init__(self, path: Path | None, code: str, *, only: bool = False) -> None:
        """Read what is there. A line cut off as it was written is asked for again."""
        self.code, self.only = code, only
        self._found: dict[str, Result] = {}
        self._path = path
        text = path.read_text(encoding="utf-8") if path and path.exists() else ""
        for row in _rows(text):
            if row["code"] == code:
                self._found[_key(Asked(**row["asked"]))] = Result(row["entries"], row["cpu_s"])
        if text and not text.endswith("\n"):
            self._write("")

    @property
    def cpu_s(self) -> float:
        """Processor time of all that is known."""
        return sum(result.cpu_s for result in self._found.values())

    @property
    def heads(self) -> int:
        """How many results are known."""
        return len(self._found)

    @property
    def press_ms(self) -> tuple[float, float]:
        """What a press took of the processor in the mean, and at most."""
        every = [each for found in self._found.values() for each in found.entries]
        pressed = [each for each in every if each.get("presses")]
        if not pressed:
            return 0.0, 0.0
        mean = sum(e["pressed_ms"] for e in pressed) / sum(e["presses"] for e in pressed)
        return mean, max(each["slowest_ms"] for each in pressed)

    def of(self, asked: Asked) -> list[dict[str, Any]] | None:
        """What came of it, if that is known: so many audits or more."""
        result = self._found.get(_key(asked))
        known = result is not None and len(result.entries) >= asked.audits
        return result.entries if result is not None and known else None

    def keep(self, asked: Asked, result: Result) -> None:
        """Know it from now on."""
        self._found[_key(asked)] = result
        self._write(json.dumps({"asked": asdict(asked), "code": self.code, **asdict(result)}))

    def _write(self, row: str) -> None:
        if self._path is not None:
            with self._path.open("a", encoding="utf-8") as file:
                file.write(row + "\n")


def _key(asked: Asked) -> str:
    return f"{asked.series} {asked.by} {asked.seed} {asked.number}"


def _rows(text: str) -> Iterator[dict[str, Any]]:
    for line in text.splitlines():
        try:
            yield json.loads(line)
        except ValueError:
            continue
