import pytest

from daq.metrology.jump import Jump, preset_noticed, zeroed_at_rest

RES = 0.001


def test_a_preset_is_noticed(samples):
    run = samples([1.2] * 6 + [5.0] * 10, hz=50.0)
    assert preset_noticed(run, RES) == Jump(before_mm=1.2, after_mm=5.0, n=6)


@pytest.mark.parametrize(
    "values",
    [
        [1.2] * 6 + [1.3] * 10,  # a head that drops a tenth
        [1.2] * 6 + [5.0] * 9,  # not still for long enough yet
        [1.2] * 6 + [5.0 + 0.01 * k for k in range(12)],  # goes on moving
        [1.2 + 0.01 * k for k in range(6)] + [5.0] * 10,  # was moving before
        [1.2 + 0.2 * k for k in range(20)],  # swings past
        [],
    ],
)
def test_nothing_else_is(samples, values):
    assert preset_noticed(samples(values, hz=50.0), RES) is None


def test_a_little_zero_at_rest_is_noticed(samples):
    run = samples([0.5, 0.1, *[0.002] * 12, *[0.0] * 10, 0.4, 1.0], hz=10.0)
    assert zeroed_at_rest(run, RES, 0.012) == Jump(before_mm=0.002, after_mm=0.0, n=14)


@pytest.mark.parametrize(
    "values",
    [
        [0.001] * 12 + [0.0] * 12,  # a digit that flickered
        [0.02] * 12 + [0.0] * 12,  # further than a gauge's error: told by the reading itself
        [0.002] * 9 + [0.0] * 12,  # not at rest for long enough
        [0.002] * 12 + [0.001] + [0.0] * 12,  # crept
        [0.002] * 12 + [0.0, 0.002] * 6,
        [],
    ],
)
def test_what_a_gauge_does_by_itself_is_no_little_zero(samples, values):
    assert zeroed_at_rest(samples(values, hz=10.0), RES, 0.012) is None
