"""`headsweep gauge check`: a gauge is stepped through known lengths, judged, and put on record.

One person at one terminal; the service must not run, for the port and the ledger are
used here.
"""

import argparse
import sys
import uuid
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Final, TextIO

from daq import __version__
from daq.audit import evidence
from daq.audit.codec import encode
from daq.audit.gauge_events import GaugeChecked
from daq.audit.parts import CheckPoint
from daq.audit.recompute import day_of
from daq.checks.gauge.plan import MOST_REPEATS, Step, steps
from daq.checks.gauge.reduce import GaugeErrors, LengthRead, reduce
from daq.checks.gauge.say import sentence
from daq.gauges.config import GaugeConfig
from daq.ledger.errors import LedgerError
from daq.ledger.store import Ledger
from daq.service.bench_reader import BenchReader, Settled, Unread
from daq.service.clock import Clock, SystemClock
from daq.service.files import ShopFiles, load
from daq.service.people import People
from daq.settings import SettingsError
from daq.units import UnitError, parse, places, show
from daq.words import Draft, Said, said

PASSED: Final = 0
NOT_PASSED: Final = 1
NOT_DONE: Final = 2

Words = Callable[[Said], str]


class GivenUp(Exception):
    """The person left, or the gauge cannot be relied on: nothing is recorded."""


@dataclass(frozen=True)
class CheckPlan:
    """What is to be checked: the gauge, the lengths as written, and the way through them."""

    key: str
    gauge: GaugeConfig
    names: dict[float, str]
    steps: tuple[Step, ...]
    down: bool
    repeats: int


def lengths(text: str) -> dict[float, str]:
    """Read "0 mm, 1 mm" into millimetres and how each was written."""
    try:
        named = {parse(part, "length"): part.strip() for part in text.split(",") if part.strip()}
        steps(tuple(named), down=False, repeats=1)
    except (UnitError, ValueError) as error:
        raise argparse.ArgumentTypeError(str(error)) from None
    return named


def repeats(text: str) -> int:
    """Read how often to go through all lengths."""
    if not text.isdecimal() or not 1 <= int(text) <= MOST_REPEATS:
        raise argparse.ArgumentTypeError(f"found {text!r}; allowed: 1 to {MOST_REPEATS}")
    return int(text)


def run(args: argparse.Namespace, words: Words) -> int:
    """Check a gauge with the person at the terminal; 0 passed, 1 not passed, 2 not done.

    `words` makes words of what is said.

    Raises:
        SettingsError: the files are wrong, or name no such gauge.
        LedgerError: the data folder cannot be used, or nothing could be recorded.
    """
    shop = load(args.config)
    task = _task(shop, args)
    clock = SystemClock()
    with _ledger(args.data, clock) as ledger:
        bench = BenchReader(task.key, task.gauge, args.data, shop.shop.settle, clock)
        with closing(bench):
            session = Conversation(task, bench, sys.stdin, sys.stdout, words)
            try:
                found, settled = session.work()
                done_by = args.done_by or ("" if args.yes else session.ask("Done by (or nothing)"))
                if not args.yes:
                    session.confirm()
            except (GivenUp, KeyboardInterrupt) as left:
                session.say(f"\nNothing is recorded: {str(left) or 'you left.'}")
                return NOT_DONE
        named: dict[str, str] = {}
        person = People(ledger.people()).id_of(done_by, named)
        draft, chunk = record(task, found, settled, person, clock)
        (event,) = ledger.append([draft], [chunk], named)
        session.say(f"Recorded as row {event.seq}.")
    return PASSED if found.passed else NOT_PASSED


def _task(shop: ShopFiles, args: argparse.Namespace) -> CheckPlan:
    gauge = shop.gauges.get(args.gauge)
    if gauge is None:
        there = ", ".join(sorted(shop.gauges))
        raise SettingsError([f"--gauge: found {args.gauge!r}; allowed: {there}"])
    way = steps(tuple(args.lengths), down=args.down, repeats=args.repeats)
    reach = max(args.lengths) - min(args.lengths)
    if reach > gauge.travel:
        raise SettingsError(
            [
                f"--lengths: found {reach:g} mm from the shortest to the longest; "
                f"allowed: at most the gauge's travel, {gauge.travel:g} mm"
            ]
        )
    return CheckPlan(args.gauge, gauge, args.lengths, way, args.down, args.repeats)


def _ledger(data: Path, clock: Clock) -> Ledger:
    try:
        ledger = Ledger.open(data, stamp=clock.stamp())
    except LedgerError as error:
        if isinstance(error.__cause__, BlockingIOError):  # somebody holds the folder's lock
            raise LedgerError(said("stop-the-service-first", why=error.said)) from error
        raise
    room = ledger.room()
    if room.say is not None:  # known before the work, not after it
        ledger.close()
        raise LedgerError(room.say)
    return ledger


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

    def work(self) -> tuple[GaugeErrors, tuple[Settled, ...]]:
        """Go through all lengths and say what came of it.

        Raises:
            GivenUp: the person left, or the port was lost on the way.
        """
        task = self._task
        self.say(f"{task.gauge.name}, number {task.gauge.serial_number}. q leaves at any time.")
        if task.gauge.kind == "lever":
            self.say("Set the stylus parallel to the blocks.")
        settled: list[Settled] = []
        for number, step in enumerate(task.steps, 1):
            settled.append(self._read(f"{number} of {len(task.steps)}", step))
            if settled[-1].window.run != settled[0].window.run:
                raise GivenUp("the cable was out, and the zero may have moved. Begin again.")
        points = [
            LengthRead(step.nominal_mm, one.pushed_mm, step.direction)
            for step, one in zip(task.steps, settled, strict=True)
        ]
        found = reduce(points, task.gauge.max_error)
        self._table(found, settled[-1])
        return found, tuple(settled)

    def _read(self, count: str, step: Step) -> Settled:
        name = self._task.names[step.nominal_mm]
        put = f"put the {name} block under the contact"
        if step.nominal_mm == 0.0:
            put = f"set the contact on the surface the blocks stand on ({name})"
        came = "" if step.direction == "up" else ", from above"
        key = ", press the gauge's key" if self._task.gauge.talk.mode == "key" else ""
        while True:
            self.ask(f"{count}: {put}{came}, press Enter{key}")
            try:
                one = self._bench.settled()
            except Unread as none:
                self.say(f"  No reading: {self._words(none.why)}")
                continue
            last = one.samples[-1]
            self.say(f"  {show(one.window.mean_mm, last.unit, places(last.text))} {last.unit}")
            return one

    def _table(self, found: GaugeErrors, last: Settled) -> None:
        """Every length with its reading and error, then the sentence."""
        sample = last.samples[-1]
        unit, decimals = sample.unit, places(sample.text) + 1
        self.say(f"\n{'length':>12} {'':<4} {'read':>12} {'error':>12}   {unit}, from the first")
        for point, error in zip(found.points, found.errors_mm, strict=True):
            texts = [show(mm, unit, decimals) for mm in (point.nominal_mm, point.read_mm)]
            error_text = show(error, unit, decimals, plus=True)
            self.say(f"{texts[0]:>12} {point.direction:<4} {texts[1]:>12} {error_text:>12}")
        self.say(f"\n{self._words(sentence(found, unit, decimals))}\n")


def record(
    task: CheckPlan, found: GaugeErrors, settled: Sequence[Settled], done_by: str, clock: Clock
) -> tuple[Draft, bytes]:
    """The event of a check by the person with that id, and the samples behind it as one chunk."""
    chunk = evidence.encode(sample for one in settled for sample in one.samples)
    stamp = clock.stamp()
    sample = settled[-1].samples[-1]
    data = GaugeChecked(
        gauge=task.key,
        serial_number=task.gauge.serial_number,
        done_by=done_by,
        day=day_of(stamp),
        max_error_mm=found.max_error_mm,
        points=tuple(CheckPoint(p.nominal_mm, p.read_mm, p.direction) for p in found.points),
        span_mm=found.span_mm,
        repeatability_mm=found.repeatability_mm,
        hysteresis_mm=found.hysteresis_mm,
        passed=found.passed,
        said=sentence(found, sample.unit, places(sample.text) + 1),
    )
    kind, version, body = encode(data)
    cause = {
        "id": str(uuid.uuid4()),
        "kind": "gauge-check",
        "payload": {
            "gauge": task.key,
            "lengths_mm": sorted(task.names),
            "down": task.down,
            "repeats": task.repeats,
            "done_by": done_by,
        },
        "windows": [[one.window.first_n, one.window.last_n] for one in settled],
        "counts_up": task.gauge.counts_up,
        "engine": __version__,
    }
    digest = evidence.digest(chunk)
    draft = Draft(kind, version, "", "", stamp, done_by or "bench", cause, body, (digest,))
    return draft, chunk
