"""What a check's verdict rests on, as the console and the API show it."""

import math
from dataclasses import replace

import pytest

from tests.audit.conftest import Bench
from tests.audit.stations import GOOD, TABLES, bar, line, offering, opened, read

OF = {
    "runout": [
        "Run-out 10.0 mm below the nose",
        "Eccentricity 10.0 mm below the nose",
        "Run-out 160.0 mm below the nose",
        "Eccentricity 160.0 mm below the nose",
        "Tilt against the axis of rotation",
    ],
    "travel": ["Slope along X", "Straightness along X"],
}


def shown(check, values, setup=None):
    b = opened(Bench(setup or offering()), check)
    assert b.console["numbers"] is None
    *_, done = read(b, values)
    return b.console["numbers"], done.round


def mm(text):
    return float(text.split()[0])


@pytest.mark.parametrize("check", TABLES)
def test_every_figure_stands_with_its_doubt_and_what_makes_it(check):
    numbers, done = shown(check, GOOD[check])
    assert [row["say"] for row in numbers["axes"]] == OF[check]
    assert numbers["say"] == "From round 1." and numbers["rule"].startswith("Guarded: 95 % sure")
    for row, result in zip(numbers["axes"], done.results, strict=True):
        assert mm(row["error"]) == pytest.approx(result.value_mm, abs=5e-4)
        assert mm(row["expanded"]) == pytest.approx(result.doubt_mm, abs=5e-5)
        assert len(row["terms"]) == len(result.budget.terms)
        parts = [mm(term["value"]) for term in row["terms"] if not term["cancels"]]
        assert parts == sorted(parts, reverse=True)
        # Root of the sum of squares: JCGM 100, 5.1.2.
        assert math.hypot(*parts) == pytest.approx(mm(row["u"]), rel=0.1, abs=2e-4)
        assert [term["value"] for term in row["terms"] if term["cancels"]][-1] == "cancels"
        assert row["terms"][-1]["cancels"]
        judged = result.limit_mm is not None
        assert (row["word"] != "", row["guard"] != "", row["probability"] != "") == (judged,) * 3
    assert numbers["work"] == [] and numbers["head"] == []


def test_an_eccentricity_says_where_it_points_and_how_surely():
    numbers, done = shown("runout", bar(0.008, toward=0.5 * math.pi))
    found = done.results[1]
    assert numbers["axes"][1]["toward"] == f"highest at 90° ± {found.toward_doubt_deg:.0f}°"
    numbers, _ = shown("runout", bar(0.0))
    assert numbers["axes"][1]["toward"] == "which way cannot be told"


@pytest.mark.parametrize("together", ["jointly", "vector"])
@pytest.mark.parametrize("check", TABLES)
def test_how_both_axes_are_judged_together_changes_no_other_check(check, together):
    plain, usual = shown(check, GOOD[check])
    setup = offering()
    rule = replace(setup.machine.verdict, together=together)
    setup = replace(setup, machine=replace(setup.machine, verdict=rule))
    numbers, done = shown(check, GOOD[check], setup)
    assert (numbers["rule"], done.results) == (plain["rule"], usual.results)
    assert numbers["rule"].endswith("each figure by itself.")


def test_a_slope_says_over_what():
    numbers, _ = shown("travel", line(0.012))
    assert numbers["axes"][0]["error"] == "0.012 mm over 300 mm"
    numbers, _ = shown("travel", line(-0.012))
    assert numbers["axes"][0]["error"] == "-0.012 mm over 300 mm"


def test_a_sweep_says_its_biggest_doubt_first_too(bench):
    b = bench().start()
    b.sweep(1.20, 1.20, 1.20, 1.20)
    for axis in b.console["numbers"]["axes"]:
        last = [term["cancels"] for term in axis["terms"]]
        assert last == sorted(last)
        parts = [mm(term["value"]) for term in axis["terms"] if not term["cancels"]]
        assert parts == sorted(parts, reverse=True)
