"""What becomes of each command and of each thing noticed: all of it on one thread."""

import uuid
from collections.abc import Mapping
from concurrent.futures import Future
from dataclasses import replace

from daq.audit import evidence
from daq.audit.apply import fold
from daq.audit.engine import AFTER_SIGNING, NOTICES, decide, needs
from daq.audit.input import Input, Refused
from daq.audit.recompute import day_of
from daq.audit.state import Job, Shop
from daq.gauges.reader import STUCK
from daq.ledger.errors import LedgerError, NotRecorded
from daq.service import answers, steps
from daq.service.attesting import Attests
from daq.service.clock import Clock
from daq.service.committed import Committed, Publisher
from daq.service.drafts import drafted
from daq.service.files import with_check
from daq.service.proof import Proven
from daq.service.screens import Screens
from daq.service.shopfloor import Shopfloor
from daq.service.takes import HOLD_STILL, Expired, Pending, Takes
from daq.service.turns import Turns
from daq.service.watch import ConditionWatch, GaugeWatch, Notice, ZeroWatch
from daq.service.writer import Made, Writer
from daq.words import Ack, Command, Draft, Event, GaugeStatus, Said, said

Reply = Future[Ack]


class Decider:
    """Commands in; decided, committed, applied, told to whoever follows; then answered."""

    def __init__(
        self,
        shop: Shop,
        writer: Writer,
        publisher: Publisher,
        screens: Screens,
        floor: Shopfloor,
        clock: Clock,
        engine: str,
        proof: Proven,
        steps_of: steps.ClockWatch,
        attests: Attests,
    ) -> None:
        """`shop`: what the ledger's events fold to; `engine`: the release that decides."""
        self._proof = proof  # nothing is signed before it, and the key, looked at the whole record
        self._attests = attests
        self.shop = shop
        self._writer = writer
        self._publisher = publisher
        self._screens = screens
        self._floor = floor
        self._clock = clock
        self._engine = engine
        self._takes = Takes(floor, clock)
        self._zeros = ZeroWatch(clock)
        self._conditions = ConditionWatch(clock)
        self._gauges = GaugeWatch()
        self._steps = steps_of
        self._stuck: set[str] = set()
        self._unrecorded: list[Notice] = []
        self._look_at_clock()
        self._screens.turn()
        self._resume()

    def _resume(self) -> None:
        """Audits left open: what happened while nobody looked is asked before all else."""
        for machine, state in self.shop.machines.items():
            if state.job is not None:
                command = Command(str(uuid.uuid4()), machine, "restarted", {}, actor="service")
                # Shown at once, should the disk have no room to record it yet.
                self._screens.presume(Input(command))
                self._unrecorded.append(Notice(command, ()))
        self._record_notices()

    @property
    def followers(self) -> Mapping[str, Turns]:
        """The threads of those who follow the ledger, by name."""
        return self._publisher.turns

    @property
    def busy(self) -> bool:
        """Whether a take is settling."""
        return bool(self._takes)

    def receive(self, command: Command, at_ns: int, reply: Reply, make: Made | None = None) -> None:
        """Answer a command now, or once its gauge has settled; one that brings a row, `make` it."""
        try:
            ack = self._received(command, at_ns, reply, make)
        except LedgerError as error:
            ack = answers.lost(command, error, self._proof.fault)
        except Refused as refused:
            ack = answers.refused(command, refused.said)
        if ack is not None:
            reply.set_result(ack)

    def _received(
        self, command: Command, at_ns: int, reply: Reply, make: Made | None
    ) -> Ack | None:
        """The answer; None where a take under way will give it."""
        pending = self._takes.on(command.machine)
        if pending is not None and pending.command.id == command.id:
            pending.replies.append(reply)
            return None
        if (earlier := self._writer.earlier(command)) is not None:
            return earlier
        if self._unrecorded:
            return answers.not_recorded(command, said("others-first"))
        if make is not None:
            row = make(self._writer.people)
            return self._commit(command, [row.draft], row.chunk, row.named)
        if (refusal := self._refusal(command, pending)) is not None:
            return refusal
        need = needs(self.shop, command)
        if need.kind == "nothing":
            return self._decide(Input(command, at_ns))
        job = self._job(command.machine)
        if need.kind == "history":
            return self._decide(*self._takes.since(job, command, at_ns, need))
        key = job.setup.gauge.key
        presses = self._floor.presses.get(key)
        self._takes.begin(Pending(command, need, key, at_ns, job.setup.settle, presses, [reply]))
        return None

    def _refusal(self, command: Command, pending: Pending | None) -> Ack | None:
        if command.kind in NOTICES:
            return answers.refused(command, said("not-for-people", kind=command.kind))
        stale = self._writer.stale(command, self.shop.machine(command.machine).seq)
        if stale is not None:
            return stale
        if command.kind == "sign" and self._proof.wait:
            return answers.refused(command, said("signed-after-that", wait=self._proof.wait))
        if pending is not None:
            return answers.refused(command, HOLD_STILL)
        return None

    def _job(self, machine: str) -> Job:
        job = self.shop.machine(machine).job
        if job is None:
            raise Refused("no-audit")
        return job

    def tick(self) -> None:
        """Look after takes, zeros, readers and the disk; called many times a second."""
        self._look_at_clock()
        self._screens.turn()
        self._look_at_readers()
        self._record_notices()
        if not self._unrecorded:  # else the disk is tried by what waits, and shown well after it
            self._writer.turn()
            self._attest()
            if not self.busy and (gone := self._writer.let_go(self._engine)):
                self._publish(gone)
        for machine in self._takes:
            self._settle(machine)
        for machine, state in list(self.shop.machines.items()):
            if state.job is not None:
                self._notice(machine, state.job)

    def _look_at_clock(self) -> None:
        """Record that it was set; where that fails, at the next turn."""
        stamp = self._clock.stamp()
        stepped = self._steps.look(stamp)
        self._screens.date_say = self._steps.say(stamp, self.shop.latest_us)
        if stepped is not None and self._recorded([steps.drafted(stepped, stamp, self._engine)]):
            self._steps.recorded(stamp)

    def _attest(self) -> None:
        """Record what the shop's key signed; while the disk is in doubt it waits for a probe."""
        wait = self._proof.wait or self._writer.doubted
        drafts = [] if wait else self._attests.due(self._clock.stamp(), self._engine)
        if drafts and self._recorded(drafts):
            self._attests.recorded(len(drafts))

    def _recorded(self, drafts: list[Draft]) -> bool:
        """Record rows of no machine, which nobody waits for: whether they are on the disk."""
        try:
            events = self._writer.write(drafts, [], {})
        except NotRecorded:
            return False
        self._publish(events)
        return True

    def _look_at_readers(self) -> None:
        """Tell of a reader that stands still, and that it goes on again."""
        for status in self._floor.statuses():
            if (status.code == STUCK) != (status.gauge in self._stuck):
                self._stuck ^= {status.gauge}
                self._screens.stands_still(status)
                self._follow(status)

    def _notice(self, machine: str, job: Job) -> None:
        ring = self._floor.ring(job.setup.gauge.key)
        # Between two presses of a gauge's key anything may have happened: a jump shows nothing.
        keyed = job.setup.gauge.key in self._floor.presses
        notice = None if keyed else self._zeros.look(machine, job, ring)
        # While something waits to be recorded, what follows from it cannot be judged.
        if notice is None and self._takes.on(machine) is None and not self._unrecorded:
            notice = self._conditions.look(machine, job, ring)
        if notice is not None:
            self._note(notice)

    def _note(self, notice: Notice) -> None:
        """Record what the service noticed; on a full disk it waits, in order, for room."""
        self._unrecorded.append(notice)
        self._record_notices()

    def _record_notices(self) -> None:
        while self._unrecorded:
            notice = self._unrecorded[0]
            ack = self._decide(Input(notice.command, samples=notice.samples))
            if ack.code in ("not-recorded", "not-known"):
                return
            del self._unrecorded[0]
            if ack.accepted and notice.command.kind == "zeroed":
                asked = self._job(notice.command.machine).zero_asked is not None
                why = said("went-to-zero-meanwhile") if asked else said("zeroed-meanwhile")
                self._give_up(notice.command.machine, why)

    def _give_up(self, machine: str, why: Said) -> None:
        """Refuse a take under way: what it was for has changed."""
        pending = self._takes.end(machine)
        if pending is not None:
            pending.answer(answers.refused(pending.command, why))

    def _settle(self, machine: str) -> None:
        pending = self._takes.on(machine)
        found = None if pending is None else self._takes.look(pending, self._job(machine))
        if pending is None or found is None:
            return
        self._takes.end(machine)
        if isinstance(found, Expired):
            pending.answer(answers.refused(pending.command, found.why))
        else:
            pending.answer(self._decide(*found))

    def _decide(self, given: Input, missed: bool = False) -> Ack:
        """Decide, commit, apply, tell: in that order, or not at all."""
        command, named = self._writer.people.identified(given.command)
        stamp = self._clock.stamp()
        chunk = command.brought or evidence.encode(given.samples)
        digest = evidence.digest(chunk) if chunk else ""
        given = replace(given, command=command, evidence=digest, today=day_of(stamp))
        if command.kind == "open":
            if why := self._floor.why_not(command.machine):
                return answers.refused(command, why)
            setup = self._floor.setup(command.machine)
            given = replace(given, setup=with_check(setup, self.shop.gauges))
        if command.kind in AFTER_SIGNING:
            signed, reports = self._writer.signed(command.payload.get("audit"), command.machine)
            given = replace(given, signed=signed, reports=reports)
        try:
            found = decide(self.shop, given)
        except Refused as refused:
            return answers.refused(command, refused.said)
        state = self.shop.machine(command.machine)
        drafts = drafted(found, given, missed, state, stamp, self._engine)
        return self._commit(command, drafts, chunk, named)

    def _commit(
        self, command: Command, drafts: list[Draft], chunk: bytes, named: Mapping[str, str]
    ) -> Ack:
        """Commit, apply, tell."""
        try:
            events = self._writer.write(drafts, [chunk] if chunk else [], named)
        except NotRecorded as error:
            return answers.lost(command, error, self._proof.fault)
        except (RecursionError, TypeError, ValueError) as error:  # such as half a character
            return answers.refused(command, said("cannot-be-written", error=str(error)))
        self._publish(events)
        # Only now: no screen may call recording well and still show what came before.
        self._writer.look()
        return Ack(command.id, True, tuple(event.seq for event in events), "ok")

    def _publish(self, events: tuple[Event, ...]) -> None:
        before, self.shop = self.shop, fold(events, self.shop)
        self._publisher.publish(Committed(events, before, self.shop, self._writer.head))

    def gauge_status(self, status: GaugeStatus) -> None:
        """Show how a gauge is doing; record it where an audit depends on it."""
        self._screens.status(status)
        self._follow(status)

    def _follow(self, status: GaugeStatus) -> None:
        bound = self.shop.bound(status.gauge)
        command = self._gauges.change(status, bound.machine if bound else None)
        if command is not None:
            self._note(Notice(command, ()))

    def close(self, why: Said) -> None:
        """Answer whoever still waits and close the ledger."""
        for machine in self._takes:
            self._give_up(machine, why)
        self._publisher.close()
        self._writer.close()
