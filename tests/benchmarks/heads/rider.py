"""A person who does whatever the console says, and nothing else, until the audit is signed."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from daq.audit.decide import Refused
from daq.audit.events import Moved, Signed
from daq.words import Position

from .mill import Mill
from .service import SAMPLES, Service
from .shop import MM_AN_INCH

MOST_PRESSES = 400
PUSH_MM = 1.2
NOT_SURE = ("sweep-again", "check-again", "read-again")
"""What is answered in doubt, the first of these that is offered."""

Plain = Mapping[str, Any]


class LostError(Exception):
    """The console led nowhere."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """How an audit ended: side and nod, mm across the sweep.

    `read_mm` is what the as-left sweep showed, `true_mm` where the head really stands.
    `lost`: why it did not end, else empty.
    """

    moves: int
    verdict: str
    read_mm: tuple[float, float] = (0.0, 0.0)
    true_mm: tuple[float, float] = (0.0, 0.0)
    asked: int = 0
    lost: str = ""

    def inside(self, limit_mm: float) -> bool:
        """Whether the head truly stands inside on both axes."""
        return max(map(abs, self.true_mm)) <= limit_mm


class Rider:
    """One audit on one mill."""

    def __init__(self, mill: Mill, service: Service) -> None:
        self.mill = mill
        self.service = service
        self.place: Position | None = None
        self.moves = 0
        self.asked = 0

    def ride(self) -> Outcome:
        """Open an audit, obey, sign. An audit that leads nowhere is told, not raised."""
        try:
            return self._obey()
        except (LostError, Refused) as error:
            job = self.service.machine.job
            step = job.step if job else "no audit"
            return Outcome(self.moves, "lost", asked=self.asked, lost=f"{step}: {error}")

    def _obey(self) -> Outcome:
        self._press("open", {"reason": "scheduled"})
        for _ in range(MOST_PRESSES):
            view = self.service.view
            self._hands(view["do"])
            action = self._choose(view)
            done = self._press(action["kind"], {**action["payload"], **_filled(action["fields"])})
            signed = next((data for data in done if isinstance(data, Signed)), None)
            if signed is not None:
                read = tuple(result.d_mm for result in signed.as_left)
                return Outcome(
                    self.moves,
                    signed.verdict,
                    (read[0], read[1]),
                    self.mill.differences(),
                    self.asked,
                )
        raise LostError(f"not signed after {MOST_PRESSES} presses")

    def _hands(self, do: Plain) -> None:
        """What the hands do before the button is pressed."""
        match do["kind"]:
            case "free" | "push":
                self.place = None
            case "swing":
                self.place = do["position"]
            case "tighten":
                self.mill.tighten(do["axis"])
            case "turn":
                stop = float(do["stop_at_text"]) * self._scale
                self.mill.turn(do["axis"], self._here(), stop)
            case "nudge":
                self.mill.nudge(do["axis"], back=do["back"])
            case "loosen" | "nothing":
                pass
            case other:
                raise LostError(f"hands do not know how to {other}")

    def _choose(self, view: Plain) -> Plain:
        """The primary button; a question is answered with doubt, as nothing was touched."""
        actions = view["actions"]
        primary = [action for action in actions if action["primary"]]
        if primary:
            return primary[0]
        self.asked += 1
        answers = {a["payload"]["key"]: a for a in actions if a["kind"] == "answer"}
        for key in NOT_SURE:
            if key in answers:
                return answers[key]
        raise LostError(f"nothing to press: {view['title']}")

    def _press(self, kind: str, payload: Plain) -> tuple[object, ...]:
        command = self.service.command(kind, payload)
        want = self.service.wants(command)
        done = self.service.decide(command, () if want == "nothing" else self._shown(kind))
        for data in done:
            if isinstance(data, Moved):
                self.moves += 1
                self.mill.let_go(data.axis, self._here())
        return done

    def _shown(self, kind: str) -> tuple[float, ...]:
        """The gauge's numbers since the last press."""
        if self.place is None:
            free = self.mill.in_air()
            return (free, free + PUSH_MM, free) if kind == "pushed" else (free,) * SAMPLES
        return (self.mill.indication(self.place),) * SAMPLES

    def _here(self) -> Position:
        if self.place is None:
            raise LostError("the gauge hangs in the air")
        return self.place

    @property
    def _scale(self) -> float:
        return MM_AN_INCH if self.service.files.machine.unit == "in" else 1.0


def _filled(fields: list[Plain]) -> dict[str, str]:
    """Every required field of a form, filled in."""
    return {
        each["name"]: "2026-05-01" if each["type"] == "date" else _word(each)
        for each in fields
        if each["required"]
    }


def _word(field: Plain) -> str:
    choices = field["choices"]
    if not choices:
        return "D. B."
    first = choices[0]
    return str(first["key"] if isinstance(first, Mapping) else first)
