"""Who is asked in the check of a gauge at a page: each question waits for its answer there."""

import threading
from collections.abc import Sequence
from typing import Final

from daq.gauges.ring import Ring
from daq.service.bench_asks import BenchQuestion, GivenUp
from daq.service.bench_plan import CheckPlan
from daq.service.clock import Clock
from daq.words import Said, SaidTrouble, Unit, said
from daq.words.gauge_check import BenchLine, CheckUnderWay

AWAY_NS: Final = 900 * 10**9
"""A check that nobody has looked at for so long is left: the next one may begin."""
_FRESH_NS: Final = 10**9
_LOOK_S: Final = 1.0


class PageTalk:
    """Who is asked: somebody at a page, who sees what was told and answers with a button."""

    def __init__(self, task: CheckPlan, ring: Ring, person: str, clock: Clock) -> None:
        """Nothing is asked yet."""
        self._task = task
        self._ring = ring
        self._person = person
        self._clock = clock
        self._turn = threading.Condition()
        self._seen_ns = clock.mono_ns()
        self._told: tuple[Said, ...] = ()
        self._before: tuple[Said, ...] = ()
        self._question: BenchQuestion | None = None
        self._number = 0
        self._answer: str | None = None
        self._unit = ""
        self._lines: tuple[BenchLine, ...] = ()
        self.over = False
        self.row = 0

    def say(self, what: Said) -> None:
        """Show it above what is asked next."""
        with self._turn:
            self._told = (*self._told, what)

    def ask(self, question: BenchQuestion) -> str:
        """Wait until it is answered.  Raises GivenUp: they left, or have not looked for long."""
        with self._turn:
            self._question, self._answer = question, None
            self._number += 1
            while self._answer is None:
                if self._clock.mono_ns() - self._seen_ns > AWAY_NS:
                    raise GivenUp(said("bench-nobody"))
                self._turn.wait(_LOOK_S)
            self._question, self._before, self._told = None, self._told, ()
            if self._answer == "q":
                raise GivenUp(said("bench-left"))
            return self._answer

    def table(self, unit: Unit, lines: Sequence[BenchLine]) -> None:
        """Show it."""
        with self._turn:
            self._unit, self._lines = unit, tuple(lines)

    def answer(self, number: int, typed: str) -> None:
        """Answer the question of that number.

        Raises:
            SaidTrouble: another one is asked by now, or that is none of its answers.
        """
        with self._turn:
            there = self._question.choices if self._question and self._answer is None else ()
            if number != self._number or typed not in [each.typed for each in there]:
                raise SaidTrouble(said("bench-asked-meanwhile"))
            self._answer = typed
            self._turn.notify_all()

    def end(self, why: Said, row: int = 0) -> None:
        """It is over: say how, below what was told last."""
        with self._turn:
            self._told = (*(self._told or self._before), why)
            self._question, self.row, self.over = None, row, True

    def view(self) -> CheckUnderWay:
        """What is to be seen now."""
        with self._turn:
            self._seen_ns = self._clock.mono_ns()
            question = self._question if self._answer is None else None
            return CheckUnderWay(
                gauge=self._task.key,
                name=self._task.gauge.name,
                person=self._person,
                state="over" if self.over else "asks" if question else "reads",
                told=self._told,
                number=self._number,
                ask=question.say if question else None,
                choices=question.choices if question else (),
                face="" if self.over else self._face(),
                unit=self._unit,
                lines=self._lines,
                row=self.row,
            )

    def _face(self) -> str:
        """The number that comes now; none where it is of before."""
        last = self._ring.latest()
        if last is None or self._clock.mono_ns() - last.mono_ns > _FRESH_NS:
            return ""
        return f"{last.text} {last.unit}"
