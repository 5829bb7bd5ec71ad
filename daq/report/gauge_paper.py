"""A gauge's check as a paper: what was found against its blocks, by what, and how sure that is."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from daq.audit.gauge_events import BenchWork, GaugeChecked
from daq.audit.parts import CheckPoint
from daq.audit.views.figures import rounded_up, same_place, with_unit
from daq.metrology.rule import Rule
from daq.plots.errors import ErrorAt, ErrorWords, errors
from daq.plots.frame import Level
from daq.report.drawn import pen_of
from daq.report.number import ReportAnchor
from daq.report.paper import (
    Drawing,
    Facts,
    Grid,
    Labels,
    Lines,
    Paper,
    VerdictBlock,
    facts,
    section,
)
from daq.report.qr import qr
from daq.report.told import Told
from daq.report.when import when
from daq.screens.numbers import say_rule
from daq.units import degrees, show
from daq.words import Event, Figure, Said, Shown, said


@dataclass(frozen=True)
class CheckOnRecord:
    """A check with its row; `before`: how that gauge was found, where this is how it was left."""

    event: Event
    data: GaugeChecked
    work: BenchWork
    anchor: ReportAnchor
    before: GaugeChecked | None


def gauge_paper(check: CheckOnRecord, told: Told) -> Paper:
    """Return the certificate of a check."""
    page = _CheckPage(check, told)
    words, shop, anchor = told.words, check.work.shop, check.anchor
    number = f"G-{anchor.row}"
    foot = words(said("paper-foot", number=number, row=anchor.row, check=anchor.check))
    labels = Labels(
        page=words(said("paper-page", n="{n}", of="{of}")),
        end=words(said("paper-end", number=number)),
        mark="" if anchor.sound else words(said("paper-unsound")),
        foot=f"{foot} · headsweep {told.given.version}",
        qr=words(said("paper-qr", row=anchor.row, check=anchor.check)),
    )
    part = told.part
    return Paper(
        language=told.given.says.name,
        size=shop.paper,
        shop=tuple(each for each in (shop.name, *shop.address.splitlines()) if each),
        title=words(said("paper-gauge-title")),
        subtitle=words(said("paper-gauge-in-house")),
        number=words(said("paper-number", number=number)),
        labels=labels,
        token=anchor.token,
        qr=qr(f"{anchor.token} {number}", labels.qr),
        issued_us=check.event.stamp.utc_us,
        first=(
            *section("of", "", page.of()),
            *section("verdict", "", VerdictBlock(page.verdict())),
            *section("results", part("measured"), page.results(), page.figures(), page.rule()),
            *section("instruments", part("instruments"), page.blocks()),
        ),
        rest=(
            *section("curve", part("curve"), page.curve()),
            *section("readings", part("readings"), page.readings()),
            *section("budgets", part("budgets"), page.budget()),
            *section("record", part("record"), page.record()),
        ),
    )


@dataclass(frozen=True)
class _CheckPage:
    check: CheckOnRecord
    told: Told

    def _length(self, mm: float, digits: int | None = None) -> str:
        work = self.check.work
        places = work.decimals if digits is None else digits
        return self.told.words(with_unit(Shown(mm, work.unit, places)))

    def of(self) -> Facts:
        """Which gauge, when, by whom, and in what state."""
        data, work, words, fact = self.check.data, self.check.work, self.told.words, self.told.fact
        zone, stamp = when(work.shop.time_zone), self.check.event.stamp
        warm = Figure(degrees(work.celsius, work.unit), 1)
        rested = said("paper-rested", minutes=round(work.rested_s / 60.0))
        part = said(
            "paper-of-travel",
            low=Shown(work.low_mm, work.unit, work.decimals - 1),
            high=Shown(work.high_mm, work.unit, work.decimals - 1),
            travel=Shown(work.travel_mm, work.unit, work.decimals - 1),
            unit=work.unit,
        )
        return facts(
            (
                (fact("gauge"), work.gauge_name),
                (fact("number"), data.serial_number),
                (fact("state"), words(said("paper-gauge-state", state=work.state))),
                (fact("done"), self.told.moment(zone.at(stamp), sure=stamp.utc_trusted)),
                (fact("zone"), zone.zone),
                (fact("done-by"), self.told.person(data.done_by)),
                (fact("span"), words(part)),
                (fact("warm"), words(said("degrees", degrees=warm, unit=work.unit))),
                (fact("rested"), words(rested)),
            )
        )

    def verdict(self) -> str:
        """Whether it is good."""
        return self.told.words(said("paper-gauge-verdict", word=self.check.work.word))

    def results(self) -> Grid:
        """The span of its errors, as found and as left where both are known."""
        earlier, now = self.check.before, self.check
        rows = [self._result(now.data, now.work)]
        if earlier is not None and earlier.work is not None:
            rows.insert(0, self._result(earlier, earlier.work))
        head = self.told.head("what", "allowed", "value", "expanded", "k", "called")
        return Grid(head, tuple(rows), wide=(0,))

    def _result(self, data: GaugeChecked, work: BenchWork) -> tuple[str, ...]:
        words, u_mm, unit = self.told.words, work.budget.expanded_mm, work.unit
        digits = same_place(data.span_mm, (data.max_error_mm,), unit, u_mm)
        return (
            words(said("paper-gauge-span", state=work.state, day=data.day)),
            self._length(data.max_error_mm, digits),
            self._length(data.span_mm, digits),
            f"± {words(rounded_up(u_mm, unit, digits))}",
            words(Figure(work.budget.k, 2)),
            words(said("paper-called", word=work.word)),
        )

    def figures(self) -> Facts:
        """What goes into later budgets."""
        data, fact, work = self.check.data, self.told.fact, self.check.work
        known = {
            "short": work.short_mm,
            "both-ways": data.hysteresis_mm,
            "repeats": data.repeatability_mm,
        }
        return facts(
            (fact(name), "" if mm is None else self._length(mm)) for name, mm in known.items()
        )

    def rule(self) -> Lines:
        """By which rule, and what it risks."""
        words, ruling = self.told.words, self.check.work.ruling
        rule = say_rule(Rule(ruling.name, ruling.coverage), "figures")
        unseen = said("paper-zero-of-a-count")
        return Lines((words(said("paper-rule", rule=rule)), words(ruling.risk), words(unseen)))

    def curve(self) -> Drawing:
        """Every error over its length, and the room that all of them have between them.

        The span is judged: the limits are as far apart as it may be, with the errors midway.
        """
        data, work, told = self.check.data, self.check.work, self.told
        pen = pen_of(told.given.says, told.given.names, work.unit, work.decimals)
        read = [
            ErrorAt(pen.value(self._nominal(point)), pen.value(_error(point)), point.direction)
            for point in data.points
        ]
        middle = (max(each.error for each in read) + min(each.error for each in read)) / 2.0
        allowed = with_unit(Shown(data.max_error_mm, work.unit, work.decimals))
        lines = [
            Level(middle + side * pen.value(data.max_error_mm) / 2.0, says, "limit")
            for side, says in ((-1.0, ""), (1.0, pen.words(said("curve-allowed", limit=allowed))))
        ]
        if work.guard_mm and work.guard_mm < data.max_error_mm:
            inner = pen.value(data.max_error_mm - work.guard_mm) / 2.0
            guard = pen.words(said("curve-guard", limit=self._said(work.guard_mm)))
            lines += [Level(middle - inner, guard, "control"), Level(middle + inner, "", "control")]
        words = ErrorWords(
            title=pen.words(said("curve-title", unit=work.unit)),
            says=pen.words(said("curve-says", span=self._said(data.span_mm), limit=allowed)),
            along=pen.words(said("curve-along", unit=work.unit)),
            up=pen.words(said("paper-way", way="up")),
            down=pen.words(said("paper-way", way="down")),
            head=told.head("length", "way", "error"),
        )
        drawn = errors(read, lines, words, (work.decimals, work.decimals))
        return Drawing(drawn.svg, drawn.says)

    def _nominal(self, point: CheckPoint) -> float:
        """The length of its blocks by name, mm."""
        first = self.check.data.points[0].off_mm
        return self.check.work.low_mm + point.nominal_mm - point.off_mm + first

    def blocks(self) -> Grid:
        """The set, with its papers."""
        used = self.check.work.blocks
        head = self.told.head("what", "number", "certificate", "laboratory", "calibrated")
        name = f"{used.name} ({used.material})" if used.material else used.name
        row = (name, used.serial_number, used.certificate, used.laboratory, used.date)
        return Grid(head, (row,), wide=(0,))

    def readings(self) -> Grid:
        """Every reading in order, from the first."""
        head = self.told.head("length", "off", "way", "read", "error")
        return Grid(head, tuple(self._readings()), small=True)

    def _readings(self) -> Iterator[tuple[str, ...]]:
        work = self.check.work
        for point in self.check.data.points:
            error = show(_error(point), work.unit, work.decimals, plus=True)
            yield (
                self._length(self._nominal(point)),
                self.told.words(Figure(1000.0 * point.off_mm, 2, plus=True)),
                self.told.words(said("paper-way", way=point.direction)),
                self._length(point.read_mm),
                error,
            )

    def budget(self) -> Grid:
        """Its uncertainty, term by term, the largest first."""
        budget, words = self.check.work.budget, self.told.words
        rows = [
            (words(t.name), self._fine(t.u_mm), self._freedom(t.dof), words(t.note))
            for t in sorted(budget.terms, key=lambda term: -term.u_mm)
        ]
        expanded = said(
            "paper-expanded",
            k=Figure(budget.k, 2),
            by=rounded_up(budget.expanded_mm, self.check.work.unit, self.check.work.decimals + 1),
            coverage=Figure(100.0 * budget.coverage, 1),
        )
        together = words(said("paper-combined"))
        whole = (together, self._fine(budget.u_mm), self._freedom(budget.dof), words(expanded))
        return Grid(
            self.told.head("term", "u", "dof", "note"), (*rows, whole), wide=(0, 3), small=True
        )

    def _said(self, mm: float) -> Said:
        return with_unit(Shown(mm, self.check.work.unit, self.check.work.decimals + 1))

    def _fine(self, mm: float) -> str:
        return self.told.words(self._said(mm))

    def _freedom(self, dof: float | None) -> str:
        many = said("many") if dof is None else Figure(math.floor(dof + 1e-9), 0)
        return self.told.words(many)

    def record(self) -> Facts:
        """Where in the ledger it stands."""
        anchor, fact = self.check.anchor, self.told.fact
        return facts(
            (
                (fact("ledger"), anchor.ledger),
                (fact("row"), str(anchor.row)),
                (fact("hash"), anchor.hash),
                (fact("check"), anchor.check),
                (fact("software"), f"headsweep {self.told.given.version}"),
            )
        )


def _error(point: CheckPoint) -> float:
    return point.read_mm - point.nominal_mm
