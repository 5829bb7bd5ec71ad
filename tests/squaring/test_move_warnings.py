from hypothesis import given, settings
from hypothesis import strategies as st

from daq.squaring.adjuster import warnings
from tests.words import en


def codes(*args, **kwargs):
    return [warned.code for warned in warnings(*args, **kwargs)]


def test_a_move_within_the_gauge_is_not_warned_of():
    """A plunger about 1 mm pushed in, a tenth to go: common practice, no source."""
    assert warnings(1.0, 0.9, 0.0, 12.7, "plunger", 0.001, "mm") == ()
    assert warnings(0.15, 0.10, 0.0, 0.8, "lever", 0.001, "mm") == ()


def test_the_end_of_the_travel_is_foreseen():
    (warned,) = warnings(12.0, 12.9, 0.0, 12.7, "plunger", 0.001, "mm")
    assert warned.code == "move-past-travel"
    assert en(warned) == (
        "The gauge runs out of travel 0.202 before the stop-at. "
        "Set it with less preload and read this spot again."
    )


def test_too_little_preload_is_foreseen():
    (warned,) = warnings(1.0, 0.3, 0.0, 12.7, "plunger", 0.001, "mm")
    assert warned.code == "move-little-preload"
    assert en(warned).startswith("This move leaves the contact only 0.300 pushed in.")
    (inch,) = warnings(1.0, 0.254, 0.0, 12.7, "plunger", 0.001, "in")
    assert en(inch).startswith("This move leaves the contact only 0.0100 pushed in.")


def test_the_contact_leaving_the_surface_is_foreseen():
    for stop in (0.0, -0.5):
        (warned,) = warnings(1.0, stop, 0.0, 12.7, "plunger", 0.001, "mm")
        assert warned.code == "move-lifts-contact"
        assert en(warned).startswith("This move lifts the contact off the surface.")


def test_a_lever_lives_on_less():
    assert codes(0.2, 0.1, 0.0, 0.8, "lever", 0.001, "mm") == []
    assert codes(0.2, 0.04, 0.0, 0.8, "lever", 0.001, "mm") == ["move-little-preload"]


def test_a_contact_hardly_pushed_in_is_said_before_it_is_moved_either_way():
    assert codes(0.2, 0.3, 0.0, 12.7, "plunger", 0.001, "mm") == ["move-little-preload"]


def test_what_no_setting_of_the_gauge_can_follow_needs_a_scale_first():
    (warned,) = warnings(0.5, 1.5, 0.0, 0.8, "lever", 0.001, "mm")
    assert warned.code == "move-off-scale"
    assert "scale or square" in en(warned)


def test_a_move_must_leave_room_for_its_preload():
    """A lever of 0.8 mm that must keep 0.05 of it has no room for a move of 0.78."""
    assert codes(0.01, 0.79, 0.0, 0.8, "lever", 0.001, "mm") == ["move-off-scale"]
    assert codes(0.06, 0.79, 0.0, 0.8, "lever", 0.001, "mm") == []


def test_going_past_counts_too():
    reach = (12.0, 12.68, 0.0, 12.7, "plunger", 0.001, "mm")
    assert codes(*reach) == []
    assert codes(*reach, past_stop_mm=0.05) == ["move-past-travel"]
    down = (1.0, 0.52, 0.0, 12.7, "plunger", 0.001, "mm")
    assert codes(*down) == []
    assert codes(*down, past_stop_mm=0.05) == ["move-little-preload"]


def test_without_the_free_reading_only_the_size_is_judged():
    assert codes(12.0, 12.9, None, 12.7, "plunger", 0.001, "mm") == []
    assert codes(0.0, 13.0, None, 12.7, "plunger", 0.001, "mm") == ["move-off-scale"]


@given(
    st.floats(0.0, 12.0),
    st.floats(0.0, 12.0),
    st.floats(-50.0, 50.0),
    st.sampled_from(["plunger", "lever"]),
)
@settings(derandomize=True)
def test_the_gauges_zero_changes_no_warning(base, stop, zero, kind):
    # Half a count apart from any border, so that the last bit of a sum decides nothing.
    base, stop, zero = (round(v, 2) + 0.0005 for v in (base, stop, zero))
    plainly = codes(base, stop, 0.00025, 10.0, kind, 0.001, "mm")
    assert codes(base + zero, stop + zero, 0.00025 + zero, 10.0, kind, 0.001, "mm") == plainly
