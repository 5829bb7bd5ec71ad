import pytest

from daq.checks.sweep.findings import (
    return_error_past,
    return_limit_mm,
    spare_limit_mm,
    spare_past,
)
from daq.checks.sweep.reduce import fit, return_error


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
    assert finding.say == (
        "Back at the first position the gauge reads 0.006 mm different; allowed 0.003. "
        "Something moved: see to the arm and the contact and sweep again."
    )


def test_an_inch_shop_is_told_in_inches():
    finding = return_error_past(25.4 * 0.0006, 25.4 * 0.0002, "in")
    assert finding is not None
    assert "reads 0.0006 in different; allowed 0.0002." in finding.say


def test_a_spare_equation_within_its_limit_is_not_mentioned():
    assert spare_past(0.002, 0.002) is None
    assert spare_past(-0.002, 0.002) is None


@pytest.mark.parametrize("spare_mm", [0.010, -0.010])
def test_readings_that_do_not_fit_together_stop_the_sweep(spare_mm: float):
    finding = spare_past(spare_mm, 0.002)
    assert finding is not None
    assert (finding.code, finding.blocking) == ("spare-equation", True)
    assert finding.say == (
        "The readings do not fit together: front and back against left and right are "
        "0.010 mm apart; allowed 0.002. A chip under the contact, two positions swapped, "
        "or the gauge zeroed on the way: wipe and sweep again."
    )


def test_the_same_twice_is_the_surface_and_does_not_stop_the_sweep():
    finding = spare_past(0.010, 0.002, earlier_mm=0.0085)
    assert finding is not None
    assert (finding.code, finding.blocking) == ("form", False)
    assert finding.say == (
        "Front and back against left and right are 0.010 mm apart, as before; allowed "
        "0.002. The surface itself is not flat there."
    )


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
