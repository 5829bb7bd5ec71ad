"""The trends as the pages ask for them: the latest fold, today's files, today's date."""

from pathlib import Path

import pytest

from daq.audit import history as history_room
from daq.audit.apply import fold
from daq.audit.history import History, SignedAudit
from daq.audit.parts import AxisResult
from daq.audit.pivots import PivotKnown
from daq.audit.setup import AxisSetup, MachineSetup
from daq.audit.state import MachineState, Shop
from daq.ledger import Ledger, LedgerError, reads
from daq.metrology.rule import Limits
from daq.service.committed import Committed
from daq.service.trends import NoSuchPage, Trends
from daq.words import Both
from tests.service.years import grown
from tests.words import troubled

MILL = "practice-mill"
NOWHERE = Path("/nowhere")
"""No ledger is read for what is kept."""
RESULT = AxisResult(0.004, 0.004, 0.0125, "in")
ACTS = PivotKnown(150.0, 12.0, 2)
LIMITS = Limits(-0.0125, 0.0125)
DONE = SignedAudit(
    "id", "A-1", 41, 0, True, "2023-11-01", "scheduled", 150.0, Both(RESULT, RESULT),
    Both(RESULT, RESULT), "in", 2, Both(LIMITS, LIMITS), Both(ACTS, ACTS),
)  # fmt: skip


@pytest.fixture
def agreed():
    """One machine, with an audit agreed for every ten days."""
    axis = AxisSetup("An axis", 0.025, 300.0, 0.0, 330.0, "its bolts", "its adjuster")
    return {MILL: MachineSetup("Mill", "arm", "table", "mm", 75.0, axis, axis, audit_every=10)}


def shop(*history, machine=MILL):
    return Shop({machine: MachineState(machine, history=History(history))})


def test_a_machine_that_was_never_audited_has_an_empty_trend(agreed, clock):
    view = Trends(agreed, Shop(), clock, NOWHERE).of(MILL, 100)
    assert (view.audits, view.axes.side.as_found.points) == (0, ())
    assert view.due.overdue


def test_it_follows_the_fold(agreed, clock):
    trends = Trends(agreed, shop(), clock, NOWHERE)
    assert trends.of(MILL, 100).audits == 0
    trends.committed(Committed((), shop(), shop(DONE), ""))
    assert trends.of(MILL, 100).audits == 1
    (point,) = trends.of(MILL, 100).axes.side.as_left.points
    assert point.value_mm == pytest.approx(0.008, rel=1e-12)  # 0.004 over 150


def test_the_due_date_is_by_todays_file_and_the_clock(agreed, clock):
    # The clock stands at 2023-11-14.
    due = Trends(agreed, shop(DONE), clock, NOWHERE).of(MILL, 100).due
    assert (due.day, due.days_left, due.overdue) == ("2023-11-11", -3, True)
    clock.ns += 86_400_000_000_000
    assert Trends(agreed, shop(DONE), clock, NOWHERE).of(MILL, 100).due.days_left == -4


def test_a_machine_whose_file_is_gone_has_no_interval(agreed, clock):
    trends = Trends(agreed, shop(DONE, machine="old-mill"), clock, NOWHERE)
    view = trends.of("old-mill", 100)
    assert (view.audits, view.due.every_days, view.due.overdue) == (1, None, False)


AUDITS = 47


@pytest.fixture(scope="module")
def years(tmp_path_factory, past):
    """A ledger of some years, and what all of its audits show on one page."""
    folder = tmp_path_factory.mktemp("years") / "data"
    grown(folder, past, range(AUDITS))
    with Ledger.open(folder) as ledger:
        whole = fold(ledger.events())
    return folder, whole


@pytest.fixture(scope="module")
def six(years):
    """The same, of a fold that keeps six of them."""
    folder, _ = years
    with pytest.MonkeyPatch.context() as patch, Ledger.open(folder) as ledger:
        patch.setattr(history_room, "KEPT", 6)
        shop = fold(ledger.events())
    history = shop.machine("mill").history
    assert (len(history.latest), history.audits) == (6, AUDITS)
    return shop


@pytest.fixture
def few_kept(years, six, clock, monkeypatch):
    """The trends of those six."""
    monkeypatch.setattr(history_room, "KEPT", 6)
    return Trends({}, six, clock, years[0])


def whole_of(years, clock):
    folder, shop = years
    return Trends({}, shop, clock, folder).of("mill", AUDITS)


def series(view):
    for axis in view.axes.values():
        yield from (axis.as_found, axis.as_left, axis.tightening)


@pytest.mark.parametrize("most", [1, 4, 6, 7, 20, 200])
def test_page_after_page_is_the_whole_by_the_same_limits(years, few_kept, clock, most):
    whole = whole_of(years, clock)
    view = few_kept.of("mill", most)
    pages = [view]
    while view.more is not None:
        view = few_kept.of("mill", most, view.more)
        pages.insert(0, view)
    assert len(pages) == -(-AUDITS // most)
    assert {page.audits for page in pages} == {AUDITS}
    for all_of_it, *parts in zip(series(whole), *map(series, pages), strict=True):
        points = [point for part in parts for point in part.points]
        assert [p.seq for p in points] == [p.seq for p in all_of_it.points]
        for point, same in zip(points, all_of_it.points, strict=True):
            assert (point.value_mm, point.outside) == (same.value_mm, same.outside)
            for end in ("value_mm", "low_mm", "high_mm"):
                found, wanted = getattr(point.smoothed, end), getattr(same.smoothed, end)
                assert found == pytest.approx(wanted, rel=1e-9, abs=1e-12)
        for part in parts:
            assert vars_of(part.limits) == pytest.approx(vars_of(all_of_it.limits), rel=1e-12)


def vars_of(limits):
    return [limits.center_mm, limits.low_mm, limits.high_mm, limits.sd_mm, limits.smoothed_high_mm]


def test_the_rows_read_for_a_page_are_those_of_its_audits(few_kept, monkeypatch):
    read = []
    decode = reads.decode
    monkeypatch.setattr(reads, "decode", lambda body: read.append(1) or decode(body))
    few_kept.of("mill", 6)
    assert not read
    few_kept.of("mill", 7)
    assert len(read) == 2 * AUDITS  # with what leads up to them, for their smoothed values
    monkeypatch.setattr("daq.service.trends.LEAD", 10)
    read.clear()
    view = few_kept.of("mill", 7)
    assert len(read) == 2 * (7 + 10)
    read.clear()
    few_kept.of("mill", 7, view.more)
    assert len(read) == 2 * (1 + 7 + 10)


def test_a_row_that_no_answer_gave_is_told(few_kept):
    for row in (1, 5, 10**9):
        with troubled(NoSuchPage, match=f"before: found {row}; allowed: a row given as"):
            few_kept.of("mill", 40, row)


def test_a_record_that_cannot_be_read_is_told(few_kept):
    gone = Trends({}, few_kept.shop, few_kept.clock, NOWHERE)
    with troubled(LedgerError, match="there is no ledger here"):
        gone.of("mill", 40)
