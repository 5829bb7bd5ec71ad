"""From the plunger to the number on the gauge's face."""

import random

import pytest

from daq.virtual import GaugeSpec
from daq.virtual.works import Works

STEADY = GaugeSpec(zero_mm=0.0, noise_sd_mm=0.0)


def works(spec: GaugeSpec) -> Works:
    return Works(spec.model(), random.Random(1))


@pytest.mark.parametrize(
    ("spec", "compression_mm", "text"),
    [
        (STEADY, 1.234, "+001.234 mm"),
        (STEADY, 0.0, "+000.000 mm"),
        (GaugeSpec(zero_mm=0.06, noise_sd_mm=0.0), 0.0, "-000.060 mm"),
        (GaugeSpec(zero_mm=0.01, noise_sd_mm=0.0, places=2), 0.0, "-000.01 mm"),
        (
            GaugeSpec(zero_mm=0.0, noise_sd_mm=0.0, unit="in", places=5, step=5),
            0.04855 * 25.4,
            "+000.04855 in",
        ),
    ],
)
def test_the_face_is_written_as_specified(
    spec: GaugeSpec, compression_mm: float, text: str
) -> None:
    assert works(spec).face(compression_mm) == text


def test_the_number_grows_when_pushed_in_or_shrinks() -> None:
    assert works(STEADY).face(1.25) == "+001.250 mm"
    down = GaugeSpec(zero_mm=0.0, noise_sd_mm=0.0, counts_up=False)
    assert works(down).face(1.25) == "-001.250 mm"


def test_the_free_reading_is_steady_and_not_zero() -> None:
    one = works(GaugeSpec())
    assert {one.face(0.0) for _ in range(100)} == {"-000.350 mm"}
    assert one.face(-3.0) == "-000.350 mm"


def test_the_plunger_ends_at_its_travel() -> None:
    one = works(STEADY)
    assert one.face(20.0) == "+012.700 mm"
    assert not one.look(12.7).over
    assert one.look(12.71).over
    assert one.look(12.71).counts == 12700


def test_noise_flickers_by_a_count_or_two() -> None:
    one = works(GaugeSpec(zero_mm=0.0))
    seen = {one.look(1.0).counts for _ in range(500)}
    assert len(seen) > 1
    assert all(abs(counts - 1000) <= 2 for counts in seen)


def test_an_inch_is_25_4_millimetres() -> None:
    """25.4 mm exactly: NIST SP 811, from memory."""
    inch = GaugeSpec(unit="in", places=4, zero_mm=0.0, noise_sd_mm=0.0, travel_mm=26.0)
    assert works(inch).face(25.4) == "+001.0000 in"
    one = works(STEADY)
    one.press_unit()
    assert one.face(12.7) == "+000.50000 in"
    one.press_unit()
    assert one.face(12.7) == "+012.700 mm"
    other = works(inch)
    other.press_unit()
    assert other.face(25.4) == "+025.400 mm"


def test_pressing_zero_makes_it_read_zero_there() -> None:
    one = works(STEADY)
    one.press_zero(1.1)
    assert one.face(1.1) == "+000.000 mm"
    assert one.face(1.0) == "-000.100 mm"


@pytest.mark.parametrize("counts_up", [True, False])
def test_pressing_preset_makes_it_read_that_there(counts_up: bool) -> None:
    one = works(GaugeSpec(noise_sd_mm=0.0, counts_up=counts_up))
    one.press_preset(1.1, 2.5)
    assert one.face(1.1) == "+002.500 mm"
    assert one.face(1.2) == ("+002.600 mm" if counts_up else "+002.400 mm")
