"""A bar in the spindle and an edge on the table: what the gauge reads, by other geometry.

A bar that stands e off its axis of rotation, toward φ, is met by a line through that axis at
e cos φ + √(r² − e² sin² φ): the law of cosines.
"""

import math
import random
from pathlib import Path

import numpy as np
import pytest

from daq.virtual import MillSpec, VirtualMill
from daq.virtual.head import Head
from daq.virtual.panel import perform
from daq.virtual.spec import BarSpec, TravelSpec
from daq.virtual.stations import bar_axis, bar_met
from daq.words import SaidTrouble
from tests.words import troubled


@pytest.mark.parametrize("turned", [0.0, 33.0, 90.0, 200.0, 359.0])
@pytest.mark.parametrize("off_mm", [0.0, 0.003, 4.0])
def test_an_upright_bar_is_met_where_the_law_of_cosines_says(turned: float, off_mm: float) -> None:
    bar = BarSpec(off_mm=off_mm, off_deg=60.0, lean=0.0, own_mm=0.0)
    phi, r = math.radians(60.0 - turned), bar.radius_mm
    met = off_mm * math.cos(phi) + math.sqrt(r**2 - (off_mm * math.sin(phi)) ** 2)
    assert bar_met(bar, turned, 77.0, 1) == pytest.approx(met, abs=1e-12)


def test_what_is_met_lies_on_a_leaning_bar() -> None:
    bar = BarSpec(off_mm=0.5, lean=0.02, own_mm=0.2)
    for turned, below, seat in ((0.0, 10.0, 1), (75.0, 160.0, 2), (250.0, 300.0, 1)):
        through, along = bar_axis(bar, below, seat)
        turn = math.radians(turned)
        # The point met, in the bar's own frame: the spindle's place at that angle faces the gauge.
        met = bar_met(bar, turned, below, seat) * np.array([math.cos(turn), math.sin(turn), 0.0])
        away = np.cross(met - [0.0, 0.0, below] - through, along)
        assert np.linalg.norm(away) == pytest.approx(bar.radius_mm, abs=1e-9)


def test_set_in_anew_only_the_bars_own_part_turns_round() -> None:
    bar = BarSpec(lean=0.0)
    first, second = (np.array([bar_met(bar, t, 10.0, seat) for t in range(360)]) for seat in (1, 2))
    for half, size in (((first + second) / 2.0, bar.off_mm), ((first - second) / 2.0, bar.own_mm)):
        assert np.ptp(half) / 2.0 == pytest.approx(size, rel=1e-3)


def test_a_table_that_rises_pushes_the_plunger_of_an_upright_head_in_by_as_much() -> None:
    head = Head(MillSpec(start_mm=0.0), random.Random(1))
    head.state.set_up = "edge"
    head.set_down()
    before = head.compression()
    head.state.table_mm = 200.0
    assert head.compression() - before == pytest.approx(TravelSpec().height_mm(200.0), abs=1e-9)
    leaning = Head(MillSpec(start_mm=20.0), random.Random(1))
    side, nod = leaning.leans()
    leaning.state.set_up = "edge"
    leaning.set_down()
    before = leaning.compression()
    leaning.state.table_mm = 200.0
    along = TravelSpec().height_mm(200.0) * math.sqrt(1.0 + side**2 + nod**2)
    assert leaning.compression() - before == pytest.approx(along, abs=1e-9)


def test_a_mill_left_on_a_bar_is_found_on_it_and_swung_back_to_the_ring(tmp_path: Path) -> None:
    def mill() -> VirtualMill:
        return VirtualMill(
            MillSpec(), tty_link=tmp_path / "gauge", state_file=tmp_path / "mill.json", speed=1000.0
        )

    one = mill()
    one.set_on()
    perform(one, "spindle", {"to": 90, "at": 160})
    number = one.state()["number"]
    again = mill()
    assert again.state()["contact"] == "set"
    assert float(again.state()["number"].split()[0]) == pytest.approx(
        float(number.split()[0]), abs=0.002
    )
    perform(again, "swing", {"position": "front"})
    assert again.state()["contact"] == "free" and again.state()["position"] == "front"


@pytest.mark.parametrize(
    ("verb", "args", "words"),
    [
        ("spindle", {"to": 400, "at": 10}, "to: found 400; allowed: a number from 0.0 to 360.0"),
        ("spindle", {"to": 0, "at": 10, "seat": 3}, "seat: found 3; allowed: 1, 2"),
        ("table", {"axis": "z", "to": 0}, "axis: found 'z'; allowed: x, y"),
    ],
)
def test_nonsense_is_refused(mill: VirtualMill, verb: str, args: dict, words: str) -> None:
    with troubled(SaidTrouble, match=words):
        perform(mill, verb, args)
