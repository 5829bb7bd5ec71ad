"""Whom a gauge is learned with at a page: what is told, shown and asked, and what is answered."""

import threading
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Final

from daq.gauges.errors import LearnError
from daq.service.rights.access import printable
from daq.words import Said, SaidTrouble, said
from daq.words.learning import (
    AnswerKind,
    KeptGauge,
    LearnChoice,
    LearnQuestion,
    LearnUnderWay,
)

if TYPE_CHECKING:  # what learns is loaded once somebody learns
    from daq.gauges.learn.live.person import Meanwhile, Step

AWAY_NS: Final = 60 * 10**9
"""A learning that nobody has looked at for so long is given up: it holds a port."""

UNANSWERED_NS: Final = 900 * 10**9
"""So is one whose page is looked at and whose question is not answered for so long."""

LONGEST: Final = 80
"""Characters of an answer."""

_FRESH_NS: Final = 10**9
_WAIT_S: Final = 0.02
_STEPS: Final = 5
_LISTENS, _PUSHED, _PAPERS = 2, 4, 5
_AT: Final[Mapping["Step", int]] = {
    "free": 3, "pushed": _PUSHED, "elsewhere": _PUSHED, "again": _PUSHED,
}  # fmt: skip
_BY_PAPER: Final[Mapping[str, AnswerKind]] = {
    "learn-travel": "length", "learn-max-error": "length", "learn-resolution": "length",
    "learn-speed": "speed", "learn-kind": "choice", "learn-due": "date",
}  # fmt: skip
_PASSING: Final = ("learn-tried", "learn-hold", "learn-hold-on", "learn-work")
_KINDS: Final = (
    LearnChoice("plunger", said("set-up-plunger")),
    LearnChoice("lever", said("set-up-lever")),
)


class LearnTalk:
    """Somebody at a page; the gauge is learned on a thread that waits for what they answer."""

    def __init__(self, port: str, person: str, now_ns: Callable[[], int]) -> None:
        """Nothing is told or asked yet."""
        self._port = port
        self._person = person
        self._now_ns = now_ns
        self._turn = threading.Condition()
        self._seen_ns = self._asked_ns = now_ns()
        self._step = 1
        self._told: tuple[Said, ...] = ()
        self._question: LearnQuestion | None = None
        self._number = 0
        self._answer: str | None = None
        self._shown = ("", 0)
        self._skips = False
        self._left: Said | None = None
        self._kept: KeptGauge | None = None
        self.over = False

    def tell(self, say: Said) -> None:
        """Show it above what is asked next; what is done just now until something else is."""
        with self._turn:
            self._told = (*_lasting(self._told), say)
            self._step = max(self._step, _LISTENS)

    def show(self, number: str) -> None:
        """Show it large, for as long as it is of now."""
        self._shown = (number, self._now_ns())

    def skipped(self) -> bool:
        """Return whether the speed that is tried is to be left out."""
        skips, self._skips = self._skips, False
        return skips

    def asked(self, step: "Step", say: Said, meanwhile: "Meanwhile") -> str:
        """Ask, and wait for the answer.  Raises LearnError: they gave up, or do not look."""
        with self._turn:
            self._number += 1
            self._step = max(self._step, self._reached(step))
            self._question = _question(self._number, step, say)
            self._told = _lasting(self._told)
            self._answer, self._asked_ns = None, self._now_ns()
        while True:
            self.wanted()
            with self._turn:
                if self._answer is None:
                    self._turn.wait(_WAIT_S)
                if self._answer is not None:
                    self._question, self._told, self._skips = None, (), False
                    return self._answer
            meanwhile()

    def wanted(self) -> None:
        """Raise LearnError once the person gave up, or nobody has looked or answered for long."""
        if self._left is not None:
            raise LearnError(self._left)
        now_ns, asks = self._now_ns(), self._question is not None
        if now_ns - self._seen_ns > AWAY_NS or (asks and now_ns - self._asked_ns > UNANSWERED_NS):
            raise LearnError(said("learn-nobody"))

    def answer(self, number: int, typed: str) -> None:
        """Answer the question of that number.

        Raises:
            SaidTrouble: another one is asked by now, or that cannot be an answer to it.
        """
        with self._turn:
            asked = self._question
            if asked is None or self._answer is not None or number != asked.number:
                raise SaidTrouble(said("bench-asked-meanwhile"))
            text = printable(typed)
            if len(text) > LONGEST:
                raise SaidTrouble(said("learn-long-answer", found=len(text), most=LONGEST))
            if asked.choices and text and text not in [each.typed for each in asked.choices]:
                raise SaidTrouble(said("learn-no-answer-that", typed=text, asked=asked.say))
            self._answer = text
            self._turn.notify_all()

    def skip(self) -> None:
        """Leave out the speed that is tried."""
        self._skips = True

    def leave(self, why: Said) -> None:
        """Give up, from any thread: whatever is waited for ends soon."""
        self._left = why

    def end(self, why: Said, kept: KeptGauge | None = None) -> None:
        """It is over: say how, below what was told last."""
        with self._turn:
            self._told = (*self._told, why)
            self._question, self._kept, self.over = None, kept, True

    def view(self) -> LearnUnderWay:
        """What is to be seen now; who asks for it looks."""
        with self._turn:
            self._seen_ns = self._now_ns()
            asks = self._question is not None and self._answer is None
            number, shown_ns = self._shown
            fresh = not self.over and self._now_ns() - shown_ns <= _FRESH_NS
            step = said("learn-step", step=self._step, of=_STEPS)
            return LearnUnderWay(
                port=self._port,
                person=self._person,
                state="over" if self.over else "asks" if asks else "listens",
                step=said("learn-over") if self.over else step,
                told=self._told,
                believed=number if fresh else "",
                may_skip=not asks and not self.over and self._step == _LISTENS,
                question=self._question if asks else None,
                kept=self._kept,
            )

    def _reached(self, step: "Step") -> int:
        """The step of all that a question is at: papers are asked about before and after."""
        if step == "told":
            return _PAPERS if self._step >= _PUSHED else 1
        return _AT.get(step, _LISTENS)


def _lasting(told: tuple[Said, ...]) -> tuple[Said, ...]:
    return tuple(each for each in told if each.code not in _PASSING)


def _question(number: int, step: "Step", say: Said) -> LearnQuestion:
    if step == "key":
        return LearnQuestion(number, "press", say, may_skip=False)
    if step != "told":
        return LearnQuestion(number, "face", say, may_skip=step == "elsewhere")
    again = say.of.get("asked")
    kind = _BY_PAPER.get(again.code if isinstance(again, Said) else say.code, "text")
    choices = _KINDS if kind == "choice" else ()
    return LearnQuestion(number, kind, say, may_skip=True, choices=choices)
