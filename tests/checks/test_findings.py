import pytest

from daq.checks.finding import return_error_past, return_limit_mm
from daq.checks.sweep.findings import aliased, second_past, spare_limit_mm, spare_past
from daq.checks.sweep.harmonics import Second
from daq.checks.sweep.reduce import fit, return_error
from tests.words import en


def test_the_return_error_may_be_two_counts_or_a_fifth_of_the_tolerance():
    assert return_limit_mm(0.001, 0.050) == pytest.approx(0.010)
    assert return_limit_mm(0.010, 0.050) == pytest.approx(0.020)


def test_the_spare_equation_may_be_half_of_that_or_what_the_noise_explains():
    assert spare_limit_mm(0.001, 0.050) == pytest.approx(return_limit_mm(0.001, 0.050) / 2.0)
    assert spare_limit_mm(0.010, 0.050) == pytest.approx(return_limit_mm(0.010, 0.050) / 2.0)
    assert spare_limit_mm(0.001, 0.010, noise_mm=0.004) == pytest.approx(0.006)


def test_a_return_error_within_its_limit_is_not_mentioned():
    assert return_error_past(0.002, 0.002) is None
    assert return_error_past(-0.002, 0.002) is None
    assert return_error_past(1.1 - 1.0, 0.1) is None


@pytest.mark.parametrize("error_mm", [0.006, -0.006])
def test_a_return_error_past_its_limit_stops_the_sweep(error_mm: float):
    finding = return_error_past(error_mm, 0.003)
    assert finding is not None
    assert (finding.code, finding.blocking) == ("return-error", True)
    assert (finding.value_mm, finding.limit_mm) == (error_mm, 0.003)
    assert en(finding.said) == (
        "Back at the first position the gauge reads 0.006 mm different; allowed 0.003. "
        "Something moved: see to what holds the gauge and to the contact, and begin again."
    )


def test_an_inch_shop_is_told_in_inches():
    finding = return_error_past(25.4 * 0.0006, 25.4 * 0.0002, "in")
    assert finding is not None
    assert "reads 0.0006 in different; allowed 0.0002." in en(finding.said)


def test_a_spare_equation_within_its_limit_is_not_mentioned():
    assert spare_past(0.002, 0.002) is None
    assert spare_past(-0.002, 0.002) is None


@pytest.mark.parametrize("spare_mm", [0.010, -0.010])
def test_readings_that_do_not_fit_together_stop_the_sweep(spare_mm: float):
    finding = spare_past(spare_mm, 0.002)
    assert finding is not None
    assert (finding.code, finding.blocking) == ("spare-equation", True)
    assert en(finding.said) == (
        "The middle of left–right is not level with the middle of front–back: 0.020 mm apart; "
        "allowed 0.004. A chip under one contact, a spot taken at the wrong place, or the gauge "
        "zeroed on the way: wipe and sweep again."
    )


def test_the_same_twice_is_the_surface_and_does_not_stop_the_sweep():
    finding = spare_past(0.010, 0.002, earlier_mm=0.0085)
    assert finding is not None
    assert (finding.code, finding.blocking) == ("form", False)
    assert en(finding.said) == (
        "The middle of left–right is not level with the middle of front–back: 0.020 mm apart, "
        "as before; allowed 0.004. The surface itself is not flat there."
    )


def test_the_middles_said_to_differ_do_differ_by_so_much(swept):
    read = [1.200, 1.214, 1.180, 1.210]
    spare_mm = fit(swept(read), 100.0, drift=False).spare_mm
    apart = abs((read[0] + read[2]) / 2.0 - (read[1] + read[3]) / 2.0)
    finding = spare_past(spare_mm, 0.002)
    assert finding is not None
    assert f": {apart:.3f} mm apart" in en(finding.said)


def test_an_inch_shop_is_told_of_the_middles_in_inches():
    finding = spare_past(25.4 * 0.0004, 25.4 * 0.0001, "in")
    assert finding is not None
    assert ": 0.0008 in apart; allowed 0.0002." in en(finding.said)


def test_not_the_same_twice_still_stops_the_sweep():
    finding = spare_past(0.010, 0.002, earlier_mm=-0.010)
    assert finding is not None and finding.blocking


@pytest.fixture
def stops(swept):
    """Say whether readings in the order front, right, back, left stop the sweep."""

    def found(*read: float) -> bool:
        spare_mm = fit(swept(list(read)), 100.0, drift=False).spare_mm
        return spare_past(spare_mm, spare_limit_mm(0.001, 0.0167)) is not None

    return found


FRONT, RIGHT, BACK, LEFT = 1.24, 1.25, 1.16, 1.15


def test_a_sweep_as_it_should_be_goes_on(stops):
    assert not stops(FRONT, RIGHT, BACK, LEFT)


def test_adjacent_positions_swapped_are_seen_when_their_readings_differ(stops):
    assert stops(RIGHT, FRONT, BACK, LEFT)
    assert stops(FRONT, BACK, RIGHT, LEFT)
    assert stops(FRONT, RIGHT, LEFT, BACK)
    assert stops(LEFT, RIGHT, BACK, FRONT)
    assert not stops(FRONT, FRONT, BACK, BACK)


def test_a_zero_next_to_the_first_or_last_position_is_seen(stops):
    assert stops(FRONT, RIGHT - 1.2, BACK - 1.2, LEFT - 1.2)
    assert stops(FRONT, RIGHT, BACK, LEFT - 1.2)


def test_a_zero_half_way_is_left_to_the_return_error(stops):
    assert not stops(FRONT, RIGHT, BACK - 1.2, LEFT - 1.2)
    assert return_error_past(return_error(FRONT, FRONT - 1.2), 0.0033) is not None


def test_a_circle_walked_wrongly_is_left_to_the_parked_reading(stops):
    the_other_way_round = (FRONT, LEFT, BACK, RIGHT)
    half_a_turn_off = (BACK, LEFT, FRONT, RIGHT)
    assert not stops(*the_other_way_round)
    assert not stops(*half_a_turn_off)


def test_a_ridge_within_its_limit_is_not_mentioned():
    assert second_past(Second(0.002, 30.0, None), 0.002) is None


@pytest.mark.parametrize(
    ("direction_deg", "high", "low"),
    [
        (0.0, "left–right", "front–back"),
        (46.0, "back right–front left", "back left–front right"),
        (89.0, "front–back", "left–right"),
        (135.0, "back left–front right", "back right–front left"),
        (179.0, "left–right", "front–back"),
    ],
)
def test_a_ridge_is_said_with_its_line_and_stops_nothing(direction_deg, high, low):
    finding = second_past(Second(0.006, direction_deg, None), 0.002)
    assert finding is not None
    assert (finding.code, finding.blocking) == ("second-harmonic", False)
    assert (finding.value_mm, finding.limit_mm) == (0.006, 0.002)
    assert en(finding.said) == (
        f"The surface itself is not flat: along {high} it stands 0.012 mm higher than along "
        f"{low}; allowed 0.004. The lean is not touched by it."
    )


def test_positions_that_take_a_ridge_for_lean_are_said():
    finding = aliased((270.0, 0.0, 180.0, 270.0))
    assert finding is not None
    assert (finding.code, finding.blocking) == ("aliasing", False)
    assert en(finding.said) == (
        "With three positions a surface that is not flat reads as lean and nothing can tell."
    )


@pytest.mark.parametrize("step", [90, 45])
def test_positions_that_show_a_ridge_are_not_mentioned(step: int):
    assert aliased([float(azimuth) for azimuth in range(0, 360, step)]) is None
