"""The stated interval holds the true lean as often as it says (JCGM 101, by simulation).

A normal or t interval cannot hold 95 % exactly when bounded influences make up much of the
uncertainty: where one bound is more than half of it, the interval holds up to all of them; where
none is, 94 to 97 % are asked for. What is always at its bound, as one ring is at every audit, is
held in 93 %, and as often as all else where the file says that its size is known.
`benchmarks/coverage_rows.py` tries every kind of sweep; here are a few.
"""

import importlib
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from daq.checks.sweep.doubts import Doubts

sys.path.append(str(Path(__file__).parents[1] / "benchmarks"))

cells = importlib.import_module("coverage_cells")
coverage = importlib.import_module("coverage_rows")
SWEEPS = 1_500
HALF = 0.5
LUCK = 0.014
"""Two and a half standard deviations of a share of 95 % of so many."""
FEW = tuple(
    cell
    for cell in cells.EVERY
    if cell.say
    in {
        "ring, 0.001 mm, 3 µm wedge",
        "no wedge, few visits",
        "front, right, left",
        "ring turned",
        "two gauges on a bar",
        "ring always 3 µm, spindle 1 µm, stated as known",
    }
)


@pytest.mark.parametrize("cell", FEW, ids=lambda cell: cell.say)
def test_the_interval_holds_the_true_lean_as_often_as_it_says(cell):
    found = coverage.held(cell, SWEEPS)
    assert found.of == SWEEPS and set(found.inside) == set(cell.axes)
    assert min(found.shares.values()) >= cell.least - LUCK
    if found.largest[1] <= HALF:
        assert max(found.shares.values()) <= 0.97 + LUCK


def test_every_kind_of_sweep_has_a_name_of_its_own():
    names = [cell.say for cell in cells.EVERY]
    assert len(FEW) == 6 and len(set(names)) == len(names)


@pytest.mark.parametrize("scatter_mm", [0.001, 0.003])
def test_a_large_scatter_that_flicks_show_is_missed_by_the_files_figure(scatter_mm, monkeypatch):
    flat = Doubts(flatness=0.0)
    cell = cells.Cell("flicked", seat="table", flicked_mm=scatter_mm, doubts=flat)
    assert coverage.held(cell, 1_000, 1).share >= 0.94
    monkeypatch.setattr(coverage, "flicked", lambda rng, cell: None)
    assert coverage.held(cell, 1_000, 1).share < 0.94


@pytest.mark.parametrize("what", ["wedge", "spindle_axial", "friction"])
def test_a_doubt_left_out_is_missed(what: str):
    doubts = Doubts(wedge=0.006, spindle_axial=0.004, friction=0.003)
    cell = cells.Cell("as it is", doubts=doubts)
    assert coverage.held(cell, 1_000, 1).share >= 0.94
    assert coverage.held(cell, 1_000, 1, stated=replace(doubts, **{what: 0.0})).share < 0.94
