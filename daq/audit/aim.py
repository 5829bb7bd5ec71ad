"""What the live number is held against: the stop-at of the open audit, if it has one.

How far it still is, that it is too far, or that a bolt moved the head too much is told here,
by the record's own functions and limits, for every sample: no page judges a number.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from daq.audit.facts import decimals, tap_of, turned_to, unit_of
from daq.audit.parts import Leaning
from daq.audit.state import Job, MachineState
from daq.audit.views.figures import limit, on_face, rounded_up
from daq.audit.views.to_go import to_go
from daq.metrology.creeping import by_fives, creeping
from daq.squaring.tightening import Tighten, is_over, steps
from daq.units import FINE, MM_PER, SLACK_MM, show
from daq.words import Against, Axis, Said, Sample, Shown, Strip, Unit, said

Way = Literal["up", "down"]
COVERS: Final = 1.96
"""So many standard deviations to both sides cover 95 % (normal distribution)."""
_NARROWEST: Final = 4.0
"""Half of the strip is never shorter than so many half bands."""
_STEP: Final = 1.25
"""It is made shorter by so much at a time: from further off, what is left fills 80 % of it."""
_ROUNDED: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Turning:
    """An adjuster is turned: to the stop-at as the face shows it, mm, which way it goes there.

    `past_mm`: how far to go past it before the last turn comes from the right side. `band_mm`:
    how far from it on the face a turn may end. `axis`: the name of what leans, and `leaning` how.
    `count_mm`: the gauge's count, by which a creep is told; 0 where none is.
    """

    stop_face_mm: float
    way: Way
    past_mm: float = 0.0
    band_mm: float = 0.0
    axis: str = ""
    leaning: Leaning | None = None
    count_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Pull:
    """Bolts are pulled up: step `step` of them, what the number read before it, mm.

    Bolts that are not watched one by one have no steps; nor is there one after the last.
    """

    tighten: Tighten
    step: int
    last_face_mm: float
    limit: Shown


@dataclass(frozen=True, slots=True)
class Aim:
    """The gauge and the reading on its face, mm, at which to stop; how to show the distance.

    While bolts are pulled up it is what the gauge read before the first.
    """

    gauge: str
    stop_face_mm: float
    unit: Unit
    digits: int
    of: Turning | Pull

    def to_go(self, face_mm: float) -> tuple[str, float]:
        """How far the face still has to change, as text in its unit and in mm."""
        to_go = self.stop_face_mm - face_mm
        return show(to_go, self.unit, self.digits, plus=True), to_go

    def been(self, face_mm: float, been: bool) -> bool:
        """Whether the number has gone as far past the stop-at as it was to; `been`: before.

        So far back that it takes another run, it has not.
        """
        if not isinstance(self.of, Turning):
            return False
        ahead, past = self._ahead(self.of, face_mm), self._counts(self.of.past_mm)
        return ahead + past <= 0 or (been and ahead <= past)

    def is_there(self, face_mm: float, been: bool) -> bool:
        """Whether a turn may end with this number; `been`: it has been past the stop-at."""
        if not isinstance(self.of, Turning) or (self.of.past_mm and not been):
            return False
        return abs(self._ahead(self.of, face_mm)) <= self._band(self.of)

    def creeps_s(self, samples: Sequence[Sample]) -> float:
        """For how long the number still creeps since the hand left it there, as a press asks.

        Seconds, 0 where it does not.
        """
        count_mm = self.of.count_mm if isinstance(self.of, Turning) else 0.0
        creep = creeping(samples, count_mm) if count_mm else None
        return 0.0 if creep is None else creep.wait_s

    def against(
        self,
        face_mm: float | None,
        *,
        been: bool = False,
        keyed: bool = False,
        creeps_s: float = 0.0,
    ) -> Against:
        """The number in words; None: there is none that can be held against it.

        `been`: it has been past the stop-at; `keyed`: it was sent on a key, some time ago;
        `creeps_s`: let go at the stop-at it still creeps for so long: whatever it reads, it is to
        be left alone.
        """
        if isinstance(self.of, Pull):
            return self._pulled(self.of, face_mm)
        if face_mm is None:
            return Against("unknown", said("distance-unknown"))
        turned = self._turned(self.of, face_mm, been=self.been(face_mm, been))
        if creeps_s:
            turned = Against("creeps", said("creeps-on", seconds=by_fives(creeps_s)))
        elif keyed:
            turned = replace(turned, say=said("when-sent", said=turned.say))
        told = self._leans(self.of, face_mm)
        return replace(turned, lean=told, strip=self._strip(self.of, face_mm))

    def _turned(self, turn: Turning, face_mm: float, *, been: bool) -> Against:
        ahead, past = self._ahead(turn, face_mm), self._counts(turn.past_mm)
        back: Way = "down" if turn.way == "up" else "up"
        if past and not been:
            run = self._shown(ahead + past)
            return Against(turn.way, said("past-then-back", way=turn.way, size=run))
        if self.is_there(face_mm, been):
            return Against("there", said("there"))
        size = self._shown(abs(ahead))
        if ahead > 0:
            return Against(turn.way, said("to-go", way=turn.way, size=size))
        if past:
            return Against(back, said("come-back", way=back, size=size))
        return Against(back, said("too-far", way=back, size=size))

    def _leans(self, turn: Turning, face_mm: float) -> Said | None:
        """The lean as a pair check taken now would find it, with what it may be off by (95 %)."""
        if turn.leaning is None:
            return None
        beyond_mm = face_mm - self.stop_face_mm
        lean = Shown(turn.leaning.error_mm(beyond_mm), self.unit, FINE[self.unit], plus=True)
        by = rounded_up(COVERS * turn.leaning.doubt_mm(beyond_mm), self.unit, FINE[self.unit])
        return said("leans-now", axis=turn.axis, lean=lean, by=by)

    def _strip(self, turn: Turning, face_mm: float) -> Strip | None:
        """Where the number and the band lie on a strip that grows shorter as the number nears."""
        if not turn.band_mm:
            return None
        off_mm = face_mm - turn.stop_face_mm
        far = max(abs(off_mm) / turn.band_mm / _NARROWEST, 1.0)
        wide = _NARROWEST * _STEP ** math.ceil(math.log(far, _STEP) - SLACK_MM)
        return Strip(off_mm / (wide * turn.band_mm), 1.0 / wide)

    def _band(self, turn: Turning) -> int:
        """How many of the last digits the number may be off and is there."""
        return math.floor(turn.band_mm / self._digit_mm + _ROUNDED)

    def _pulled(self, pull: Pull, face_mm: float | None) -> Against:
        of = len(steps(pull.tighten))
        turn = said("bolt-step", step=pull.step, of=of) if pull.step <= of else None
        if face_mm is None:
            return Against("unknown", said("movement-unknown"), turn)
        moved = self._shown(self._counts(face_mm - self.stop_face_mm), plus=True)
        if turn is None:
            return Against("within", said("moved-since", moved=moved))
        if pull.step > 1:
            turn = said("bolt-step-in-all", step=pull.step, of=of, moved=moved)
        own_mm = face_mm - pull.last_face_mm
        own = self._shown(self._counts(own_mm), plus=True)
        say = said("bolt-moved", moved=own, limit=pull.limit)
        return Against("over" if is_over(own_mm, pull.tighten) else "within", say, turn)

    def _ahead(self, turn: Turning, face_mm: float) -> int:
        """How far it still goes, counted in last digits; below zero beyond the stop-at."""
        to_go = self._counts(turn.stop_face_mm - face_mm)
        return to_go if turn.way == "up" else -to_go

    @property
    def _digit_mm(self) -> float:
        return MM_PER[self.unit] * 10.0**-self.digits

    def _counts(self, mm: float) -> int:
        return round(mm / self._digit_mm)

    def _shown(self, counts: int, *, plus: bool = False) -> Shown:
        return Shown(counts * self._digit_mm, self.unit, self.digits, plus)


def aim(state: MachineState) -> Aim | None:
    """The stop-at of the machine's open audit, or None while there is none.

    While bolts are pulled up one by one it is what the gauge read before the first.
    """
    job = state.job
    if job is None:
        return None
    to = turned_to(job)
    if to is not None and not to.by_hand:
        way, axis = to_go(job, to), job.setup.machine.axis(to.axis).say
        ends = way.stop_face_mm, way.way, way.past_mm
        turning = Turning(*ends, to.band_mm, axis, to.leaning, job.setup.gauge.resolution)
        return _aim(job, to.stop_face_mm, turning)
    tap = tap_of(job)
    if tap is not None:
        return _aim(job, tap.stop_face_mm, Turning(on_face(job, tap.stop_face_mm), tap.way))
    if job.step == "tighten" and job.axis is not None and job.bolts.first_face_mm is not None:
        return _aim(job, job.bolts.first_face_mm, _pull(job, job.axis, job.bolts.first_face_mm))
    return None


def _aim(job: Job, stop_face_mm: float, of: Turning | Pull) -> Aim:
    return Aim(job.setup.gauge.key, stop_face_mm, unit_of(job), decimals(job), of)


def _pull(job: Job, axis: Axis, first_face_mm: float) -> Pull:
    tighten = job.setup.machine.axis(axis).tighten
    last = first_face_mm if job.bolts.last_face_mm is None else job.bolts.last_face_mm
    return Pull(tighten, job.bolts.steps + 1, last, limit(job, tighten.limit))
