"""The obedient machinist turns slowly where the console says so, a whole audit long."""

from dataclasses import replace

import pytest

from daq.audit.recompute import rechecked
from daq.service.in_memory import InMemory
from daq.virtual import CannotError
from daq.virtual.workplace import Workplace
from tests.benchmarks.heads import population
from tests.benchmarks.heads.codes import in_codes
from tests.benchmarks.heads.mill import Conditions, Mill
from tests.benchmarks.heads.rider import ride
from tests.benchmarks.heads.shop import Files, setup

LIMIT_MM = 0.02


def test_a_whole_audit_by_slow_turns_is_signed_stands_true_and_recomputes() -> None:
    visit = population.visit(1, 3, 0)
    files = setup(Files(LIMIT_MM), visit.radius_mm)
    slow = replace(files, machine=replace(files.machine, slow_turn="four"))
    house = InMemory(slow, in_codes)
    mill = Mill(population.head(1, 3), Conditions(), visit)
    came = ride(mill, house)
    assert not came.lost
    assert came.inside
    sweeps = [event for event in house.events if event.type == "SweepDone"]
    assert len(sweeps) >= 2
    assert all(event.cause["kind"] == "slow-turn" for event in sweeps)
    assert all(each is None for each in rechecked(house.events, house.chunks.get))


def test_where_there_is_no_collar_hands_say_so() -> None:
    with pytest.raises(CannotError):
        Workplace.slow_turn(object())
