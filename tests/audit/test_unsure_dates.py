"""Dates that no time server stood behind: said of each audit, and of today."""

from dataclasses import replace

from daq.audit import trend as trends
from daq.audit.state import MachineState
from tests.audit.test_trend import KEPT, MACHINE, TODAY, audit, history_of
from tests.words import en


def test_a_date_by_an_unsure_clock_is_told_of_each_audit_and_of_today():
    history = history_of([replace(audit(1, 0.0), utc_trusted=False), audit(2, 0.0)])
    page = trends.latest(history, KEPT)
    state, machine = MachineState("mill", history=history), replace(MACHINE, audit_every=30)
    sure, unsure = (trends.trend(state, machine, TODAY, page, sure=way) for way in (True, False))
    assert [point.sure for point in sure.axes.nod.as_left.points] == [False, True]
    assert en(unsure.due.say) == (
        f"{en(sure.due.say)} No time server has set the clock: today's date may be wrong."
    )
