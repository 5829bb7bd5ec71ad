"""The obedient machinist: does what the console says, step by step, and knows nothing else."""

from dataclasses import dataclass

from daq.virtual import orders
from daq.virtual.wires.scale import MM_PER_INCH
from daq.virtual.workplace import CannotError, Plain, Workplace
from daq.words import AXES, Ack, Axis

MOST_STEPS = 400
"""More than any audit takes: whoever is told so much is led in a circle."""


@dataclass(frozen=True, slots=True)
class Hand:
    """How one person works.

    `name`: what is signed with. `answers`: keys of the answers this person gives where a
    question has no usual one, the first that is offered; without any, the first answer, and
    the second once reading again has led to the same question. `miss_mm`: how far past each
    stop-at a turn ends, on the gauge's face. `pace_s`: from the hands' work to the press.
    """

    name: str = "Practice hands"
    answers: tuple[str, ...] = ()
    miss_mm: float = 0.0
    pace_s: float = 0.0


class Machinist:
    """One person at one machine. What cannot be done is raised with the screen's own text."""

    def __init__(self, at: Workplace, hand: Hand | None = None) -> None:
        """Stand at the machine."""
        self.at = at
        self.hand = hand or Hand()
        self._asked = ""

    def work(self, *until: str, most: int = MOST_STEPS) -> Plain:
        """Obey until the console is at one of these steps, and return it.

        Raises:
            CannotError: something could not be done, was refused, or it never came to that.
        """
        for _ in range(most):
            page = self.at.look()
            if page["step"] in until:
                return page
            self.step(page)
        raise _cannot(f"{most} steps and not yet at {' or '.join(until)}", self.at.look())

    def step(self, page: Plain | None = None) -> Ack:
        """Do and press the one next thing; `page` is the console, if it was looked at already.

        Raises:
            CannotError: there is nothing to press, the hands cannot do it, or it is refused
                though the screen still asks for it.
        """
        page = self.at.look() if page is None else page
        action = self._choose(page)
        self.obey(page)
        self.at.wait(self.hand.pace_s)
        kind = action["kind"]
        written = orders.payload(action, self.hand.name, self.at.today(), self.at.number)
        ack = self.at.press(kind, written)
        if not ack.accepted and self.at.look()["step"] == page["step"]:
            reason = str(ack.reason).rstrip(".")
            raise _cannot(f"{kind} was not taken ({ack.code}): {reason}", page)
        return ack

    def obey(self, page: Plain) -> None:
        """Do with the hands what a console says is to be done before its button is pressed.

        Raises:
            CannotError: the hands cannot.
        """
        try:
            self._do(page, page["do"])
        except CannotError as error:
            raise _cannot(str(error), page) from error

    def _do(self, page: Plain, do: Plain) -> None:
        match do["kind"]:
            case "free":
                self.at.lift()
            case "push":
                self.at.push()
            case "swing":
                self.at.swing(do["position"])
                if do.get("flick"):
                    self.at.flick()
            case "slow-turn":
                self.at.slow_turn()
            case "station":
                self.at.come(do)
            case "turn-ring":
                self.at.turn_round("ring")
            case "turn-arm":
                self.at.turn_round("arm")
            case "loosen":
                for axis in _axes(do):
                    self.at.crack(axis)
            case "turn":
                self.at.turn(do["axis"], self._reads(page))
            case "nudge":
                self.at.nudge(do["axis"], back=do["back"])
            case "tighten":
                for axis in _axes(do):
                    self.at.pull(axis)
            case "bolt":
                self.at.pull(do["axis"], str(do["bolt"]))
            case "nothing":
                pass
            case other:
                raise CannotError(f"hands do not know how to {other}")

    def _reads(self, page: Plain) -> float:
        """The number this person stops at."""
        try:
            stop_at = float(page["do"]["stop_at_text"])
        except ValueError:
            raise CannotError("no number to stop at") from None
        scale = MM_PER_INCH if page.get("unit") == "in" else 1.0
        return stop_at + self.hand.miss_mm / scale

    def _choose(self, page: Plain) -> Plain:
        question = (page.get("question") or {}).get("say", "")
        again = bool(question) and question == self._asked
        self._asked = question or self._asked
        action = orders.asked(page, self.hand.answers, again=again)
        if action is None:
            raise _cannot("nothing to press", page)
        return action


def _axes(do: Plain) -> tuple[Axis, ...]:
    return AXES if do.get("both") else (do["axis"],)


def _cannot(what: str, page: Plain) -> CannotError:
    message, question = page.get("message") or {}, page.get("question") or {}
    said = (page.get("title"), page.get("detail"), message.get("say"), question.get("say"))
    return CannotError(f"{what}. The screen: {' / '.join(text for text in said if text)}")
