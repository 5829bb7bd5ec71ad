"""How warm it is, by the kernel's thermometers."""

import pytest

ZONE = "/sys/class/thermal/thermal_zone"


@pytest.mark.parametrize(
    ("milli", "trips", "fine", "limit"),
    [
        (47_000, [], True, 80),
        (79_499, [], True, 80),
        (80_000, [], False, 80),
        (70_000, [110_000], True, 80),
        (81_000, [110_000], False, 80),
        (64_000, [70_000, 110_000], True, 65),
        (65_000, [70_000, 110_000], False, 65),
        (47_000, [0, -274_000], True, 80),
    ],
)
def test_too_warm_is_by_the_kernels_own_limits_and_at_most_eighty(
    made, look, milli, trips, fine, limit
):
    made.put(f"{ZONE}0/temp", milli)
    for nth, trip in enumerate(trips):
        made.put(f"{ZONE}0/trip_point_{nth}_temp", trip)
    (found,) = look("temperature")
    assert (found.fine, found.found.of["limit"]) == (fine, limit)


def test_the_zone_nearest_to_its_limit_is_told(made, look):
    made.put(f"{ZONE}0/temp", 60_000)
    made.put(f"{ZONE}1/temp", 55_000)
    made.put(f"{ZONE}1/trip_point_0_temp", 60_000)
    (found,) = look("temperature")
    assert found.found.of == {"degrees": 55, "limit": 55}


def test_a_computer_without_a_thermometer_cannot_tell(made, look):
    made.put(f"{ZONE}0/temp", "none")
    (found,) = look("temperature")
    assert found.fine and found.found.code == "doctor-no-thermometer"
