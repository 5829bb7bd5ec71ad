"""The pages after the first: everything that is on record of an audit."""

import math
from dataclasses import dataclass
from typing import Final

from daq.report.data import BudgetPart, FoundAndLeft, ReportData, RowPart, SweepPart, TermPart
from daq.report.figures import Figures, ShownResult
from daq.report.paper import Block, Drawing, Facts, Grid, Lines, Section, facts, section
from daq.report.readings import ReadingLine
from daq.report.told import Told
from daq.words import Figure, said

HASH: Final = 16
"""So many characters of a row's hash stand beside it; all of it is in the JSON report."""


@dataclass(frozen=True)
class LaterPages:
    """They, from what the report says."""

    data: ReportData
    figures: Figures
    drawn: tuple[Drawing, ...] = ()

    @property
    def told(self) -> Told:
        """The report's words."""
        return self.figures.told

    def sections(self) -> tuple[Section, ...]:
        """Return everything on them, in order."""
        data, part = self.data, self.told.part
        return (
            *section("remarks", part("remarks"), self._remarks(), self._texts()),
            *section("addenda-in-full", part("addenda"), self._addenda()),
            *section("judged", part("judged"), *self._judged()),
            *section("sweeps", part("sweeps"), self._sweeps()),
            *section("pictures", part("pictures"), *self.drawn),
            *section("readings", part("readings"), self._readings()),
            *section("budgets", part("budgets"), *self._budgets()),
            *section("rows", part("rows"), self._rows()),
            *section("record", part("record"), self._record(), Lines(data.scope)),
        )

    def _remarks(self) -> Lines:
        return Lines((*self.data.remarks, *((self.data.note,) if self.data.note else ())))

    def _texts(self) -> Facts:
        """What a first page may have had no room for."""
        data, fact = self.data, self.told.fact
        named = ((fact("machine"), data.machine.name), (fact("place"), data.machine.place))
        return facts(
            (
                *named,
                (fact("customer"), data.machine.customer),
                (fact("disposition"), data.past.disposition),
                (fact("because"), data.issue.because),
                *((fact("condition"), each) for each in data.conditions),
            )
        )

    def _addenda(self) -> Grid:
        rows = tuple(
            (str(a.row), self.told.moment(a.at), a.kind, a.text, a.by) for a in self.data.addenda
        )
        return Grid(self.told.head("row", "at", "kind", "text", "by"), rows, wide=(3,))

    def _judged(self) -> tuple[Block, ...]:
        head = self.told.head("what", "when", "value", "expanded", "k", "dof", "guard", "allowed",
                              "sure", "called")  # fmt: skip
        rows = tuple(
            self._result(pair, side, result)
            for pair in self.data.results
            for side, result in (("found", pair.as_found), ("left", pair.as_left))
            if result is not None
        )
        risks = dict.fromkeys(
            self.told.risk(pair.name, result.shown_guard, result.risk)
            for pair in self.data.results
            for result in (pair.as_found, pair.as_left)
            if result is not None and result.risk
        )
        shifts = tuple(
            self.told.words(said("paper-shift", name=pair.name, by=self.figures.length(shift_mm)))
            for pair, shift_mm in zip(self.data.results, self.data.shifts_mm.values(), strict=False)
            if pair.key and shift_mm is not None
        )
        moves = self.told.words(said("paper-moves", moves=self.data.moves))
        of_head = (moves,) if self.data.check == "head" else ()
        return Grid(head, rows, wide=(0,)), Lines((*risks, *of_head, *shifts))

    def _result(self, pair: FoundAndLeft, side: str, result: ShownResult) -> tuple[str, ...]:
        words = self.told.words
        return (
            pair.name,
            words(said("paper-column", of=side)) if pair.key else "",
            result.shown_value,
            result.shown_expanded,
            "" if result.k is None else words(Figure(result.k, 2)),
            self._freedom(result.dof),
            result.shown_guard,
            result.shown_limit,
            result.shown_probability,
            "" if result.verdict is None else words(said("paper-called", word=result.verdict)),
        )

    def _freedom(self, dof: float | None) -> str:
        return self.told.words(said("many") if dof is None else Figure(math.floor(dof + 1e-9), 0))

    def _sweeps(self) -> Grid:
        sweeps = self.data.sweeps
        struck = tuple(i for i, each in enumerate(sweeps) if each.taken_back_by is not None)
        rows = tuple(self._sweep(each) for each in sweeps)
        head = self.told.head("sweep", "counts", "came", "return", "why", "row")
        return Grid(head, rows, wide=(4,), struck=struck)

    def _sweep(self, each: SweepPart) -> tuple[str, ...]:
        words = self.told.words
        counts = [words(said("paper-column", of="found"))] if each.as_found else []
        counts += [words(said("paper-column", of="left"))] if each.as_left else []
        if not each.usable:
            counts.append(words(said("paper-unusable")))
        if each.taken_back_by is not None:
            counts.append(words(said("paper-taken-back", row=each.taken_back_by)))
        back = each.return_error_mm
        return (
            str(each.number),
            ", ".join(counts),
            "\n".join(each.results),
            "" if back is None else self.figures.length(back),
            " ".join(part for part in (each.why, *each.findings) if part),
            str(each.row),
        )

    def _readings(self) -> Grid:
        lines = self.data.readings
        struck = tuple(i for i, each in enumerate(lines) if each.taken_back_by is not None)
        head = self.told.head("row", "utc", "sweep", "place", "face", "spread", "samples", "back")
        rows = tuple(self._reading(each) for each in lines)
        return Grid(head, rows, wide=(3,), struck=struck, small=True)

    def _reading(self, each: ReadingLine) -> tuple[str, ...]:
        words = self.told.words
        place = each.station
        if each.position:
            place = words(said("place-name", place=each.position))
        gauge = (each.gauge,) if each.second_gauge else ()
        back = each.taken_back_by
        return (
            str(each.row),
            each.utc[:23].replace("T", " "),
            "" if each.sweep is None else str(each.sweep),
            ", ".join((place or words(said("paper-in-air")), *gauge)),
            f"{each.face} {each.unit}",
            self.figures.length(each.sd_mm, 1),
            str(each.count),
            "" if back is None else words(said("paper-taken-back", row=back)),
        )

    def _budgets(self) -> tuple[Block, ...]:
        return tuple(block for each in self.data.budgets for block in self._budget(each))

    def _budget(self, budget: BudgetPart) -> tuple[Block, ...]:
        words, length = self.told.words, self.figures.length
        title = words(said("paper-budget", of=budget.of, sweep=budget.sweep))
        whole = (
            words(said("paper-combined")), length(budget.u_mm, 1), self._freedom(budget.dof),
            words(
                said("paper-expanded", k=Figure(budget.k, 2), by=length(budget.expanded_mm, 1),
                     coverage=Figure(100.0 * budget.coverage, 1))
            ),
        )  # fmt: skip
        rows = tuple(self._term(each) for each in budget.terms)
        return Lines((title,)), Grid(self.told.head("term", "u", "dof", "note"), (*rows, whole),
                                     wide=(0, 3), small=True)  # fmt: skip

    def _term(self, term: TermPart) -> tuple[str, ...]:
        u = self.told.words(said("cancels")) if term.cancels else self.figures.length(term.u_mm, 1)
        return (term.name, u, "" if term.cancels else self._freedom(term.dof), term.note)

    def _rows(self) -> Grid:
        rows = self.data.rows
        struck = tuple(i for i, each in enumerate(rows) if each.taken_back_by is not None)
        head = self.told.head("row", "at", "happened", "by", "hash")
        return Grid(head, tuple(self._row(each) for each in rows), (2,), struck, small=True)

    def _row(self, each: RowPart) -> tuple[str, ...]:
        words, back = self.told.words, each.taken_back_by
        said_of = [each.what, *each.detail]
        if back is not None:
            said_of.append(words(said("paper-taken-back", row=back)))
        if not each.sound:
            said_of.append(words(said("paper-unsound")))
        return (str(each.row), self.told.moment(each.at), ". ".join(said_of), each.by,
                each.hash[:HASH])  # fmt: skip

    def _record(self) -> Facts:
        data, fact = self.data, self.told.fact
        sound = self.told.words(said("paper-sound", sound="yes" if data.anchor.sound else "no"))
        gone = {each.let_go_by for each in data.rows if each.let_go_by is not None}
        rows = ", ".join(map(str, sorted(gone)))
        let_go = self.told.words(said("paper-let-go", rows=rows)) if gone else ""
        return facts(
            (
                (fact("audit"), f"{data.short} ({data.audit})"),
                (fact("ledger"), data.anchor.ledger),
                (fact("row"), str(data.anchor.row)),
                (fact("hash"), data.anchor.hash),
                (fact("check"), data.anchor.check),
                (fact("chain"), sound),
                (fact("let-go"), let_go),
                (fact("software"), data.made_by),
                (fact("config"), data.config),
                (fact("schema"), data.schema),
            )
        )
