"""The conversation of a gauge's check: block after block, and what came between."""

from dataclasses import dataclass
from typing import Final, Literal, Protocol

from daq.audit.views.figures import with_unit
from daq.checks.gauge.plan import Step
from daq.checks.gauge.reduce import GaugeErrors, LengthRead, reduce
from daq.checks.gauge.say import digits
from daq.metrology.jump import zeroed_at_rest
from daq.service.bench_asks import Asks, BenchQuestion, GivenUp
from daq.service.bench_plan import CheckPlan
from daq.service.bench_ring import Settled, Unread
from daq.units import UnitError, parse, places, show
from daq.words import Said, Sample, Shown, said
from daq.words.gauge_check import BenchChoice, BenchLine

NO_ERROR: Final = 3.0
"""What changes by more than so many permissible errors from one length to the next is asked about:
a gauge hardly ever does that. Common practice, no source."""
_COUNTS: Final = 10

_BACK: Final = "b"
_KEEP: Final = "k"
_ZERO: Final = "z"
_NO: Final = "n"
_LEAVE: Final = BenchChoice("q", said("bench-leave"))


class ReadsGauge(Protocol):
    """Where the gauge is read."""

    def settled(self) -> Settled:
        """Wait for a settled value of samples that come from now on.

        Raises:
            Unread: none came in time; says why.
            GivenUp: the gauge is wanted elsewhere.
        """


class _Anew(Exception):
    """The gauge's zero was pressed: what was read before counts from another zero."""


class _Back(Exception):
    """The last reading is to be taken anew."""


@dataclass(frozen=True)
class BenchFacts:
    """What only the person knows: as found or left, how warm, °C, and rested how long, s."""

    state: Literal["found", "left"]
    celsius: float
    rested_s: float


class Conversation:
    """The conversation with whoever puts the blocks under the contact."""

    def __init__(self, task: CheckPlan, bench: ReadsGauge, asks: Asks) -> None:
        """Read the gauge at `bench`, and ask what is to be asked."""
        self._task = task
        self._bench = bench
        self._asks = asks
        self.taken_back = 0

    def confirm(self) -> None:
        """Ask whether the result is to be recorded."""
        choices = (BenchChoice("", said("bench-record")), BenchChoice(_NO, said("bench-discard")))
        question = BenchQuestion(said("bench-confirm"), said("bench-confirm-keys"), choices)
        if self._asks.ask(question).lower().startswith(_NO):
            raise GivenUp(said("bench-as-you-wish"))

    def facts(self, state: str, celsius: float | None, rested_s: float | None) -> BenchFacts:
        """Return what only the person knows; what was said of it before is not asked."""
        while state not in ("found", "left"):
            typed = self._asks.ask(BenchQuestion(said("bench-state"))).lower()
            state = {"": "found", "f": "found", "l": "left"}.get(typed, typed)
        if celsius is None:
            celsius = self._quantity(said("bench-warm"), "temperature")
        if rested_s is None:
            rested_s = self._quantity(said("bench-rested"), "time")
        return BenchFacts("left" if state == "left" else "found", celsius, rested_s)

    def _quantity(self, what: Said, kind: Literal["temperature", "time"]) -> float:
        while True:
            try:
                return parse(self._asks.ask(BenchQuestion(what)), kind)
            except UnitError as error:
                self._asks.say(said("in-their-words", words=str(error)))

    def work(self) -> tuple[Settled, ...]:
        """Go through all lengths.

        Raises:
            GivenUp: the person left, or the port was lost on the way.
        """
        if self._task.gauge.kind == "lever":
            self._asks.say(said("bench-parallel"))
        settled: list[Settled] = []
        while len(settled) < len(self._task.steps):
            try:
                settled.append(self._read(settled))
            except _Back:
                if settled:
                    settled.pop()
                    self.taken_back += 1
            except _Anew:
                self.taken_back += len(settled)
                settled.clear()
                self._asks.say(said("bench-all-again"))
        return tuple(settled)

    def _read(self, before: list[Settled]) -> Settled:
        """The next length, read until nothing speaks against it."""
        step = self._task.steps[len(before)]
        while True:
            if self._asks.ask(self._put(step, len(before) + 1)).lower() == _BACK:
                raise _Back
            try:
                one = self._bench.settled()
            except Unread as none:
                self._asks.say(said("bench-no-reading", why=none.why))
                continue
            self._asks.say(_length(one.window.mean_mm, one.samples[-1]))
            if before and one.window.run != before[0].window.run:
                raise GivenUp(said("bench-cable-out"))
            if not before or self._sound(one, before, step):
                return one

    def _put(self, step: Step, number: int) -> BenchQuestion:
        name = self._task.names[step.nominal_mm]
        keyed = "yes" if self._task.gauge.talk.mode == "key" else "no"
        on = "several" if " and " in name else "block"
        what = said(
            "bench-put",
            n=number,
            of=len(self._task.steps),
            on="surface" if step.nominal_mm == 0.0 else on,
            name=name,
            way=step.direction,
        )
        choices = [BenchChoice("", said("bench-read", keyed=keyed)), _LEAVE]
        if number > 1:
            choices.insert(1, BenchChoice(_BACK, said("bench-back")))
        return BenchQuestion(what, said("bench-put-keys", keyed=keyed), tuple(choices))

    def _sound(self, one: Settled, before: list[Settled], step: Step) -> bool:
        """Whether a reading is to count: neither another unit nor another zero speaks against it.

        Raises:
            _Anew: the person says the zero was pressed.
        """
        gauge, last = self._task.gauge, one.samples[-1]
        unit = before[0].samples[-1].unit
        if last.unit != unit:
            self._asks.say(said("bench-other-unit", now=last.unit, before=unit))
            return False
        most_mm = max(NO_ERROR * gauge.max_error, _COUNTS * gauge.resolution)
        zeroed = zeroed_at_rest(one.before, gauge.resolution, most_mm)
        if zeroed is not None:
            self._was_zeroed(_length(zeroed.before_mm, last))
        gone_mm = step.nominal_mm - self._task.steps[len(before) - 1].nominal_mm
        odd_mm = one.pushed_mm - before[-1].pushed_mm - gone_mm
        return abs(odd_mm) <= most_mm or self._kept(_length(odd_mm, last, plus=True))

    def _was_zeroed(self, was: Said) -> None:
        """Ask.  Raises _Anew: it was."""
        self._asks.say(said("bench-went-to-zero", was=was))
        choices = (
            BenchChoice("", said("bench-not-zeroed")),
            BenchChoice(_ZERO, said("bench-zeroed")),
            _LEAVE,
        )
        question = BenchQuestion(said("bench-was-zeroed"), said("bench-zero-keys"), choices)
        if self._asks.ask(question).lower() == _ZERO:
            raise _Anew

    def _kept(self, off: Said) -> bool:
        """Ask what is to be done with what no gauge is off by.  Raises _Anew: it was zeroed."""
        self._asks.say(said("bench-odd", off=off))
        choices = (
            BenchChoice("", said("bench-again")),
            BenchChoice(_ZERO, said("bench-zeroed")),
            BenchChoice(_KEEP, said("bench-keep")),
            _LEAVE,
        )
        question = BenchQuestion(said("bench-what-was-it"), said("bench-odd-keys"), choices)
        typed = self._asks.ask(question).lower()
        if typed == _ZERO:
            raise _Anew
        return typed == _KEEP

    def table(self, found: GaugeErrors, last: Settled) -> None:
        """Every length with its reading and error."""
        sample = last.samples[-1]
        unit, decimals = sample.unit, digits(sample.unit, places(sample.text))
        lines = [
            BenchLine(
                show(point.nominal_mm, unit, decimals),
                point.direction,
                show(point.read_mm, unit, decimals),
                show(error, unit, decimals, plus=True),
            )
            for point, error in zip(found.points, found.errors_mm, strict=True)
        ]
        self._asks.table(unit, lines)


def _length(mm: float, like: Sample, *, plus: bool = False) -> Said:
    """A length as the gauge's face would show it."""
    return with_unit(Shown(mm, like.unit, places(like.text), plus))


def read_of(task: CheckPlan, settled: tuple[Settled, ...], facts: BenchFacts | None) -> GaugeErrors:
    """What the readings show, against what the blocks are at that temperature."""
    points = [
        LengthRead(step.nominal_mm + off, one.pushed_mm, step.direction)
        for step, one, off in zip(task.steps, settled, offs(task, facts), strict=True)
    ]
    return reduce(points, task.gauge.max_error)


def offs(task: CheckPlan, facts: BenchFacts | None) -> tuple[float, ...]:
    """How far what lay under the contact at each step is from its nominal length, mm."""
    if task.blocks is None or task.stacks is None or facts is None:
        return (0.0,) * len(task.steps)
    blocks, stacks = task.blocks, task.stacks
    return tuple(blocks.deviation_mm(stacks[step.nominal_mm], facts.celsius) for step in task.steps)
