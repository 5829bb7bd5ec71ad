"""Where a head's pivots act, audit by audit, as the trend hands it out."""

from dataclasses import replace

import pytest

from daq.audit import trend as trends
from daq.audit.history import KEPT
from daq.audit.pivots import pivots
from daq.audit.setup import DOUBTS_MM
from daq.audit.state import MachineState
from tests.audit.test_trend import FOUND, MACHINE, TODAY, audits, history_of


def test_where_the_pivots_act_stands_audit_by_audit_and_as_known_now():
    """What an audit began with: from the machine's file at first, then from the one before it."""
    learned = replace(MACHINE.prior(), audits=1)
    first, second = audits(FOUND[:2])
    second = replace(second, pivots=pivots(learned, MACHINE))
    state = MachineState("mill", history=history_of((first, second)), learned=learned)
    page = trends.latest(state.history, KEPT)
    for key, axis in trends.trend(state, MACHINE, TODAY, page).axes.items():
        file = MACHINE.axis(key)
        assert [(each.audit, each.audits) for each in axis.pivots] == [
            (first.audit, 0),
            (second.audit, 1),
            (None, 1),
        ]
        assert axis.pivots[0].value_mm == pytest.approx(file.pivot_distance)
        assert axis.pivots[0].doubt_mm == pytest.approx(DOUBTS_MM[key])
    # Void what was learned, and the file is what is known now.
    other = replace(MACHINE, side=replace(MACHINE.side, pivot_distance=33.0))
    *_, now = trends.trend(state, other, TODAY, page).axes.side.pivots
    assert (now.audits, now.value_mm) == (0, pytest.approx(33.0))
    assert len(trends.trend(state, None, TODAY, page).axes.side.pivots) == 2
