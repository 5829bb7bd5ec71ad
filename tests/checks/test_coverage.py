"""The stated interval holds the true lean as often as it says (JCGM 101, by simulation).

A normal or t interval cannot hold 95 % exactly when bounded influences make up much of the
uncertainty; 94 to 97 % is what is asked for. Where the arm is flicked, four levels tell little
of the scatter: who allows for a large one that passed by luck holds up to 98 % of small ones.
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
SWEEPS = 2_500


@pytest.mark.parametrize("seed", range(len(cells.CELLS)), ids=lambda i: cells.CELLS[i].say)
def test_the_interval_holds_the_true_lean_in_94_to_97_of_100_sweeps(seed: int):
    inside, of = coverage.held(cells.CELLS[seed], SWEEPS, seed)
    assert of == 2 * SWEEPS
    most = 0.97 if cells.CELLS[seed].flicked_mm is None else 0.98
    assert 0.94 <= inside / of <= most


def test_so_it_does_over_gauges_radii_wedges_and_drifts():
    counts = [coverage.held(cell, 100, seed) for seed, cell in enumerate(cells.GRID)]
    assert 0.94 <= sum(inside for inside, _ in counts) / sum(of for _, of in counts) <= 0.97


@pytest.mark.parametrize("scatter_mm", [0.001, 0.003])
def test_a_large_scatter_that_flicks_show_is_missed_by_the_files_figure(scatter_mm, monkeypatch):
    cell = cells.Cell("flicked", seat="table", flicked_mm=scatter_mm)
    seen, of = coverage.held(cell, 1_000, 1)
    assert seen / of >= 0.94
    monkeypatch.setattr(coverage, "returned", lambda rng, cell: None)
    inside, of = coverage.held(cell, 1_000, 1)
    assert inside / of < 0.94


@pytest.mark.parametrize("what", ["wedge", "spindle_axial", "friction"])
def test_a_doubt_left_out_is_missed(what: str):
    doubts = Doubts(wedge=0.006, spindle_axial=0.004, friction=0.003)
    cell = cells.Cell("as it is", doubts=doubts)
    honest, of = coverage.held(cell, 1_000, 1)
    assert honest / of >= 0.94
    inside, of = coverage.held(cell, 1_000, 1, stated=replace(doubts, **{what: 0.0}))
    assert inside / of < 0.94
