"""The check of a gauge at a page, while the service runs: one at a time, on a thread of its own."""

import argparse
import logging
import threading
import uuid
from collections.abc import Callable, Mapping
from concurrent.futures import Future, TimeoutError
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final, Literal, Protocol

from daq.audit.state import Shop
from daq.gauges.reader import Reader
from daq.service.bench_asks import GivenUp
from daq.service.bench_check import BenchCheck, record, worked
from daq.service.bench_page import PageTalk
from daq.service.bench_plan import CheckWanted, lengths, planned, span
from daq.service.bench_ring import RingBench, Settled
from daq.service.bench_talk import Conversation
from daq.service.clock import Clock
from daq.service.files import ShopFiles
from daq.service.inbox import ANSWER_S
from daq.service.people import People
from daq.service.writer import Made, MadeRow
from daq.settings import SettingsError
from daq.units import UnitError, parse
from daq.words import Ack, Asker, Command, Proved, Said, SaidTrouble, said
from daq.words.gauge_check import CheckableGauge, GaugeCheckView

KIND: Final = "gauge-check"
_PLAIN: Final = "in-their-words"

_log = logging.getLogger(__name__)


class TakesRows(Protocol):
    """What records a row that was made elsewhere: the inbox."""

    def hand_in(
        self, command: Command, at_ns: int | None = None, make: Made | None = None
    ) -> "Future[Ack]":
        """Hand it in without waiting."""


@dataclass(frozen=True)
class CheckAsked:
    """A check to begin: of which gauge, by which set, as found or left, how warm the blocks are.

    `rested`: how long all has lain there; `over`: what of its travel; `lengths`: these instead of
    ten steps each; "" as usual.
    """

    gauge: str
    blocks: str
    state: Literal["found", "left"]
    temperature: str
    rested: str
    over: str = ""
    lengths: str = ""


class GaugeBench:
    """The shop's bench; any thread may ask."""

    def __init__(
        self,
        config: Path,
        files: ShopFiles,
        readers: Mapping[str, Reader],
        state: Callable[[], Shop],
        inbox: TakesRows,
        clock: Clock,
    ) -> None:
        """`config`: the folder with the sets of blocks; `readers`: of the gauges that are read."""
        self._config = config
        self._files = files
        self._readers = readers
        self._state = state
        self._inbox = inbox
        self._clock = clock
        self._lock = threading.Lock()
        self._talk: PageTalk | None = None

    def view(self) -> GaugeCheckView:
        """What may be checked, and the check under way or the last one."""
        gauges = tuple(
            CheckableGauge(key, gauge.name, gauge.serial_number, self._why_not(key))
            for key, gauge in self._files.gauges.items()
            if key in self._readers
        )
        sets = sorted(path.stem for path in (self._config / "blocks").glob("*.toml"))
        talk = self._talk
        return GaugeCheckView(gauges, tuple(sets), None if talk is None else talk.view())

    def begin(self, asked: CheckAsked, person: Proved, asker: Asker) -> None:
        """Begin a check by somebody who proved to be that.

        Raises:
            SaidTrouble: one is under way, an audit has that gauge, or it cannot be done so.
        """
        reader, why = self._readers.get(asked.gauge), self._why_not(asked.gauge)
        if reader is None or why is not None:
            raise SaidTrouble(why or said("named-by-no-machine"))
        known = self._understood(asked)
        try:
            task = planned(self._files, known)
        except SettingsError as error:
            raise _cannot(error) from None
        with self._lock:
            if self._talk is not None and not self._talk.over:
                raise SaidTrouble(said("bench-under-way"))
            talk = self._talk = PageTalk(task, reader.ring, person.name, self._clock)
        clock, rules = self._clock, self._files.shop.settle
        bench = _Free(
            RingBench(task.gauge, reader.ring, lambda: reader.status, rules, clock),
            lambda: self._why_not(asked.gauge),
        )

        def work() -> None:
            session = Conversation(task, bench, talk)
            try:
                self._record(worked(session, talk, task, known), session, talk, (person, asker))
            except GivenUp as left:
                talk.end(said("bench-nothing-recorded", why=left.said))
            except Exception:
                _log.exception("the check of %s ended", asked.gauge)
                talk.end(said("bench-failed"))

        threading.Thread(target=work, name=KIND, daemon=True).start()

    def answer(self, number: int, typed: str) -> None:
        """Answer the question of that number.  Raises SaidTrouble: it is not asked now."""
        if self._talk is None:
            raise SaidTrouble(said("bench-asked-meanwhile"))
        self._talk.answer(number, typed)

    def _why_not(self, gauge: str) -> Said | None:
        """Why a gauge cannot be checked now: an open audit has it."""
        bound = self._state().bound(gauge)
        return None if bound is None else said("bench-in-audit", machine=bound.machine)

    def _understood(self, asked: CheckAsked) -> CheckWanted:
        """What was typed, read.  Raises SaidTrouble."""
        try:
            return CheckWanted(
                self._config,
                asked.gauge,
                asked.blocks,
                over=span(asked.over) if asked.over else None,
                lengths=lengths(asked.lengths) if asked.lengths else None,
                state=asked.state,
                temperature=parse(asked.temperature, "temperature"),
                rested=parse(asked.rested, "time"),
            )
        except (UnitError, argparse.ArgumentTypeError) as error:
            raise SaidTrouble(said("in-their-words", words=str(error))) from None

    def _record(
        self, done: BenchCheck, session: Conversation, talk: PageTalk, by: tuple[Proved, Asker]
    ) -> None:
        """Have it recorded, once that is wanted; what could not be is asked about again.

        Raises:
            GivenUp: it is not wanted.
        """
        while True:
            session.confirm()
            command = Command(str(uuid.uuid4()), "", KIND, {})
            try:
                ack = self._inbox.hand_in(command, make=self._made(done, by)).result(ANSWER_S)
            except TimeoutError:
                return talk.end(said("service-silent"))
            if ack.accepted:
                return talk.end(said("bench-recorded", row=ack.seqs[0]), ack.seqs[0])
            why = ack.reason or said("service-silent")
            if ack.code == "not-known":
                return talk.end(why)
            talk.say(why)

    def _made(self, done: BenchCheck, by: tuple[Proved, Asker]) -> Made:
        def make(people: People) -> MadeRow:
            named: dict[str, str] = {}
            person = people.proved(by[0], named)
            draft, chunk = record(done, person, self._clock, replace(by[1], person=person))
            return MadeRow(draft, chunk, named)

        return make


@dataclass(frozen=True)
class _Free:
    """A bench as long as no audit wants its gauge."""

    bench: RingBench
    why_not: Callable[[], Said | None]

    def settled(self) -> Settled:
        """As the bench's.  Raises GivenUp: an audit has the gauge by now."""
        one = self.bench.settled()
        if why := self.why_not():
            raise GivenUp(why)
        return one


def _cannot(error: SettingsError) -> SaidTrouble:
    """What is wrong with what is wanted, an option's name without its dashes."""
    what = error.said
    if what.code == _PLAIN:
        what = said("in-their-words", words=str(what.of["words"]).removeprefix("--"))
    return SaidTrouble(what)
