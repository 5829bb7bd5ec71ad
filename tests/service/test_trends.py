"""The trends as the pages ask for them: the latest fold, today's files, today's date."""

import pytest

from daq.audit.history import Done
from daq.audit.parts import AxisResult
from daq.audit.setup import AxisSetup, MachineSetup
from daq.audit.state import MachineState, Shop
from daq.metrology.rule import Limits
from daq.service.committed import Committed
from daq.service.trends import Trends

MILL = "practice-mill"
RESULT = AxisResult(0.004, 0.004, 0.0125, "in")
LIMITS = Limits(-0.0125, 0.0125)
DONE = Done(
    "id", "A-1", 41, 0, True, "2023-11-01", "scheduled", 150.0, (RESULT, RESULT),
    (RESULT, RESULT), "in", 2, LIMITS, LIMITS,
)  # fmt: skip


@pytest.fixture
def agreed():
    """One machine, with an audit agreed for every ten days."""
    axis = AxisSetup("An axis", 0.025, 300.0, 0.0, 330.0, "its bolts", "its adjuster")
    return {MILL: MachineSetup("Mill", "arm", "table", "mm", 75.0, axis, axis, audit_every=10)}


def shop(*history, machine=MILL):
    return Shop({machine: MachineState(machine, history=history)})


def test_a_machine_that_was_never_audited_has_an_empty_trend(agreed, clock):
    view = Trends(agreed, Shop(), clock).of(MILL)
    assert (view.audits, view.side.as_found.points) == (0, ())
    assert view.due.overdue


def test_it_follows_the_fold(agreed, clock):
    trends = Trends(agreed, shop(), clock)
    assert trends.of(MILL).audits == 0
    trends.committed(Committed((), shop(), shop(DONE), ""))
    assert trends.of(MILL).audits == 1
    (point,) = trends.of(MILL).side.as_left.points
    assert point.value_mm == pytest.approx(0.008, rel=1e-12)  # 0.004 over 150


def test_the_due_date_is_by_todays_file_and_the_clock(agreed, clock):
    # The clock stands at 2023-11-14.
    due = Trends(agreed, shop(DONE), clock).of(MILL).due
    assert (due.day, due.days_left, due.overdue) == ("2023-11-11", -3, True)
    clock.ns += 86_400_000_000_000
    assert Trends(agreed, shop(DONE), clock).of(MILL).due.days_left == -4


def test_a_machine_whose_file_is_gone_has_no_interval(agreed, clock):
    view = Trends(agreed, shop(DONE, machine="old-mill"), clock).of("old-mill")
    assert (view.audits, view.due.every_days, view.due.overdue) == (1, None, False)
