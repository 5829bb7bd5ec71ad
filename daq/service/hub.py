"""The latest of everything, for the screens. Nothing here waits for a disk."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from daq.audit.aim import Aim
from daq.audit.rounds import Offer
from daq.gauges.reader import STUCK
from daq.gauges.wire import Wire, counts
from daq.screens import Console
from daq.screens.told import not_done
from daq.service.rise import Rise
from daq.service.sayings import Sayings
from daq.service.since_aimed import SinceAimed
from daq.service.takes import HOLD_STILL
from daq.service.turns import Turns
from daq.units import places, show
from daq.words import Against, GaugeStatus, Live, Said, Sample, Snapshot, said


@dataclass(frozen=True, slots=True)
class Served:
    """One machine as the hub serves it.

    `fresh_ms`: how old its gauge's sample may be; None for a gauge that sends on its key.
    `offers`: the checks besides squaring. `amiss`: a file's mistake by which none can be opened.
    """

    key: str
    say: str
    gauge: str
    fresh_ms: int | None
    offers: tuple[Offer, ...] = ()
    amiss: Said | None = None


Lost = tuple[str, int]
"""The last sample before a gauge's fault: its run and its number."""

WELL = {"ok": True, "say": ""}
NO_ANSWER = {"ok": False, "say": said("no-answer")}

SCREENS = "screens"
"""The follower of the ledger without which no screen follows it."""

STAND_STILL = {"ok": False, "say": said("screens-stand-still")}

Tell = Callable[[str, str], None]
"""Told of which machine what is new, "live" or "snapshot"; it must not wait."""

Ear = Callable[[Sample], None]
"""Told of a machine's samples on the thread of their reader: it must not wait."""


class Hub:
    """Latest sample, stop-at and snapshot of every machine, and who waits for them."""

    def __init__(self, served: tuple[Served, ...], mono_ns: Callable[[], int]) -> None:
        """Serve these machines; a snapshot of each must be published before it is asked for."""
        self._served = {m.key: m for m in served}
        self._mono_ns = mono_ns
        self._samples: dict[str, Sample] = {}
        self._aims: dict[str, Aim | None] = {}
        self._since_aimed: dict[str, SinceAimed] = {}
        self._snapshots: dict[str, Snapshot] = {}
        self._gauges = {m.key: m.gauge for m in served}
        self._statuses: dict[str, GaugeStatus] = {}
        self._lost: dict[str, Lost] = {}
        self._sayings = Sayings(mono_ns)
        self._ears: dict[str, tuple[Ear, ...]] = {}
        self._turns = Turns(mono_ns)
        self._turns.turn()
        self._dropped: tuple[str, ...] = ()
        self.held: tuple[str, ...] = ()
        """The threads that stand still, by name."""
        self.recording: Mapping[str, Any] = WELL
        self._told: tuple[Tell, ...] = ()
        self.wires: Mapping[str, Callable[[], Wire]] = {}
        self.people: Mapping[str, str] = {}
        """What people are called who stand in what is shown, by id."""
        self.rise = Rise(self._wake_all, mono_ns)

    def machines(self) -> tuple[Served, ...]:
        """The machines served, in the order to show them."""
        return tuple(self._served.values())

    def on_sample(self, sample: Sample) -> None:
        """The live path: called by a reader for every sample; wakes the screens."""
        self._samples[sample.gauge] = sample
        for machine in self._served.values():
            if self._gauges[machine.key] == sample.gauge:
                self._went(machine.key, sample)
                self._wake(machine.key, "live")
                for ear in self._ears.get(machine.key, ()):
                    ear(sample)

    def _went(self, machine: str, sample: Sample) -> None:
        """Keep what the number did since there is this stop-at."""
        aim = self._aims.get(machine)
        if aim is not None and (aim.gauge, aim.unit) == (sample.gauge, sample.unit):
            self._since_aimed[machine] = since = self._since(machine, aim)
            since.went(sample)

    def _since(self, machine: str, aim: Aim) -> SinceAimed:
        since = self._since_aimed.get(machine)
        return since if since is not None and since.aim == aim else SinceAimed(aim)

    def _against(self, machine: str, sample: Sample | None) -> Against | None:
        """What the sample says, held against the machine's aim; None: no sample to be shown."""
        aim = self._aims.get(machine)
        if aim is None:
            return None
        if sample is None or (aim.gauge, aim.unit) != (sample.gauge, sample.unit):
            return aim.against(None)
        keyed = self._served[machine].fresh_ms is None
        return self._since(machine, aim).against(sample, keyed=keyed)

    def listen(self, machine: str, ear: Ear) -> None:
        """Have every further sample of a machine's gauge told."""
        self._ears[machine] = (*self._ears.get(machine, ()), ear)

    def tell(self, machine: str, outcome: str, say: Said | None) -> None:
        """Say on a machine's screens what becomes of a press that came from none of them.

        It stands until the machine's next event, or until something else is said.
        """
        told = self._sayings.drop(machine)
        if say:
            self._sayings.say(machine, {"outcome": outcome, "say": say})
        if say or told:
            self._wake(machine, "snapshot")

    def refuse(self, machine: str, kind: str, why: Said, command: str = "") -> None:
        """Say on all of a machine's screens that a press did nothing, wherever it came from.

        `command`: its id, by which the page that made it knows its own. It stands for
        `REFUSED_NS`, or until the machine's next event. The second press of a take under way
        is none of these: the first one is being carried out.
        """
        if why != HOLD_STILL:
            say = not_done(kind, why)
            self._sayings.say(machine, {"outcome": "refused", "say": say, "command": command})
            self._wake(machine, "snapshot")

    def amiss(self, machine: str, code: str, why: Said | None) -> None:
        """Warn on a machine's screens of what no gauge is to blame for, until `why` is None."""
        self._sayings.amiss(machine, code, why)
        self._wake(machine, "snapshot")

    def on_status(self, status: GaugeStatus) -> None:
        """How a gauge's reader is doing; called by it, in order with its samples."""
        self._statuses[status.gauge] = status
        sample = self._samples.get(status.gauge)
        if status.code == "ok" or sample is None:
            return
        self._lost[status.gauge] = (sample.run, sample.n)
        for machine in self._served.values():
            if self._gauges[machine.key] == status.gauge:
                self._wake(machine.key, "live")

    def lost(self, gauge: str) -> Lost | None:
        """The last sample before a gauge's latest fault, if it had one with samples before it."""
        return self._lost.get(gauge)

    def publish(self, snapshot: Snapshot, aim: Aim | None, gauge: str) -> None:
        """Show a machine's new snapshot; called only after its events were committed.

        `gauge`: the one bound to its audit, or else the one in its file.
        """
        shown = self._snapshots.get(snapshot.machine)
        if shown is not None and shown.seq != snapshot.seq:
            self._sayings.drop(snapshot.machine)
        # The number that is there already says something else now.
        fresh_aim = self._aims.get(snapshot.machine) != aim
        self._gauges[snapshot.machine] = gauge
        self._aims[snapshot.machine] = aim
        self._snapshots[snapshot.machine] = snapshot
        self._wake(snapshot.machine, "snapshot")
        if fresh_aim:
            self._wake(snapshot.machine, "live")

    def record(self, ok: bool, say: Said | None) -> None:
        """How recording is doing, on every screen."""
        recording = {"ok": ok, "say": say or ""}
        if self.recording != recording:
            self.recording = recording
            self._wake_all()

    def drop(self, follower: str) -> None:
        """A follower of the ledger is told no more; where it is the screens', they say so."""
        self._dropped = (*self._dropped, follower)
        self._wake_all()

    def beat(self) -> None:
        """The decider turns."""
        self._turns.turn()

    def hold(self, threads: tuple[str, ...]) -> None:
        """These threads stand still, and no others."""
        self.held = threads

    def _wake_all(self) -> None:
        for machine in self._served:
            self._wake(machine, "snapshot")

    def follow(self, tell: Tell) -> None:
        """Have every change of a machine told, on the thread it came from."""
        self._told = (*self._told, tell)

    def _wake(self, machine: str, what: str) -> None:
        for tell in self._told:
            tell(machine, what)

    @property
    def still(self) -> bool:
        """Whether the decider stands still: something holds it up, most likely the disk."""
        return self._turns.still

    def snapshot(self, machine: str) -> Snapshot:
        """Everything about a machine besides the live number.

        While recording does not answer there is nothing to press.
        """
        shown = self._snapshots[machine]
        recording = STAND_STILL if SCREENS in self._dropped else self.recording
        if self.still:
            recording = NO_ANSWER
            pages = {
                name: replace(page, actions=()) if isinstance(page, Console) else page
                for name, page in shown.pages.items()
            }
            shown = replace(shown, pages=pages)
        since, rise = self._sayings.said(machine), self.rise.now(machine, shown.pages)
        faults = (*shown.faults, *self._sayings.warned(machine))
        return replace(shown, said=since, recording=recording, faults=faults, cut_off=rise)

    def live(self, machine: str) -> Live:
        """The latest live number; its age is counted to this call."""
        served, gauge = self._served[machine], self._gauges[machine]
        keyed = served.fresh_ms is None
        sample = self._samples.get(gauge)
        if sample is None or SCREENS in self._dropped:
            none = self._against(machine, None)
            return Live(gauge, "", 0, "", "", None, 0, fresh=False, keyed=keyed, against=none)
        age_ms = (self._mono_ns() - sample.mono_ns) // 1_000_000
        run, last_n = self._lost.get(gauge, ("", 0))
        left_ms = 0 if served.fresh_ms is None else served.fresh_ms - age_ms
        if (sample.run == run and sample.n <= last_n) or (left_ms < 0 and not keyed):
            return Live(
                *(gauge, sample.run, sample.n, "", "", None, age_ms),
                fresh=False,
                keyed=keyed,
                against=self._against(machine, None),
            )
        aim = self._aims.get(machine)
        aimed = aim is not None and (aim.gauge, aim.unit) == (gauge, sample.unit)
        text, to_go_mm = aim.to_go(sample.value_mm) if aim and aimed else (None, None)
        return Live(
            gauge=gauge,
            run=sample.run,
            n=sample.n,
            text=show(sample.value_mm, sample.unit, places(sample.text)),
            unit=sample.unit,
            value_mm=sample.value_mm,
            age_ms=age_ms,
            fresh=not keyed,
            to_go=text,
            to_go_mm=to_go_mm,
            keyed=keyed,
            fresh_for_ms=None if keyed else left_ms,
            against=self._against(machine, sample),
        )

    def health(self) -> Mapping[str, Any]:
        """Whether the decider turns and records, and how each gauge's reader is doing.

        Not `ok` with a reader that stands still, either: no cable is to blame for that. Nor with
        a follower of the ledger that was dropped: only a new start brings it back.
        """
        recording = {key: dict(self.snapshot(key).recording) for key in self._snapshots}
        gauges = {
            key: {"code": s.code, "say": s.say or "", **counts(s, self.wires.get(s.gauge))}
            for key, s in self._statuses.items()
        }
        ok = all(r["ok"] for r in recording.values()) and not self.still
        ok = ok and not self._dropped and not self.held
        return {
            "ok": ok and all(gauge["code"] != STUCK for gauge in gauges.values()),
            "held": list(self.held),
            "recording": recording,
            "gauges": gauges,
            "dropped": list(self._dropped),
        }
