"""Every row of an audit as it is told, held against the ledger's own rows."""

from dataclasses import replace

import pytest

from daq.audit.answers import Callout, GoodEnough
from daq.audit.codec import TYPES
from daq.audit.held.move import Asked
from daq.audit.parts import Term
from daq.audit.questions import Answer, Question
from daq.audit.setup import AuditSetup
from daq.audit.stages.power import Warmed
from daq.checks.sweep.callouts import Bore
from daq.checks.sweep.effects import Effect
from daq.checks.sweep.rings import Laid, NamedRing
from daq.records.lines import lines
from daq.records.read import read
from daq.records.telling import DETAILS
from daq.screens.told import told
from daq.squaring.learned import Learned
from daq.words import Event, Position, Stamp, said
from tests.audit.conftest import Bench, setup_of
from tests.records.filled import filled, leaves
from tests.words import en

STAMP = Stamp(0, 0, "boot", True)


def test_every_row_is_told_with_its_hash_and_what_took_it_back(data, ids):
    for audit in ids:
        found = read(data, audit)
        told = lines(found)
        assert [(each.seq, each.hash, each.type) for each in told] == [
            (row.seq, row.kept.hash, row.event.type) for row in found.rows
        ]
        assert [each.struck_by for each in told] == [row.voided_by for row in found.rows]


LEFT_OUT = {
    # Where the audit goes on, and what is shown there: the next rows tell what came of it.
    "Next": {"*"},
    "Anew": {"*"},
    # What names the samples; their digest stands in the row.
    "Reading": {"gauge", "run", "first_n", "last_n", "mid_ns", "evidence"},
    # In `Numbers` with the budget, term by term.
    "AxisResult": {"d_mm", "limit_mm", "u_mm", "dof", "guard_mm", "probability", "basis", "ruling"},
    "Budget": {"terms", "u_mm", "dof", "k", "coverage"},
    "Whole": {"guard_mm", "basis", "ruling"},
    "Measure": {
        "budget",
        "guard_mm",
        "probability",
        "basis",
        "ruling",
        "toward_doubt_deg",
    },
    "Effect": {"textbook_mm", "sizes_mm"},
    "Decidable": {"*"},
    "Taught": {"*"},
    # What is remembered after it, of readings that have rows of their own.
    "Point": {"*"},
    "SweepDone": {"center_pushed_mm", "slopes", "parked_adds_mm"},
    "CheckDone": {"slack_mm"},
    # What the story is told by; how far it ended past the stop-at stands there already.
    "Moved": {"way", "late_mm"},
    "Added": {"learned", "u_mm", "dof"},
    # The face's number, as pushed in.
    "Parked": {"pushed_mm"},
    "BaseRead": {"pushed_mm"},
    "FreeRead": {"pushed_mm"},
    "ReadingTaken": {"pushed_mm"},
    "StationRead": {"pushed_mm", "station"},
    "Zeroed": {"free_pushed_mm"},
    "SurmiseAnswered": {"key"},
    "RamAnswered": {"key"},
    # What must be and was read nowhere: the next reading tells.
    "Foreseen": {"*"},
    "Answered": {"question", "key", "free_pushed_mm", "sweep"},
    "Question": {"answers"},
    "StopAt": {"lean", "wanted", "approach", "warnings", "shim"},
    # The head of the record shows what it was opened with.
    "AuditSetup": {"*"},
    "Chosen": {"options", "cautions", "ends", "against", "kind"},
    "Learned": {"*"},
    "Laid": {"*"},
    "Clamped": {"*"},
    "Round": {"tap"},
    "Signed": {"known", "stated", "done_by"},
    "BorneOut": {"audit", "teaches"},
    "Rule": {"share"},
    "Listed": {"why"},
    "GoodEnough": {"guard_mm", "audit"},
    "Friction": {"dof"},
    "GaugeBack": {"run"},
    "GaugeNoted": {"stations"},
    "Differed": {"results", "whole"},
    "Rested": {"loose"},
    "TableReady": {"temperature_c", "machine_c", "ring_c"},
    "Tapped": {"*"},
    "Addendum": {"of", "done_by"},
    "ReportAmended": {"of", "signed", "done_by", "kept"},
}
"""Of each class what is not told with the row, "*" for all of it."""
OF_NO_AUDIT = {"GaugeChecked", "ClockStepped", "AuditAttested", "SamplesLetGo"}


def job_and(cls):
    """An audit in the middle of everything, and the event as it comes upon it."""
    bench = Bench(setup_of())
    bench.do("open", {"reason": "scheduled"})
    job = bench.job
    prior = job.setup.machine.prior()
    ready = {
        AuditSetup: job.setup,
        Learned: prior,
        Term: Term(said("name", name="t"), 0.0),
        Position: "right",
        Laid: Laid(NamedRing("r", "Ring", "dot"), "right"),
        Effect: Effect("hole", 0.101, 0.101, (10.0,), "left"),
        bool: cls is Warmed,
    }
    answer = Callout(bore=Bore(40.0, 0.01)), 0.101, 0.102, 0.0, "in", True, "a", "A-B", "2026-01-02"
    data = filled(cls, {**ready, GoodEnough: GoodEnough(*answer)})
    if getattr(data, "stop", None) is not None:
        data = replace(data, stop=replace(data.stop, by_hand="", shim=None))
    answers = (Answer(getattr(data, "key", ""), said("name", name="so")),)
    asked = Asked(Question(said("name", name="why"), answers))
    return replace(job, asked=asked), data


@pytest.mark.parametrize("name", sorted(TYPES.keys() - OF_NO_AUDIT))
def test_every_event_is_told_with_all_its_numbers(name):
    job, data = job_and(TYPES[name])
    assert told(Event("", 1, name, 1, "", "", STAMP, "", {}, {}, ())).code != "name"
    words = " ".join(en(each) for each in DETAILS[TYPES[name]](job, data))
    missing = [each for each in leaves(data, LEFT_OUT) if not is_in(each, words)]
    assert missing == [], words


def is_in(leaf, words):
    if isinstance(leaf, str):
        return leaf in words.lower()
    shown = (f"{abs(leaf):.3f}", f"{100 * leaf:.1f}", f"{leaf:.0f}", f"{60 * leaf:.3f}")
    return any(each in words for each in (shown if isinstance(leaf, float) else (str(leaf),)))
