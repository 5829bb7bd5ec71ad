"""Whether the numbers a screen asks for are ones the gauge's face can show."""

import pytest

from daq.audit.facts import shown_face
from daq.audit.views.figures import on_face
from daq.squaring.tightening import Tighten
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.words import told

MM_PER_INCH = 25.4
"""Exact by definition."""


def machine(**more):
    return changed(setup_of(limit=0.025, nod_pivot=150.0, height=400.0), **more)


INCH = {"resolution": 0.0005 * MM_PER_INCH}


@pytest.mark.parametrize("sense", [1.0, -1.0])
def test_the_stop_at_shown_is_one_the_face_can_show(sense):
    """Steps of 0.0005 in: the last digit shown is a nought or a five."""
    for nod_mm in (-0.21, -0.33, 0.271, 0.405):
        setup = machine(gauge={**INCH, "counts_up": sense > 0.0})
        m = Machinist(Bench(setup), RigidHead(mill(), 0.0, nod_mm), sense=sense)
        m.bench.unit = "in"
        m.start().work("move")
        b = m.bench
        stop, shown = b.job.stop.stop_face_mm, b.console["stop_at"]
        for text in (shown["value"], shown["base"], shown["change"]):
            assert text[-1] in "05"
        assert abs(float(shown["value"]) - stop / MM_PER_INCH) <= 0.00025 + 1e-9
        assert b.console["do"]["stop_at_text"] == shown["value"]
        assert b.console["title"].endswith(f" {shown['value']}.")
        assert f"until it reads {shown['value']}" in shown["say"]
        way = float(shown["value"]) - float(shown["base"])
        assert float(shown["change"]) == pytest.approx(way, abs=1e-9)
        # The live distance is that of the stop-at itself.
        assert b.aim.to_go(stop - 0.001)[1] == pytest.approx(0.001)


@pytest.mark.parametrize(
    ("resolution", "unit", "stop_mm", "text"),
    [
        (0.0005 * MM_PER_INCH, "in", -0.0591 * MM_PER_INCH, "-0.0590"),
        (0.0005 * MM_PER_INCH, "in", -0.05926 * MM_PER_INCH, "-0.0595"),
        (0.0005 * MM_PER_INCH, "mm", 1.4963, "1.50"),
        (0.002, "mm", 1.4951, "1.496"),
        (0.01, "mm", 1.4951, "1.50"),
        (0.001, "mm", -0.0004, "0.000"),
        (0.001, "in", 1.4951, "0.05886"),
    ],
)
def test_a_value_is_rounded_to_the_gauges_own_steps(resolution, unit, stop_mm, text):
    b = Bench(machine(gauge={"resolution": resolution}))
    b.unit = unit
    b.start()
    assert told(shown_face(b.job, on_face(b.job, stop_mm))) == text


@pytest.mark.parametrize(
    ("resolution", "unit", "limit_mm", "text"),
    [
        (0.01, "mm", 0.005, "0.005"),
        (0.01, "mm", 0.0125, "0.0125"),
        (0.01, "mm", 0.01, "0.01"),
        (0.001, "mm", 0.005, "0.005"),
        (0.0005 * MM_PER_INCH, "in", 0.005, "0.0002"),
    ],
)
def test_the_limit_of_a_bolt_is_not_rounded_to_another_one(resolution, unit, limit_mm, text):
    tighten = {"tighten": Tighten(("nod bolt 1", "nod bolt 2"), limit=limit_mm)}
    setup = machine(gauge={"resolution": resolution}, nod=tighten)
    m = Machinist(Bench(setup), RigidHead(mill(), 0.0, -0.4))
    m.bench.unit = unit
    m.start().work("tighten")
    assert m.bench.console["bolts"]["limit"] == text
    assert m.bench.console["detail"].endswith(f"may move the number by {text}.")
