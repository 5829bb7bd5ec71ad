"""The first page: what whoever asked for the report reads, and mostly nothing else."""

from dataclasses import dataclass
from typing import Final

from daq.report.data import FoundAndLeft, Instrument, ReportData
from daq.report.figures import ShownResult
from daq.report.paper import Facts, Grid, Lines, Section, VerdictBlock, facts, section
from daq.report.told import Told
from daq.words import Figure, said

MOST: Final = 320
"""So many characters of a text stand on the first page; all of it stands on those that follow."""


@dataclass(frozen=True)
class FirstPage:
    """It, from what the report says."""

    data: ReportData
    told: Told

    def sections(self) -> tuple[Section, ...]:
        """Return everything on it, in order."""
        results = "results" if self.data.check == "head" else "measured"
        return (
            *section("of", "", self._of()),
            *section("verdict", "", VerdictBlock(self.data.verdict_say)),
            *section("results", self.told.part(results), self._results(), self._rule()),
            *section("instruments", self.told.part("instruments"), self._instruments()),
            *section("conditions", self.told.part("conditions"), self._conditions()),
            *section("past", self.told.part("past"), self._past()),
            *section("short-remarks", self.told.part("short"), self._remarks()),
            *section("addenda", self.told.part("addenda"), self._addenda()),
            *section("signatures", self.told.part("signatures"), self._signatures()),
            *section("scope", "", Lines(self.data.scope[1:])),
        )

    def _of(self) -> Facts | Lines:
        data, shop, machine = self.data, self.data.shop, self.data.machine
        method = " ".join(each for each in (shop.method, shop.revision) if each)
        replaces = data.issue.replaces and self.told.words(
            said("paper-replaces", number=data.issue.replaces, because=data.issue.because)
        )
        return facts(
            (
                (self.told.fact("machine"), cut(machine.name)),
                (self.told.fact("asset"), cut(machine.asset)),
                (self.told.fact("place"), cut(machine.place)),
                (self.told.fact("customer"), cut(machine.customer)),
                (self.told.fact("reason"), data.reason_say),
                (self.told.fact("method"), cut(method)),
                (self.told.fact("done"), self._at(data.done.done)),
                (self.told.fact("issued"), self._at(data.issue.issued)),
                (self.told.fact("zone"), shop.time_zone),
                (self.told.fact("replaces"), cut(replaces)),
            )
        )

    def _at(self, iso: str) -> str:
        return self.told.moment(iso, sure=self.data.done.clock_set)

    def _results(self) -> Grid:
        pairs = self.data.results
        both = any(pair.key for pair in pairs)
        sides = ("found", "left") if both else ("value",)
        columns = ("what", "allowed", *(c for side in sides for c in (side, "expanded", "called")))
        rows = tuple(self._pair(pair, both) for pair in pairs)
        return Grid(self.told.head(*columns), rows, wide=(0,))

    def _pair(self, pair: FoundAndLeft, both: bool) -> tuple[str, ...]:
        some = pair.as_left or pair.as_found
        allowed = pair.tolerance if some is None else _lines(some.shown_limit, pair.tolerance)
        unread = self.data.unread or self.told.words(said("paper-none"))
        found = self._result(pair.as_found, unread) if both else ()
        left = self._result(pair.as_left, self.told.words(said("paper-none")))
        return (cut(pair.name), allowed, *found, *left)

    def _result(self, result: ShownResult | None, unread: str) -> tuple[str, str, str]:
        if result is None:
            return (unread, "", "")
        k = "" if result.k is None else self.told.words(said("paper-k", k=Figure(result.k, 2)))
        word = result.verdict
        called = "" if word is None else self.told.words(said("paper-called", word=word))
        return (
            _lines(result.shown_value, result.shown_lean),
            _lines(result.shown_expanded and f"± {result.shown_expanded}", k),
            called,
        )

    def _rule(self) -> Lines:
        data = self.data
        risks = [
            self.told.risk(pair.name, result.shown_guard, result.risk)
            for pair in data.results
            for result in (pair.as_left,)
            if result is not None and result.risk
        ]
        rule = (
            () if data.rule is None else (self.told.words(said("paper-rule", rule=data.rule.say)),)
        )
        frozen = () if data.rule is None else (self.told.words(said("paper-frozen")),)
        return Lines((data.measurand, *rule, *dict.fromkeys(risks), *frozen))

    def _instruments(self) -> Grid:
        head = ("what", "number", "certificate", "laboratory", "calibrated", "due")
        rows = tuple(self._instrument(each) for each in self.data.instruments)
        return Grid(self.told.head(*head), rows, wide=(0,))

    def _instrument(self, each: Instrument) -> tuple[str, ...]:
        role = self.told.words(said("paper-role", role=each.role))
        due = each.due
        if each.overdue:
            due = self.told.words(said("paper-overdue", due=each.due))
        name = _lines(role, cut(each.name))
        return (name, *(cut(t) for t in (each.number, each.certificate, each.laboratory)),
                each.calibrated_on, due)  # fmt: skip

    def _conditions(self) -> Lines:
        return Lines(tuple(cut(each) for each in self.data.conditions))

    def _past(self) -> Facts | Lines:
        past = self.data.past
        if not (past.last_good or past.disposition):
            asked = "asked" if past.asked else "not"
            return Lines((self.told.words(said("paper-past-none", asked=asked)),))
        return facts(
            (
                (self.told.fact("last-good"), past.last_good),
                (self.told.fact("disposition"), cut(past.disposition)),
                (self.told.fact("decided-by"), cut(past.decided_by)),
            )
        )

    def _remarks(self) -> Lines:
        return Lines(tuple(cut(each) for each in (*self.data.remarks, self.data.note) if each))

    def _addenda(self) -> Lines:
        count, last = len(self.data.addenda), self.data.addenda[-1:]
        return Lines(
            tuple(self.told.words(said("paper-with-addenda", count=count, row=a.row)) for a in last)
        )

    def _signatures(self) -> Grid:
        rows = tuple(
            (
                self.told.words(said("paper-signed-as", role=each.role)),
                cut(each.name),
                self.told.words(
                    said("paper-proved", proved="yes" if each.proved else "no", row=each.row)
                ),
                self._at(each.at),
            )
            for each in self.data.signatures
        )
        return Grid(self.told.head("role", "name", "proof", "at"), rows, wide=(1,))


def cut(text: str) -> str:
    """A text's beginning, as much as the first page has room for."""
    return text if len(text) <= MOST else f"{text[:MOST].rstrip()} …"


def _lines(*texts: str) -> str:
    return "\n".join(each for each in texts if each)
