import pytest

from daq.metrology.jump import Jump, preset_noticed

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
