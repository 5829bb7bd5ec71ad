"""The conversation of a gauge's check at the terminal: block after block, and what came between."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal, TextIO

from daq.checks.gauge.plan import Step
from daq.checks.gauge.reduce import GaugeErrors, LengthRead, reduce
from daq.checks.gauge.say import digits
from daq.metrology.jump import zeroed_at_rest
from daq.service.bench_plan import CheckPlan
from daq.service.bench_reader import BenchReader, Settled, Unread
from daq.units import UnitError, parse, places, show
from daq.words import Said

NO_ERROR: Final = 3.0
"""What changes by more than so many permissible errors from one length to the next is asked about:
a gauge hardly ever does that. Common practice, no source."""
_COUNTS: Final = 10


Words = Callable[[Said], str]


class GivenUp(Exception):
    """The person left, or the gauge cannot be relied on: nothing is recorded."""


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
    """The conversation at the terminal."""

    def __init__(
        self, task: CheckPlan, bench: BenchReader, heard: TextIO, out: TextIO, words: Words
    ) -> None:
        """Ask on `out`, hear a line on `heard` for each question."""
        self._task = task
        self._bench = bench
        self._heard = heard
        self._out = out
        self._words = words
        self.taken_back = 0

    def say(self, text: str) -> None:
        """Write a line."""
        self._out.write(f"{text}\n")
        self._out.flush()

    def ask(self, text: str) -> str:
        """Return the line typed; the end of the input or a "q" leaves the check."""
        self._out.write(f"{text}: ")
        self._out.flush()
        line = self._heard.readline()
        if not line:
            raise GivenUp("the input ended.")
        if line.strip().lower() == "q":
            raise GivenUp("you left.")
        return line.strip()

    def confirm(self) -> None:
        """Ask whether the result is to be recorded."""
        if self.ask("Record this? Enter is yes, n is no").lower().startswith("n"):
            raise GivenUp("as you wish.")

    def facts(self, state: str, celsius: float | None, rested_s: float | None) -> BenchFacts:
        """Return what only the person knows; what the command line said of it is not asked."""
        while state not in ("found", "left"):
            typed = self.ask("As found, or left after it was set? Enter is found, l is left")
            state = {"": "found", "f": "found", "l": "left"}.get(typed.lower(), typed.lower())
        if celsius is None:
            celsius = self._quantity("How warm are the blocks, such as 20.5 °C", "temperature")
        if rested_s is None:
            rested_s = self._quantity(
                "How long have gauge and blocks lain there, such as 2 h", "time"
            )
        return BenchFacts("left" if state == "left" else "found", celsius, rested_s)

    def _quantity(self, text: str, kind: Literal["temperature", "time"]) -> float:
        while True:
            try:
                return parse(self.ask(text), kind)
            except UnitError as error:
                self.say(f"  {error}")

    def work(self) -> tuple[Settled, ...]:
        """Go through all lengths.

        Raises:
            GivenUp: the person left, or the port was lost on the way.
        """
        task = self._task
        self.say(f"{task.gauge.name}, number {task.gauge.serial_number}. q leaves at any time.")
        self.say("b takes the last reading back.")
        if task.gauge.kind == "lever":
            self.say("Set the stylus parallel to the blocks.")
        settled: list[Settled] = []
        while len(settled) < len(task.steps):
            try:
                settled.append(self._read(settled))
            except _Back:
                if settled:
                    settled.pop()
                    self.taken_back += 1
            except _Anew:
                self.taken_back += len(settled)
                settled.clear()
                self.say("  All is read again, from the first length.")
        return tuple(settled)

    def _read(self, before: list[Settled]) -> Settled:
        """The next length, read until nothing speaks against it."""
        task = self._task
        step = task.steps[len(before)]
        count = f"{len(before) + 1} of {len(task.steps)}"
        key = ", press the gauge's key" if task.gauge.talk.mode == "key" else ""
        while True:
            if self.ask(f"{count}: {self._put(step)}, press Enter{key}").lower() == "b":
                raise _Back
            try:
                one = self._bench.settled()
            except Unread as none:
                self.say(f"  No reading: {self._words(none.why)}")
                continue
            self.say(f"  {self._face(one)}")
            if before and one.window.run != before[0].window.run:
                raise GivenUp("the cable was out, and the zero may have moved. Begin again.")
            if not before or self._sound(one, before, step):
                return one

    def _put(self, step: Step) -> str:
        name = self._task.names[step.nominal_mm]
        many = "blocks" if " and " in name else "block"
        put = f"put the {name} {many} under the contact"
        if step.nominal_mm == 0.0:
            put = f"set the contact on the surface the blocks stand on ({name})"
        return put if step.direction == "up" else f"{put}, from above"

    def _face(self, one: Settled) -> str:
        last = one.samples[-1]
        return f"{show(one.window.mean_mm, last.unit, places(last.text))} {last.unit}"

    def _sound(self, one: Settled, before: list[Settled], step: Step) -> bool:
        """Whether a reading is to count: neither another unit nor another zero speaks against it.

        Raises:
            _Anew: the person says the zero was pressed.
        """
        gauge, unit = self._task.gauge, before[0].samples[-1].unit
        if one.samples[-1].unit != unit:
            self.say(f"  It shows {one.samples[-1].unit} now: press its unit key back to {unit}.")
            return False
        most_mm = max(NO_ERROR * gauge.max_error, _COUNTS * gauge.resolution)
        zeroed = zeroed_at_rest(one.before, gauge.resolution, most_mm)
        if zeroed is not None:
            was = show(zeroed.before_mm, unit, places(one.samples[-1].text))
            self.say(f"  Before that it went from {was} {unit} to zero while it stood still.")
            if self.ask("  z: its zero was pressed, Enter: it was not").lower() == "z":
                raise _Anew
        gone_mm = step.nominal_mm - self._task.steps[len(before) - 1].nominal_mm
        odd_mm = one.pushed_mm - before[-1].pushed_mm - gone_mm
        if abs(odd_mm) <= most_mm:
            return True
        off = show(odd_mm, unit, places(one.samples[-1].text), plus=True)
        self.say(f"  That is {off} {unit} from what the blocks say, too much for a gauge's error.")
        typed = self.ask(
            "  Enter reads it again (another block lay there), "
            "z: zero or preset was pressed, k keeps it"
        ).lower()
        if typed == "z":
            raise _Anew
        return typed == "k"

    def table(self, found: GaugeErrors, last: Settled) -> None:
        """Every length with its reading and error."""
        sample = last.samples[-1]
        unit, decimals = sample.unit, digits(sample.unit, places(sample.text))
        self.say(f"\n{'length':>12} {'':<4} {'read':>12} {'error':>12}   {unit}, from the first")
        for point, error in zip(found.points, found.errors_mm, strict=True):
            texts = [show(mm, unit, decimals) for mm in (point.nominal_mm, point.read_mm)]
            error_text = show(error, unit, decimals, plus=True)
            self.say(f"{texts[0]:>12} {point.direction:<4} {texts[1]:>12} {error_text:>12}")

    def tell(self, told: Said) -> None:
        """Say what came of it."""
        self.say(f"\n{self._words(told)}\n")


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
