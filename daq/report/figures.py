"""Results and lengths as a report shows them: value, uncertainty and limit to the same place."""

from dataclasses import dataclass, replace

from daq.audit.events import SweepDone
from daq.audit.facts import decimals, unit_of
from daq.audit.parts import AxisResult, Budget, Ruling, Whole
from daq.audit.rounds import Measure
from daq.audit.state import Job
from daq.audit.views.figures import WIDE, length, rounded_up, same_place, with_unit
from daq.report.told import Told
from daq.screens.axes import say_low
from daq.screens.numbers import say_probability
from daq.units import show
from daq.words import AXES, Axis, Shown, Unit, Word, said


@dataclass(frozen=True)
class ShownResult:
    """One figure with its doubt and its verdict; lengths in mm, nothing rounded.

    `value_mm` is the difference across the sweep's circle, what was wanted taken off it; of another
    check, what was measured. `expanded_mm` is `k` times `u_mm`, the half-width of the interval that
    holds the true value with probability `coverage`; `dof`: degrees of freedom, null for many.
    `low_mm`, `high_mm`: the limits, null where there is none. `guard_mm`: how far inside them is
    in. `verdict`: "in", "out" or "close", null where nothing is judged. `risk`: the verdict in a
    sentence. The shown texts have value, uncertainty and limit to the same decimal place, the
    uncertainty rounded up.
    """

    value_mm: float
    expanded_mm: float | None
    u_mm: float | None
    k: float | None
    dof: float | None
    coverage: float | None
    low_mm: float | None
    high_mm: float | None
    guard_mm: float | None
    probability: float | None
    verdict: Word | None
    good_enough: bool
    shown_value: str
    shown_expanded: str
    shown_limit: str
    shown_lean: str
    shown_probability: str
    shown_guard: str
    risk: str


@dataclass(frozen=True)
class Figures:
    """How lengths are shown in one audit: in its gauge's own unit."""

    job: Job
    told: Told

    @property
    def unit(self) -> Unit:
        """The gauge's own, as it showed last."""
        return unit_of(self.job)

    def face(self, mm: float) -> str:
        """A value of the gauge's face, with the decimals its resolution is worth; no unit."""
        return show(mm, self.unit, decimals(self.job))

    def length(self, mm: float, finer: int = 0) -> str:
        """A length with its unit, by so many decimals finer than a head is set to."""
        return self.told.words(length(mm, self.unit, finer))

    def wide(self, mm: float) -> str:
        """A length that others are stated over, with its unit."""
        return self.length(mm, WIDE)

    def digits(self, *sweeps: SweepDone | None) -> dict[Axis, int]:
        """How many decimals an axis is shown with: the same as found and as left."""
        return {
            axis: max((self._digits(each, axis) for each in sweeps if each is not None), default=3)
            for axis in AXES
        }

    def _digits(self, sweep: SweepDone, axis: Axis) -> int:
        result = sweep.results[axis]
        budget = sweep.budgets[axis] if sweep.budgets else None
        limits = (result.low_mm or 0.0, result.high_mm or 0.0)
        expanded_mm = None if budget is None else budget.expanded_mm
        return same_place(result.error_mm, limits, self.unit, expanded_mm)

    def axis(self, sweep: SweepDone, axis: Axis, digits: int) -> ShownResult:
        """One axis of a sweep."""
        result = sweep.results[axis]
        budget = sweep.budgets[axis] if sweep.budgets else None
        return self._result(
            result.error_mm,
            (result.low_mm, result.high_mm),
            budget,
            sweep.whole or result,
            digits,
            self.told.words(say_low(axis, result)),
        )

    def measure(self, found: Measure) -> ShownResult:
        """One thing that another check came to."""
        limit_mm = found.limit_mm
        low_mm = None if limit_mm is None else -limit_mm
        budget = found.budget
        digits = same_place(found.value_mm, (limit_mm or 0.0,), self.unit, found.doubt_mm)
        # What is only held against an earlier sweep is no matter of conforming.
        judged = replace(found, word=None) if found.sees_mm is not None else found
        over = "" if found.over_mm is None else self.wide(found.over_mm)
        return self._result(found.value_mm, (low_mm, limit_mm), budget, judged, digits, over)

    def _result(
        self,
        value_mm: float,
        limits_mm: tuple[float | None, float | None],
        budget: Budget | None,
        judged: AxisResult | Whole | Measure,
        digits: int,
        lean: str,
    ) -> ShownResult:
        low_mm, high_mm = limits_mm
        ruling: Ruling | None = judged.ruling
        expanded_mm = None if budget is None else budget.expanded_mm
        return ShownResult(
            value_mm=value_mm,
            expanded_mm=expanded_mm,
            u_mm=None if budget is None else budget.u_mm,
            k=None if budget is None else budget.k,
            dof=None if budget is None else budget.dof,
            coverage=None if budget is None else budget.coverage,
            low_mm=low_mm,
            high_mm=high_mm,
            guard_mm=None if judged.word is None else judged.guard_mm,
            probability=judged.probability,
            verdict=judged.word,
            good_enough=judged.good_enough,
            shown_value=self._shown(value_mm, digits, plus=True),
            shown_expanded="" if expanded_mm is None else self._up(expanded_mm, digits),
            shown_limit=self._limit(low_mm, high_mm, digits),
            shown_lean=lean,
            shown_probability=self.told.words(say_probability(judged.probability)),
            shown_guard=""
            if not judged.word or not judged.guard_mm
            else self.length(judged.guard_mm, 1),
            risk="" if ruling is None else self.told.words(ruling.risk),
        )

    def _shown(self, mm: float, digits: int, *, plus: bool = False) -> str:
        return self.told.words(with_unit(Shown(mm, self.unit, digits, plus)))

    def _up(self, mm: float, digits: int) -> str:
        return self.told.words(rounded_up(mm, self.unit, digits))

    def _limit(self, low_mm: float | None, high_mm: float | None, digits: int) -> str:
        """±0.010 mm, or from ... to ... where the two sides differ."""
        if low_mm is None or high_mm is None or -low_mm == high_mm:
            single = high_mm if high_mm is not None else low_mm
            if single is None:
                return ""
            shown = Shown(abs(single), self.unit, digits)
            return self.told.words(said("paper-limit", limit=shown, unit=self.unit))
        low, high = (Shown(mm, self.unit, digits, plus=True) for mm in (low_mm, high_mm))
        return self.told.words(said("paper-limits", low=low, high=high, unit=self.unit))
